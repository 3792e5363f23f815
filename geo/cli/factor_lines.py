"""What is told of two blocks held against each other, and of single ones."""

from collections.abc import Iterator
from math import isnan, nan
from typing import TYPE_CHECKING

from geo.cli.speech import days_told
from geo.ranking.comparison import Comparison
from geo.texts import phrase, phrase_of

if TYPE_CHECKING:
    import xarray as xr

    from geo.pipeline import Outcome
    from geo.pipeline.run import Orders


def factor_lines(comparison: Comparison, outcome: "Outcome") -> Iterator[str]:
    """
    Return the factor table as lines of text.

    Parameters
    ----------
    comparison : Comparison
        The two blocks.
    outcome : Outcome
        For the days looked at.

    Yields
    ------
    str
        Ratios to five significant digits, so that their product is the printed total.
    """
    block, other = comparison.block, comparison.against
    width = max(9, len(block), len(other)) + 1
    yield phrase(
        "{block} against {other}: mean hazard index of {days}",
        block=block,
        other=other,
        days=days_told(outcome),
    )
    if comparison.disease.key != outcome.farm.settings.disease:
        yield phrase("Of {disease}.", disease=phrase_of(comparison.disease.name))
    yield ""
    names = [phrase_of(row.factor.name) for row in comparison.rows]
    total = phrase("all together")
    first = max(17, *map(len, names), len(total)) + 1
    yield (
        f"{phrase('factor'):<{first}}{block:>{width}}{other:>{width}}{phrase('ratio'):>12}"
        f"{phrase('share'):>8}  {phrase('standing')}"
    )
    for name, row in zip(names, comparison.rows, strict=True):
        yield (
            f"{name:<{first}}{row.value:>#{width}.4g}{row.other:>#{width}.4g}"
            f"{_ratio(row.ratio, digits=5):>12}{_share(row.share):>8}  {phrase_of(row.standing)}"
        )
    has_shares = any(not isnan(row.share) for row in comparison.rows)
    yield (
        f"{total:<{first}}{comparison.hazard:>#{width}.4g}"
        f"{comparison.against_hazard:>#{width}.4g}{_ratio(comparison.ratio, digits=4):>12}"
        f"{_share(1.0 if has_shares else nan):>8}"
    )
    yield ""
    yield phrase(
        "The ratios multiply to the last one; shares are of the difference, as logarithms."
    )


def block_lines(orders: "Orders", season: "xr.Dataset", names: list[str]) -> Iterator[str]:
    """
    Return what is said of single blocks: their ground, spores, sprays, and a look at them.

    Parameters
    ----------
    orders : Orders
        Of the day, for the disease.
    season : xarray.Dataset
        Of the disease.
    names : list of str
        Ids of the blocks.

    Yields
    ------
    str
        Lines that begin with the block.
    """
    from geo.ranking.arrival_words import arrival_words
    from geo.ranking.ground import ground_words
    from geo.ranking.spray_words import spray_words

    places = [season.block.values.tolist().index(name) for name in names]
    for name, place in zip(names, places, strict=True):
        for words in (ground_words(season, place), arrival_words(season, place)):
            if words:
                yield f"{name}. {words}"
    for name, words in zip(names, spray_words(season, places), strict=True):
        yield f"{name}. {words}"
    for walk in orders.scouting.entries:
        if walk.block in names:
            yield phrase(
                "{block}. Scouting order no. {rank}. {reason} {proof} {when}",
                block=walk.block,
                rank=walk.rank,
                reason=walk.reason,
                proof=walk.proof,
                when=walk.when,
            )


def _ratio(ratio: float, *, digits: int) -> str:
    return phrase("no ratio") if isnan(ratio) else f"{ratio:#.{digits}g}"


def _share(share: float) -> str:
    return "" if isnan(share) else f"{round(share * 100) + 0}%"
