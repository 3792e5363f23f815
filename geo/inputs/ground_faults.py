"""What is poor about the ground as read, and what does that leave in doubt?"""

from collections.abc import Sequence

import geopandas as gpd
import numpy as np

from geo.arrays import AnyArray, FloatArray
from geo.errors import InputError, Outcome, quoted
from geo.inputs.at import WHOLE_FILE
from geo.inputs.cover import Cover
from geo.inputs.elevation import Ground
from geo.inputs.ground_units import METRES_PER_FOOT
from geo.inputs.reading import Reading
from geo.reference.number import values
from geo.terrain.doubt import is_too_coarse, unknown_around
from geo.terrain.mean_around import window_half
from geo.texts import phrase, phrases

# Heights of stations are known to a few metres: up to here a ratio of them tells of feet, and
# below such a height of none (our choice).
RATIO_TOLERANCE, LEAST_HEIGHT_M = 0.05, 30.0


def note_poor_ground(
    reading: Reading, blocks: gpd.GeoDataFrame, ground: Ground, cover: Cover
) -> None:
    """
    Note blocks for which the elevation file is too coarse, or ends or has gaps too near.

    Parameters
    ----------
    reading : Reading
        The elevation file.
    blocks : geopandas.GeoDataFrame
        Index block id.
    ground : Ground
        The grid.
    cover : Cover
        How the blocks lie on it.
    """
    radius = values("microclimate", "pool")["radius"]
    half = window_half(cell_width=ground.cell_width, cell_height=ground.cell_height, radius=radius)
    coarse = is_too_coarse(cover.block_cells, half=half)
    if coarse.any():
        size = f"{ground.cell_width:.0f} × {ground.cell_height:.0f} m"
        found = phrases(
            "cells of {size} are too large for block {block}: no hollow within shows, and the "
            "doubt of the hazard grows",
            "cells of {size} are too large for {count} blocks, the first {block}: no hollow within "
            "shows, and the doubt of the hazard grows",
            int(coarse.sum()),
            size=size,
            block=_first(blocks, coarse),
        )
        fix = phrase("Take an elevation file with smaller cells")
        reading.add(Outcome.NOTE, "E-GROUND-COARSE", WHOLE_FILE, found=found, fix=fix)
    around = unknown_around(ground.grid, cell=cover.cell, half=half)
    is_cut = np.bincount(cover.block, around > 0.0, minlength=len(blocks)) > 0.0
    if is_cut.any():
        found = phrases(
            "ends, or is unknown, within {radius:.0f} m of block {block}: pools there are judged "
            "by what is known, and the doubt of the hazard grows",
            "ends, or is unknown, within {radius:.0f} m of {count} blocks, the first {block}: "
            "pools there are judged by what is known, and the doubt of the hazard grows",
            int(is_cut.sum()),
            radius=radius,
            block=_first(blocks, is_cut),
        )
        fix = phrase("Take an elevation file that reaches 1 km beyond all blocks")
        reading.add(Outcome.NOTE, "E-GROUND-EDGE", WHOLE_FILE, found=found, fix=fix)


def _first(blocks: gpd.GeoDataFrame, is_meant: AnyArray) -> str:
    return quoted(blocks.index[np.flatnonzero(is_meant)[0]])


def feet_for_metres(
    reading: Reading, ground: Ground, *, stated: Sequence[float], cells: Sequence[int]
) -> InputError | None:
    """
    Return the refusal of a file whose heights, without a unit, look like feet.

    Parameters
    ----------
    reading : Reading
        The elevation file.
    ground : Ground
        The grid.
    stated : sequence of float
        Heights of the stations as the user gives them, m.
    cells : sequence of int
        Flat index of each station's cell, -1 off the grid.

    Returns
    -------
    InputError or None
        None where a unit is named, or the heights agree with the stations, or differ otherwise.
    """
    if ground.unit:
        return None
    cell = np.array(cells)
    at_stations = np.where(cell >= 0, ground.grid.ravel()[cell], np.nan)
    heights: FloatArray = np.array(stated)
    can_tell = ~np.isnan(at_stations) & (heights >= LEAST_HEIGHT_M)
    if not can_tell.any():
        return None
    ratio = float(np.median(at_stations[can_tell] / heights[can_tell]))
    if abs(ratio * METRES_PER_FOOT - 1.0) > RATIO_TOLERANCE:
        return None
    found = phrase(
        "heights are {ratio:.2f} times what is stated for the weather stations, and no unit is "
        "named: are they feet?",
        ratio=ratio,
    )
    fix = phrase("Name the unit of the heights in the file: ft if they are feet, else m")
    return reading.refused("E-GROUND-FEET", WHOLE_FILE, found=found, fix=fix)
