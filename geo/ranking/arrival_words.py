"""From where do other outlines' spores come, in one sentence?"""

import numpy as np
import xarray as xr

from geo.arrays import FloatArray
from geo.dispersal.sides import BAND_ENDS
from geo.season.sectors import COMPASS_POINTS
from geo.texts import listed, phrase, phrase_of

# Our own choices: what counts as most, and below which share of all spores nothing is said.
MOST = 0.5
WORTH_A_WORD = 0.005  # our own choice


def arrival_words(season: xr.Dataset, block: int) -> str:
    """
    Return from which side and from how far most spores of other outlines come today.

    Parameters
    ----------
    season : xarray.Dataset
        After the epidemic layer.
    block : int
        Place of the block.

    Returns
    -------
    str
        One sentence; empty where nothing is known.
    """
    by_compass = season["arrival_from_compass"].values[block]
    by_band = season["arrival_from_band"].values[block]
    incoming = by_compass.sum()
    if np.isnan(incoming):
        return ""
    if incoming < WORTH_A_WORD:
        return phrase("Hardly any spores reach it from other outlines on the map today.")
    sides = listed(_sides(by_compass / incoming))
    within = np.cumsum(by_band / incoming)[:-1] >= MOST
    metres = BAND_ENDS[int(np.argmax(within))] if within.any() else BAND_ENDS[-1]
    return _words(sides, metres, is_within=bool(within.any()))


def _words(sides: str, metres: float, *, is_within: bool) -> str:
    if sides and is_within:
        return phrase(
            "Other outlines' spores come mostly from {sides}, most of them from within "
            "{metres:.0f} m.",
            sides=sides,
            metres=metres,
        )
    if sides:
        return phrase(
            "Other outlines' spores come mostly from {sides}, most of them from more than "
            "{metres:.0f} m away.",
            sides=sides,
            metres=metres,
        )
    if is_within:
        return phrase(
            "Other outlines' spores come from several sides, most of them from within "
            "{metres:.0f} m.",
            metres=metres,
        )
    return phrase(
        "Other outlines' spores come from several sides, most of them from more than "
        "{metres:.0f} m away.",
        metres=metres,
    )


def _sides(share: FloatArray) -> list[str]:
    """Return the side, or the two next to each other, that most spores come from, if any."""
    first = int(np.argmax(share))
    if share[first] >= MOST:
        return [_side(first)]
    pairs = share + np.roll(share, -1)
    first = int(np.argmax(pairs))
    return [_side(first), _side(first + 1)] if pairs[first] >= MOST else []


def _side(point: int) -> str:
    return phrase("the {point}", point=phrase_of(COMPASS_POINTS[point % len(COMPASS_POINTS)]))
