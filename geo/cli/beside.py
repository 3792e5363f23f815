"""The command that lays blocks side by side, and what it prints."""

from collections.abc import Iterator
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
    farm_here,
)
from geo.cli.speech import days_told, factor_lines, fail, print_paths, progress
from geo.errors import InputError, stop

if TYPE_CHECKING:
    import xarray as xr

    from geo.comparison.side_by_side import SideBySide
    from geo.pipeline import Outcome

LEAST_BLOCKS = 2


def compare(  # numpydoc ignore=PR01
    blocks: Annotated[
        list[str], typer.Argument(help="Ids of two blocks or more; the first is the yardstick.")
    ],
    untreated: Annotated[
        str | None,
        typer.Option(metavar="BLOCK", help="Block that got no spray: the check for efficacy."),
    ] = None,
    disease: DiseaseOption = None,
    farm: FarmOption = None,
    out: Annotated[Path, typer.Option("--out", help="Folder for the page.")] = DEFAULT_OUT,
) -> None:
    """Lay blocks side by side: factors, seasons, counts, cultivars and what sprays did."""
    from geo.comparison.side_by_side import side_by_side
    from geo.pipeline import run
    from geo.pipeline.pages import write_comparison

    folder = farm or farm_here()
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
        found = "one block has nothing beside it"
        raise stop("E-COMPARE-ONE", "mangoblock compare", found, "Name two blocks or more")


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
        found = f"the diary has sprays on {untreated} ({', '.join(done)})"
        fix = "Name a block without any spray, or leave the option out"
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
    made = " (made scenario)" if outcome.farm.is_made else ""
    yield f"{outcome.farm.name}{made}: {compared.disease.name}, hazard of {days_told(outcome)}"
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
    yield (
        f"Counted {compared.disease.organs}, with 95 % intervals:"
        if rows
        else ("Nobody counted in these blocks.")
    )
    for row in rows:
        yield (
            f"  {row['block']}  {row['day']:<10}  {row['infected']} of {row['inspected']}: "
            f"{row['share']} % ({row['low']} to {row['high']})"
        )
    for record, row in zip(compared.records, record_rows(compared.records, frame), strict=True):
        if not isnan(record.area):
            yield (
                f"  {row['block']}  area under the curve {row['area']} % x days, mean "
                f"{row['mean']} %, {row['first']} to {row['last']}"
            )
    if any(not isnan(record.area) for record in compared.records):
        yield f"  {SPANS}"


def _cultivar_lines(compared: "SideBySide") -> Iterator[str]:
    from geo.comparison.words import CONFOUNDED
    from geo.exports.comparison_tables import cultivar_cells

    if not compared.cultivars:
        yield "Cultivars: no block of a single one was counted in the last two weeks."
        return
    yield "Cultivars of the farm, newest counts:"
    width = max(len(row.cultivar) for row in compared.cultivars)
    for row in cultivar_cells(compared.cultivars):
        yield (
            f"  {row['cultivar']:<{width}}  {row['infected']} of {row['inspected']}: "
            f"{row['share']} % ({row['low']} to {row['high']}), in {row['blocks']}"
        )
    yield f"  {CONFOUNDED}"


def _trial_lines(compared: "SideBySide", season: "xr.Dataset") -> Iterator[str]:
    from geo.comparison.words import NO_CHECK, ONE_CHECK
    from geo.exports.comparison_tables import trial_cells
    from geo.exports.season_frame import frame_of

    if compared.untreated is None:
        yield f"What the sprays did: {NO_CHECK}"
        return
    yield f"What the sprays did, against {compared.untreated} as the untreated check:"
    for row in trial_cells(compared.trials, frame_of(season)):
        yield (
            f"  {row['block']}  after Abbott {row['abbott']}; Henderson and Tilton "
            f"{row['henderson_tilton']}; {row['sprays']}. {row['remark']}".rstrip()
        )
    yield f"  {ONE_CHECK}"
