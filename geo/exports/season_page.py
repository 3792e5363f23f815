"""One still page with the season of each block, as drawings with the same axes."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np
import xarray as xr
from markupsafe import escape

from geo.comparison.sprays import Spray, sprays_of
from geo.exports.farm_title import farm_title
from geo.exports.files import write_text
from geo.exports.offline import still_page
from geo.exports.page_classes import class_word
from geo.exports.page_words import CAUTIONS, HONESTY, newest_measured
from geo.exports.season_figure import limits_of, season_figure
from geo.exports.season_frame import Frame, frame_of
from geo.exports.templates import filled, joined
from geo.ranking.sentences import two_digits
from geo.reference.diseases import disease_with
from geo.season.disease import disease_key
from geo.season.farm import Farm
from geo.texts import phrase, phrase_of
from geo.texts.days import day_words

MOST_BLOCKS = 300  # our own choice: a page that a phone still opens
STYLES = ("page.css", "rules.css", "figure.css", "plots.css", "contrast.css")


def write_season_page(
    path: Path, *, farm: Farm, season: xr.Dataset, blocks: Sequence[str] | None = None
) -> None:
    """
    Write the page.

    Parameters
    ----------
    path : pathlib.Path
        Replaced only when the new page is complete.
    farm : Farm
        Names.
    season : xarray.Dataset
        Of one disease, ranked.
    blocks : sequence of str, optional
        Which; else all, the largest hazard first, as many as one page holds.
    """
    write_text(path, season_html(farm=farm, season=season, blocks=blocks))


def season_html(*, farm: Farm, season: xr.Dataset, blocks: Sequence[str] | None = None) -> str:
    """
    Return the page.

    Parameters
    ----------
    farm : Farm
        Names.
    season : xarray.Dataset
        Of one disease, ranked.
    blocks : sequence of str, optional
        Which; else all, the largest hazard first, as many as one page holds.

    Returns
    -------
    str
        HTML without any script; the same bytes for the same input.
    """
    places = places_of(season, blocks)
    limits = limits_of(season, places)
    frame = frame_of(season)
    disease = disease_with(disease_key(season))
    body = filled(
        "season.html",
        farm=farm,
        today=day_words(farm.today),
        disease=phrase_of(disease.name),
        honesty=phrase_of(HONESTY),
        measured=newest_measured(season, farm.zone),
        count=season.sizes["block"],
        sections=[block_section(farm, season, place, frame) for place in places],
        figures=[season_figure(season, place, limits) for place in places],
        cautions=phrase_of(CAUTIONS),
    )
    title = phrase(
        "{farm}: seasons of the blocks, {disease}",
        farm=farm_title(farm),
        disease=phrase_of(disease.name),
    )
    return still_page(title=str(escape(title)), style=joined(STYLES), body=body)


def places_of(season: xr.Dataset, blocks: Sequence[str] | None) -> list[int]:
    """
    Return the places of the blocks that are drawn.

    Parameters
    ----------
    season : xarray.Dataset
        Ranked.
    blocks : sequence of str or None
        Their ids, in the order wished for; None for all.

    Returns
    -------
    list of int
        All: the largest hazard ahead first, those not known last, at most 300.
    """
    if blocks is not None:
        known = season["block"].values.tolist()
        return [known.index(block) for block in blocks]
    ahead = np.nan_to_num(season["hazard_ahead"].values, nan=-1.0)
    return [int(place) for place in np.argsort(-ahead, kind="stable")[:MOST_BLOCKS]]


def block_section(farm: Farm, season: xr.Dataset, place: int, frame: Frame) -> dict[str, Any]:
    """
    Return what stands around the drawing of a block.

    Parameters
    ----------
    farm : Farm
        Names.
    season : xarray.Dataset
        Of one disease, ranked.
    place : int
        Of the block.
    frame : Frame
        For dates.

    Returns
    -------
    dict
        Names, class, cultivar and the sprays by number.
    """
    block = str(season["block"].values[place])
    row = farm.blocks.loc[block]
    ahead = float(season["hazard_ahead"].values[place])
    return {
        "place": place,
        "block": block,
        "name": "" if row["name"] == block else str(row["name"]),
        "cultivar": str(row["cultivar"]),
        "word": phrase_of(class_word(ahead)),
        "hazard": two_digits(ahead) if np.isfinite(ahead) else "–",
        "sprays": [{"words": _spray_words(spray, frame)} for spray in sprays_of(season, place)],
    }


def _spray_words(spray: Spray, frame: Frame) -> str:
    material, day = phrase_of(spray.material), day_words(frame.date(spray.day))
    if spray.is_planned:
        return phrase("{material}, {day} (planned)", material=material, day=day)
    return f"{material}, {day}"
