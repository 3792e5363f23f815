"""One still page of blocks by days: which class each block was in, and is forecast to be in."""

from pathlib import Path
from typing import Any

import numpy as np
import xarray as xr
from markupsafe import escape

from geo.exports.days_strip import CELL_HEIGHT, number_of, strip_of
from geo.exports.farm_title import farm_title
from geo.exports.files import write_text
from geo.exports.offline import still_page
from geo.exports.page_classes import class_key, class_of, class_word
from geo.exports.page_words import CAUTIONS, HONESTY, MEANING_OF_ONE, newest_measured
from geo.exports.season_frame import Frame, frame_of
from geo.exports.season_page import STYLES
from geo.exports.templates import filled, joined
from geo.ranking.sentences import two_digits
from geo.reference.diseases import disease_with
from geo.season.disease import disease_key
from geo.season.farm import Farm
from geo.texts import phrase, phrase_of
from geo.texts.days import day_words

MOST_BLOCKS = 1000  # our own choice: as many as the printed map draws
DAY_WIDTH, LEAST_WIDTH = 14.0, 620.0  # units; a short season is drawn wider
MOST_WIDTH = 1500.0
EDGE = 2.0


def write_days_page(path: Path, *, farm: Farm, season: xr.Dataset) -> None:
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
    """
    write_text(path, days_html(farm=farm, season=season))


def days_html(*, farm: Farm, season: xr.Dataset) -> str:
    """
    Return the page.

    Parameters
    ----------
    farm : Farm
        Names.
    season : xarray.Dataset
        Of one disease, ranked.

    Returns
    -------
    str
        HTML without any script; the same bytes for the same input.
    """
    disease = disease_with(disease_key(season))
    body = filled(
        "days.html",
        farm=farm,
        today=day_words(farm.today),
        disease=phrase_of(disease.name),
        honesty=phrase_of(HONESTY),
        meaning=phrase_of(MEANING_OF_ONE),
        measured=newest_measured(season, farm.zone),
        cautions=phrase_of(CAUTIONS),
        **days_data(farm, season),
    )
    title = phrase(
        "{farm}: blocks by day, {disease}",
        farm=farm_title(farm),
        disease=phrase_of(disease.name),
    )
    return still_page(title=str(escape(title)), style=joined(STYLES), body=body)


def days_data(farm: Farm, season: xr.Dataset) -> dict[str, Any]:
    """
    Return what is drawn.

    Parameters
    ----------
    farm : Farm
        Names.
    season : xarray.Dataset
        Of one disease, ranked.

    Returns
    -------
    dict
        The frame, the key and a row a block: the largest hazard ahead first, at most 1000.
    """
    frame = days_frame(season)
    ahead = season["hazard_ahead"].values
    order = np.argsort(-np.nan_to_num(ahead, nan=-1.0), kind="stable")[:MOST_BLOCKS].tolist()
    hazard, blocks = season["hazard"].values, [str(block) for block in season["block"].values]
    return {
        "frame": frame,
        "height": CELL_HEIGHT,
        "key": [
            row | {"digit": str(len(class_key()) - place), "pattern": "top" if place == 0 else ""}
            for place, row in enumerate(class_key())
        ],
        "count": len(blocks),
        "rows": [
            {
                "block": blocks[place],
                "name": _name(farm, blocks[place]),
                "runs": strip_of(hazard[place], frame),
                "digit": number_of(class_of(float(ahead[place]))),
                "word": phrase_of(class_word(float(ahead[place]))),
                "hazard": two_digits(float(ahead[place])) if np.isfinite(ahead[place]) else "–",
            }
            for place in order
        ],
    }


def days_frame(season: xr.Dataset) -> Frame:
    """
    Return the days as wide as a season of their number is drawn.

    Parameters
    ----------
    season : xarray.Dataset
        Any.

    Returns
    -------
    Frame
        From edge to edge of the strip.
    """
    width = float(np.clip(season.sizes["day"] * DAY_WIDTH, LEAST_WIDTH, MOST_WIDTH))
    return frame_of(season, left=EDGE, right=EDGE + width)


def _name(farm: Farm, block: str) -> str:
    name = str(farm.blocks.loc[block, "name"])
    return "" if name == block else name
