"""Pages that are asked for one by one: blocks side by side, and drawings of seasons."""

from collections.abc import Sequence
from pathlib import Path

from geo.comparison.side_by_side import SideBySide
from geo.exports.comparison_page import write_comparison_page
from geo.exports.days_page import write_days_page
from geo.exports.out_folder import output_folder
from geo.exports.plot_files import (
    DRAWINGS,
    drawing_paths,
    write_days_drawing,
    write_drawings,
)
from geo.exports.png import write_png
from geo.exports.season_page import write_season_page
from geo.pipeline.run import Outcome
from geo.texts import mark


def write_comparison(
    outcome: Outcome, key: str, compared: SideBySide, folder: Path
) -> dict[str, Path]:
    """
    Write the page of blocks side by side.

    Parameters
    ----------
    outcome : Outcome
        What a run decided.
    key : str
        Of the disease.
    compared : SideBySide
        The blocks.
    folder : pathlib.Path
        Made if it is not there.

    Returns
    -------
    dict of str to pathlib.Path
        What each file is for, and where it is.
    """
    paths = {mark("side by side"): folder / "comparison.html"}
    with output_folder(folder, read=outcome.farm.files, paths=paths):
        write_comparison_page(
            paths["side by side"],
            farm=outcome.farm,
            season=outcome.seasons[key],
            compared=compared,
        )
    return paths


def write_plots(
    outcome: Outcome,
    key: str,
    folder: Path,
    *,
    blocks: Sequence[str] | None,
    with_files: bool = False,
    with_png: bool = False,
) -> dict[str, Path]:
    """
    Write the seasons of blocks and the farm's blocks by day.

    Parameters
    ----------
    outcome : Outcome
        What a run decided.
    key : str
        Of the disease.
    folder : pathlib.Path
        Made if it is not there.
    blocks : sequence of str or None
        Whose seasons; None for all, as many as a page holds.
    with_files : bool
        Whether each drawing is written as an SVG file too.
    with_png : bool
        Whether each of those is written as PNG as well.

    Returns
    -------
    dict of str to pathlib.Path
        What each file or folder is for, and where it is.
    """
    farm, season = outcome.farm, outcome.seasons[key]
    paths = {
        mark("seasons"): folder / "season.html",
        mark("blocks by day"): folder / "blocks-by-day.html",
    }
    drawings = drawing_paths(folder, season=season, blocks=blocks) if with_files else {}
    by_day = folder / DRAWINGS / "blocks-by-day.svg"
    every = paths | {path.name: path for path in drawings.values()} | {by_day.name: by_day}
    with output_folder(folder, read=farm.files, paths=every):
        write_season_page(paths["seasons"], farm=farm, season=season, blocks=blocks)
        write_days_page(paths["blocks by day"], farm=farm, season=season)
        if with_files:
            write_drawings(drawings, farm=farm, season=season)
            write_days_drawing(by_day, farm=farm, season=season)
        if with_png:
            for drawing in (*drawings.values(), by_day):
                write_png(drawing)
    return paths | ({mark("drawings"): folder / DRAWINGS} if with_files else {})
