"""What may lie under the blocks: the season and the last night at every cell, in colours."""

from dataclasses import dataclass
from typing import Any

import numpy as np
import xarray as xr

from geo.exports.geotiff import last_night_words
from geo.exports.page_words import as_date
from geo.exports.warp import Colour, picture_address, ramp, warped
from geo.reference.diseases import disease_with
from geo.season.disease import disease_key
from geo.season.farm import Farm
from geo.season.today import today_index
from geo.texts import mark, phrase, phrase_of
from geo.texts.days import day_words

COLOURS = 32
TICKS = 3
MOST_CELLS = 4_000_000  # our own choice: of larger grids every second cell, or fewer, is asked


@dataclass(frozen=True, slots=True)
class GroundLook:
    """
    How a grid looks on the page.

    Attributes
    ----------
    key : str
        Value of its button.
    variable : str
        In the season.
    words : str
        Title of its legend, with a place for the disease.
    unit : str
        As in the vocabulary.
    step : float
        Its legend begins and ends at a multiple of this, so that small changes change no colour.
    anchors : list of tuple of int
        Colours from the lowest value to the highest: one hue, from light to dark or back, so
        that it survives a grey printer and colour blindness.
    """

    key: str
    variable: str
    words: str
    unit: str
    step: float
    anchors: list[Colour]


LOOKS = (
    # Purples of ColorBrewer: dark is where the disease likes it.
    GroundLook(
        "favourability",
        "season_favourability_grid",
        mark("Season's weather for {disease}, share of a perfect day"),
        "1",
        0.05,
        [(242, 240, 247), (158, 154, 200), (74, 20, 134)],
    ),
    # Blues of ColorBrewer, back to front: dark is cold.
    GroundLook(
        "last_night",
        "last_night_temperature_grid",
        mark("Air last night"),
        "degC",
        0.5,
        [(8, 48, 107), (66, 146, 198), (247, 251, 255)],
    ),
)


def ground_data(farm: Farm, season: xr.Dataset) -> list[dict[str, Any]]:
    """
    Return the grids as the page draws them.

    Parameters
    ----------
    farm : Farm
        For the coordinate system and the time zone.
    season : xarray.Dataset
        With both grids.

    Returns
    -------
    list of dict
        Picture, corners, colours and the numbers of the legend; nothing for a grid of which
        nothing is known.
    """
    return [
        {"when": _when(look, farm, season)} | _drawn(look, farm, season)
        for look in LOOKS
        if np.isfinite(season[look.variable].values).any()
    ]


def _drawn(look: GroundLook, farm: Farm, season: xr.Dataset) -> dict[str, Any]:
    lying = warped(
        season[look.variable].transpose("row", "column").values,
        cell_width=float(season["cell_width"]),
        cell_height=float(season["cell_height"]),
        west=float(season.attrs["grid_west"]),
        north=float(season.attrs["grid_north"]),
        crs=farm.crs,
    )
    # From the grid, not from the picture: a picture of a single cell may miss it.
    cells = season[look.variable].values.ravel()
    some = cells[:: 1 + cells.size // MOST_CELLS].astype(np.float64)
    least, most = np.nanpercentile(some, [1, 99])
    low = np.floor(least / look.step) * look.step
    high = max(np.ceil(most / look.step) * look.step, low + look.step)
    colours = ramp(look.anchors, COLOURS)
    return {
        "key": look.key,
        "words": phrase_of(look.words, disease=phrase_of(disease_with(disease_key(season)).short)),
        "unit": look.unit,
        "ticks": np.linspace(low, high, TICKS).round(4).tolist(),
        "colours": [f"#{red:02x}{green:02x}{blue:02x}" for red, green, blue in colours],
        "picture": picture_address((lying.grid - low) / (high - low), colours),
        "bounds": lying.bounds,
    }


def _when(look: GroundLook, farm: Farm, season: xr.Dataset) -> str:
    if look.key == "last_night":
        return last_night_words(season, farm)
    first, last = (as_date(season["day"].values[day]) for day in (0, today_index(season)))
    return phrase("mean of {first} to {last}", first=day_words(first), last=day_words(last))
