"""The command that asks what would come of something, and what it prints."""

from collections.abc import Iterator, Sequence
from math import isnan
from typing import TYPE_CHECKING, Annotated

import typer

from geo.cli.choices import DiseaseOption, FarmOption, disease_asked, farm_asked
from geo.cli.factor_lines import factor_lines
from geo.cli.speech import days_told, fail, progress
from geo.errors import InputError
from geo.exports.farm_title import farm_title
from geo.ranking.sentences import two_digits
from geo.ranking.then_and_now import largest, move_words
from geo.texts import mark, phrase, phrase_of, phrases

if TYPE_CHECKING:
    import xarray as xr

    from geo.pipeline import Outcome
    from geo.pipeline.effects import Effect

MOST_SHOWN = 40  # our own choice: a screen
SPLIT_SHOWN = 2  # our own choice: how many blocks have their change split
NOTHING = mark("This changes nothing: no hazard, no rank and no protection differs.")


CROSSINGS = {
    -1: mark("Falls to the reapply line of {line:.2f} by then ({count}): {blocks}"),
    1: mark("Comes above the reapply line of {line:.2f} by then ({count}): {blocks}"),
}


def suppose(  # noqa: PLR0913, PLR0917 - one parameter an option; numpydoc ignore=PR01
    rain: Annotated[
        list[str] | None,
        typer.Option(
            metavar="MM[@HOURS]",
            help=phrase("More rain: over the coming night, or over hours such as 22-02."),
        ),
    ] = None,
    warmer: Annotated[
        list[str] | None,
        typer.Option(metavar="K", help=phrase("Warmer forecast hours, in kelvins.")),
    ] = None,
    stage: Annotated[
        list[str] | None, typer.Option(metavar="BLOCK=BBCH", help=phrase("A block's stage today."))
    ] = None,
    spray: Annotated[
        list[str] | None,
        typer.Option(
            metavar="BLOCK[;BLOCK]=MATERIAL@WHEN",
            help=phrase("A spray: now, today, tomorrow or a date, with or without T06:30."),
        ),
    ] = None,
    cultivar: Annotated[
        list[str] | None, typer.Option(metavar="BLOCK=NAME", help=phrase("A block's cultivar."))
    ] = None,
    without_neighbour: Annotated[
        list[str] | None, typer.Option(metavar="ID", help=phrase("A neighbour that is not there."))
    ] = None,
    neighbour: Annotated[
        list[str] | None,
        typer.Option(metavar="ID=STATUS", help=phrase("Its disease: known, suspected or unknown.")),
    ] = None,
    disease: DiseaseOption = None,
    farm: FarmOption = None,
) -> None:
    """
    Print what would come of rain, warmth, stages, sprays, cultivars or neighbours you suppose.

    No file is read differently or written. Each option may be given several times.
    """
    from geo.pipeline.effects import effects
    from geo.pipeline.run import decided, read
    from geo.pipeline.suppositions import supposed, suppositions

    asked = {
        "--rain": rain,
        "--warmer": warmer,
        "--stage": stage,
        "--spray": spray,
        "--cultivar": cultivar,
        "--neighbour": neighbour,
        "--without-neighbour": without_neighbour,
    }
    folder = farm_asked(farm)
    try:
        with progress() as say:
            known, season = read(folder, say=say)
            of = disease_asked(disease, known.settings.disease)
            given = {option: words or [] for option, words in asked.items()}
            found = suppositions(given, season, zone=known.zone)
            before = decided(known, season, say=say)
            after = decided(known, supposed(season, found), say=say)
    except InputError as error:
        raise fail(error) from error
    typer.echo(
        phrase(
            "{farm}, {today}: {disease}, hazard of {days}",
            farm=farm_title(known),
            today=known.today,
            disease=phrase_of(of.name),
            days=days_told(before),
        )
    )
    typer.echo(phrase("Supposed, in memory only:"))
    for one in found:
        typer.echo(f"  {one.words}")
    typer.echo("")
    as_is, as_supposed = before.seasons[of.key], after.seasons[of.key]
    for line in effect_lines(effects(as_is, as_supposed), before, as_is):
        typer.echo(line)


def effect_lines(
    found: Sequence["Effect"], outcome: "Outcome", season: "xr.Dataset"
) -> Iterator[str]:
    """
    Return what comes of a supposition as lines of text.

    Parameters
    ----------
    found : sequence of Effect
        Every block's.
    outcome : Outcome
        As it is, for the days looked at.
    season : xarray.Dataset
        Of the disease, as it is.

    Yields
    ------
    str
        A table of the blocks that differ, those that cross the reapply line, and the exact split
        of the largest changes.
    """
    differ = [effect for effect in found if effect.is_any]
    if not differ:
        yield phrase_of(NOTHING)
        return
    yield from _table(differ, season)
    if len(differ) < len(found):
        yield phrases(
            "The same as now: {same} of {count} block",
            "The same as now: {same} of {count} blocks",
            len(found),
            same=len(found) - len(differ),
        )
    yield from _crossings(found, season)
    for move in list(largest([effect.move for effect in differ]))[:SPLIT_SHOWN]:
        yield ""
        yield from factor_lines(move.comparison, outcome)
        yield f"{move.block}: {move_words(move)}"


def _table(differ: Sequence["Effect"], season: "xr.Dataset") -> Iterator[str]:
    block, now, then = phrase("block"), phrase("now"), phrase("supposed")
    width = max(len(block), *(len(effect.move.block) for effect in differ))
    yield (
        f"{'':<{width}}  {phrase('hazard'):^24}  {'':>7}  {phrase('rank'):^14}  "
        f"{phrase('protection left *'):^18}"
    )
    yield (
        f"{block:<{width}}  {now:>11}  {then:>11}  {phrase('ratio'):>7}  {now:>4}  "
        f"{then:>8}  {now:>8}  {then:>8}"
    )
    for effect in differ[:MOST_SHOWN]:
        one = effect.move.comparison
        ratio = "" if isnan(one.ratio) else two_digits(one.ratio)
        yield (
            f"{effect.move.block:<{width}}  {one.against_hazard:>#11.4g}  {one.hazard:>#11.4g}  "
            f"{ratio:>7}  {_rank(effect.move.rank_then):>4}  {_rank(effect.move.rank):>8}  "
            f"{effect.protection_before:>8.2f}  {effect.protection:>8.2f}"
        )
    if len(differ) > MOST_SHOWN:
        yield phrase("and {count} more", count=len(differ) - MOST_SHOWN)
    yield phrase("* at noon of {day}", day=_last_day(season))


def _crossings(found: Sequence["Effect"], season: "xr.Dataset") -> Iterator[str]:
    from geo.ranking.spray_words import reapply_line

    line = reapply_line(season)
    for way, words in CROSSINGS.items():
        blocks = [effect.move.block for effect in found if effect.crosses(line) == way]
        if blocks:
            yield phrase_of(words, line=line, count=len(blocks), blocks=", ".join(blocks))


def _last_day(season: "xr.Dataset") -> str:
    from geo.ranking.layer import days_ahead

    day = season.day.values[days_ahead(season).stop - 1]
    return str(day.astype("datetime64[D]"))


def _rank(rank: int | None) -> str:
    return "" if rank is None else f"{rank}"
