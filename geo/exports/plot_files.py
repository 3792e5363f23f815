"""The drawings of the pages as SVG files of their own, for reports and messages."""

import re
from collections.abc import Sequence
from pathlib import Path

import xarray as xr
from markupsafe import Markup

from geo.exports.days_page import days_data
from geo.exports.farm_title import farm_title
from geo.exports.files import write_text
from geo.exports.page_classes import NOT_KNOWN_COLOUR
from geo.exports.season_figure import limits_of, season_figure
from geo.exports.season_frame import frame_of
from geo.exports.season_page import block_section, places_of
from geo.exports.templates import filled, joined
from geo.exports.xml_text import xml_text
from geo.reference.diseases import disease_with
from geo.season.disease import disease_key
from geo.season.farm import Farm
from geo.texts import phrase_of
from geo.texts.days import day_words

DRAWINGS = "drawings"


def drawing_paths(
    folder: Path, *, season: xr.Dataset, blocks: Sequence[str] | None
) -> dict[int, Path]:
    """
    Return where the drawing of each block goes.

    Parameters
    ----------
    folder : pathlib.Path
        Of the outputs.
    season : xarray.Dataset
        Ranked.
    blocks : sequence of str or None
        Their ids; None for all, as many as the page draws.

    Returns
    -------
    dict of int to pathlib.Path
        By the block's place, which stands in the name too: no two blocks share a file, whatever
        characters their ids have.
    """
    ids = season["block"].values.tolist()
    return {
        place: folder / DRAWINGS / f"season-{place + 1:03d}-{_plain(ids[place])}.svg"
        for place in places_of(season, blocks)
    }


def write_drawings(paths: dict[int, Path], *, farm: Farm, season: xr.Dataset) -> None:
    """
    Write the season of each block as a file.

    Parameters
    ----------
    paths : dict of int to pathlib.Path
        As `drawing_paths` gives them.
    farm : Farm
        Names.
    season : xarray.Dataset
        Of one disease, ranked.
    """
    limits, frame = limits_of(season, paths), frame_of(season)
    for place, path in paths.items():
        path.parent.mkdir(parents=True, exist_ok=True)
        section = block_section(farm, season, place, frame)
        text = filled(
            "season.svg",
            block=" · ".join(filter(None, (section["block"], section["name"]))),
            about=_about(farm, season),
            figure=season_figure(season, place, limits),
            sprays=section["sprays"],
            style=_style(),
        )
        write_text(path, xml_text(text))


def write_days_drawing(path: Path, *, farm: Farm, season: xr.Dataset) -> None:
    """
    Write blocks by day as a file.

    Parameters
    ----------
    path : pathlib.Path
        Replaced only when the new drawing is complete.
    farm : Farm
        Names.
    season : xarray.Dataset
        Of one disease, ranked.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    text = filled(
        "days.svg",
        title=", ".join(_about(farm, season)),
        style=_style(),
        unknown_colour=NOT_KNOWN_COLOUR,
        **days_data(farm, season),
    )
    write_text(path, xml_text(text))


def _about(farm: Farm, season: xr.Dataset) -> tuple[str, str]:
    disease = phrase_of(disease_with(disease_key(season)).name)
    return farm_title(farm), f"{disease}, {day_words(farm.today)} {farm.today.year}"


def _style() -> Markup:
    return Markup(joined(("figure.css",)))  # noqa: S704 - our own style sheet


def _plain(name: str) -> str:
    return re.sub(r"[^A-Za-z0-9_-]+", "_", name)[:40]
