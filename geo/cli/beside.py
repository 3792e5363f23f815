"""The command that lays blocks side by side, and what it prints."""

from collections.abc import Iterator, Mapping
from math import isnan
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from geo.cli.choices import (
    DEFAULT_OUT,
    DiseaseOption,
    FarmOption,
    check_block,
    disease_asked,
    farm_asked,
)
from geo.cli.factor_lines import factor_lines
from geo.cli.speech import days_told, fail, print_paths, progress
from geo.errors import InputError, stop
from geo.exports.farm_title import farm_title
from geo.texts import phrase, phrase_of

if TYPE_CHECKING:
    import xarray as xr

    from geo.comparison.side_by_side import SideBySide
    from geo.pipeline import Outcome

LEAST_BLOCKS = 2


def compare(  # numpydoc ignore=PR01
    blocks: Annotated[
        list[str],
        typer.Argument(help=phrase("Ids of two blocks or more; the first is the yardstick.")),
    ],
    untreated: Annotated[
        str | None,
        typer.Option(
            metavar="BLOCK", help=phrase("Block that got no spray: the check for efficacy.")
        ),
    ] = None,
    disease: DiseaseOption = None,
    farm: FarmOption = None,
    out: Annotated[Path, typer.Option("--out", help=phrase("Folder for the page."))] = DEFAULT_OUT,
) -> None:
    """Lay blocks side by side: factors, seasons, counts, cultivars and what sprays did."""
    from geo.comparison.side_by_side import side_by_side
    from geo.pipeline import run
    from geo.pipeline.pages import write_comparison

    folder = farm_asked(farm)
    wanted = list(dict.fromkeys(blocks))
    try:
        with progress() as say:
            _check_count(wanted)
            outcome = run(folder, say=say)
            key = disease_asked(disease, outcome.farm.settings.disease).key
            season = outcome.seasons[key]
            _check_names(season, wanted, untreated, str(folder))
            compared = side_by_side(season, wanted, untreated=untreated)
            paths = write_comparison(outcome, key, compared, out)
    except InputError as error:
        raise fail(error) from error
    for line in side_by_side_lines(compared, outcome, season):
        typer.echo(line)
    print_paths(paths)


def _check_count(wanted: list[str]) -> None:
    if len(wanted) < LEAST_BLOCKS:
        found = phrase("one block has nothing beside it")
        fix = phrase("Name two blocks or more")
        raise stop("E-COMPARE-ONE", "mangoblock compare", found, fix)


def _check_names(
    season: "xr.Dataset", wanted: list[str], untreated: str | None, folder: str
) -> None:
    """Refuse unknown blocks, and a check that the diary says was sprayed."""
    from geo.comparison.sprays import sprays_of

    known = season["block"].values.tolist()
    for name in wanted:
        check_block(name, known, folder)
    if untreated is None:
        return
    check_block(untreated, known, "--untreated")
    sprays = sprays_of(season, known.index(untreated))
    done = dict.fromkeys(spray.material for spray in sprays if not spray.is_planned)
    if done:
        found = phrase(
            "the diary has sprays on {block} ({materials})",
            block=untreated,
            materials=", ".join(map(phrase_of, done)),
        )
        fix = phrase("Name a block without any spray, or leave the option out")
        raise stop("E-CHECK-SPRAYED", "--untreated", found, fix)


def side_by_side_lines(
    compared: "SideBySide", outcome: "Outcome", season: "xr.Dataset"
) -> Iterator[str]:
    """
    Return blocks side by side as lines of text.

    Parameters
    ----------
    compared : SideBySide
        The blocks.
    outcome : Outcome
        For the days looked at.
    season : xarray.Dataset
        Of the disease.

    Yields
    ------
    str
        Factor tables, counts, areas, cultivars and efficacies.
    """
    yield phrase(
        "{farm}: {disease}, hazard of {days}",
        farm=farm_title(outcome.farm),
        disease=phrase_of(compared.disease.name),
        days=days_told(outcome),
    )
    for comparison in compared.comparisons:
        yield ""
        yield from factor_lines(comparison, outcome)
    yield ""
    yield from _count_lines(compared, season)
    yield ""
    yield from _cultivar_lines(compared)
    yield ""
    yield from _trial_lines(compared, season)
    yield ""


def _count_lines(compared: "SideBySide", season: "xr.Dataset") -> Iterator[str]:
    from geo.comparison.words import SPANS
    from geo.exports.comparison_tables import count_rows, record_rows
    from geo.exports.season_frame import frame_of

    frame = frame_of(season)
    rows = count_rows(compared.records, frame)
    organs = phrase_of(compared.disease.organs)
    yield (
        phrase("Counted {organs}, with 95 % intervals:", organs=organs)
        if rows
        else phrase("Nobody counted in these blocks.")
    )
    for row in rows:
        yield f"  {row['block']}  {row['day']:<10}  {_share_words(row)}"
    for record, row in zip(compared.records, record_rows(compared.records, frame), strict=True):
        if not isnan(record.area):
            told = phrase(
                "{block}  area under the curve {area} % x days, mean {mean} %, {first} to {last}",
                **{name: row[name] for name in ("block", "area", "mean", "first", "last")},
            )
            yield f"  {told}"
    if any(not isnan(record.area) for record in compared.records):
        yield f"  {phrase_of(SPANS)}"


def _share_words(row: Mapping[str, object]) -> str:
    """Return what was found of what was looked at, with its interval."""
    return phrase(
        "{infected} of {inspected}: {share} % ({low} to {high})",
        **{name: row[name] for name in ("infected", "inspected", "share", "low", "high")},
    )


def _cultivar_lines(compared: "SideBySide") -> Iterator[str]:
    from geo.comparison.words import CONFOUNDED
    from geo.exports.comparison_tables import cultivar_cells

    if not compared.cultivars:
        yield phrase("Cultivars: no block of a single one was counted in the last two weeks.")
        return
    yield phrase("Cultivars of the farm, newest counts:")
    width = max(len(row.cultivar) for row in compared.cultivars)
    for row in cultivar_cells(compared.cultivars):
        told = phrase("{share}, in {blocks}", share=_share_words(row), blocks=row["blocks"])
        yield f"  {row['cultivar']:<{width}}  {told}"
    yield f"  {phrase_of(CONFOUNDED)}"


def _trial_lines(compared: "SideBySide", season: "xr.Dataset") -> Iterator[str]:
    from geo.comparison.words import NO_CHECK, ONE_CHECK
    from geo.exports.comparison_tables import trial_cells
    from geo.exports.season_frame import frame_of

    if compared.untreated is None:
        yield phrase("What the sprays did: {why_not}", why_not=phrase_of(NO_CHECK))
        return
    yield phrase(
        "What the sprays did, against {block} as the untreated check:", block=compared.untreated
    )
    for row in trial_cells(compared.trials, frame_of(season)):
        told = phrase(
            "{block}  after Abbott {abbott}; Henderson and Tilton {henderson_tilton}; {sprays}. "
            "{remark}",
            **{
                name: row[name]
                for name in ("block", "abbott", "henderson_tilton", "sprays", "remark")
            },
        )
        yield f"  {told}".rstrip()
    yield f"  {phrase_of(ONE_CHECK)}"
