"""From where do other outlines' spores come, in one sentence?"""

import numpy as np
import xarray as xr

from geo.arrays import FloatArray
from geo.dispersal.sides import BAND_ENDS
from geo.season.sectors import COMPASS_POINTS

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
        return "Hardly any spores reach it from other outlines on the map today."
    side = _side(by_compass / incoming)
    return f"Other outlines' spores come {side}{_distance(by_band / incoming)}."


def _side(share: FloatArray) -> str:
    first = int(np.argmax(share))
    if share[first] >= MOST:
        return f"mostly from the {COMPASS_POINTS[first]}, "
    pairs = share + np.roll(share, -1)
    first = int(np.argmax(pairs))
    if pairs[first] >= MOST:
        second = (first + 1) % len(COMPASS_POINTS)
        return f"mostly from the {COMPASS_POINTS[first]} and the {COMPASS_POINTS[second]}, "
    return "from several sides, "


def _distance(share: FloatArray) -> str:
    within = np.cumsum(share)[:-1]
    is_most = within >= MOST
    if not is_most.any():
        return f"most of them from more than {BAND_ENDS[-1]:.0f} m away"
    return f"most of them from within {BAND_ENDS[int(np.argmax(is_most))]:.0f} m"
