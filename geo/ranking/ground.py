"""What is known of the ground of a block, in words for people."""

import numpy as np
import xarray as xr

from geo.arrays import FloatArray
from geo.ranking.doubt import spread
from geo.ranking.sentences import WORTH_NAMING, two_digits
from geo.reference.number import values
from geo.texts import listed, phrase


def of_known_ground(season: xr.Dataset, name: str) -> FloatArray:
    """
    Return a number of the ground of each block, without what stands in for unknown ground.

    Parameters
    ----------
    season : xarray.Dataset
        After the terrain layer.
    name : str
        Of a variable with the dimension block.

    Returns
    -------
    [any]
        NaN for a block without any known ground.
    """
    return np.where(season["terrain_covered"].values > 0.0, season[name].values, np.nan)


def ground_words(season: xr.Dataset, block: int) -> str:
    """
    Return which part of a block's doubt is its ground's, and why.

    Parameters
    ----------
    season : xarray.Dataset
        After the terrain layer.
    block : int
        Place of the block.

    Returns
    -------
    str
        One sentence; empty where that part is not worth naming.
    """
    doubt = float(season["terrain_doubt"].values[block])
    wide = float(spread(np.asarray(doubt)))
    if wide < WORTH_NAMING:
        return ""
    return phrase(
        "Ground: {reasons}; may be {times} times more or less by that alone.",
        reasons=listed(_reasons(season, block, doubt)),
        times=two_digits(wide),
    )


def _reasons(season: xr.Dataset, block: int, doubt: float) -> list[str]:
    table = values("microclimate", "ground")
    covered = float(season["terrain_covered"].values[block])
    is_small = bool(season["block_cells"].values[block] < 1.0)
    error = float(season["vertical_error"])
    found = []
    if covered == 0.0:
        found.append(
            phrase(
                "the elevation file has none of it, so that height and cool pool are taken to be "
                "the weather station's"
            )
        )
    elif covered < 1.0:
        found.append(phrase("the elevation file has {part:.0f} % of it", part=100 * covered))
    if is_small:
        found.append(phrase("it is smaller than a cell of the elevation file"))
    if error > 0.0:
        found.append(phrase("heights may be off by {metres} m", metres=two_digits(error)))
    named = (
        table["missing_doubt"] * (1.0 - covered),
        table["coarse_doubt"] * is_small,
        table["error_doubt"] * error,
    )
    rest = doubt**2 - sum(part**2 for part in named)
    if covered > 0.0 and float(spread(np.sqrt(max(rest, 0.0)))) >= WORTH_NAMING:
        found.append(
            phrase("the elevation file ends or has gaps close to it, or its cells are large")
        )
    return found
