"""How much ground sends its cold air through a cell?"""

from math import sqrt

import numpy as np
from scipy.ndimage import uniform_filter

from geo.arrays import AnyArray, FloatArray, IntArray

CELLS_AT_ONCE = 1 << 22  # our own choice: some tens of megabytes for the working arrays
TAKEN = -1  # among the cells still waited for: the cell has given its air


def flow_accumulation(
    receiver: IntArray,
    *,
    cell_width: float,
    cell_height: float,
    most_cells: int = CELLS_AT_ONCE,
) -> FloatArray:
    """
    Return the area whose air drains through each cell, itself included.

    Parameters
    ----------
    receiver : [1]
        Shape (row, column), as `steepest_receiver` gives it.
    cell_width, cell_height : [m]
        Size of a cell.
    most_cells : [1]
        Cells worked on at once.

    Returns
    -------
    [m2]
        Same shape. NaN where the ground is unknown.

    Notes
    -----
    Air leaves each cell towards its steepest lower neighbour (eight directions); a cell without
    one keeps it, so that a closed hollow collects what drains into it, as cold air does and
    water does not. A cell gives what it has once all above it have given: first the many on
    ridges, then whatever they have freed, until only the longest valley is left.
    """
    to = receiver.ravel()
    pieces = [slice(start, start + most_cells) for start in range(0, to.size, most_cells)]
    area: AnyArray = np.full(to.size, cell_width * cell_height)
    waits_for: AnyArray = np.zeros(to.size, np.int8)
    for piece in pieces:
        area[piece][to[piece] < 0] = np.nan
        np.add.at(waits_for, to[_giving(to, piece)].astype(np.intp), np.int8(1))
    for piece in pieces:
        giving = _giving(to, piece)
        _give(giving[waits_for[giving] == 0], to, area, waits_for)
    ready = np.concatenate(
        [giving[waits_for[giving] == 0] for giving in (_giving(to, piece) for piece in pieces)]
    )
    while ready.size:
        received = _give(ready, to, area, waits_for)
        freed = np.sort(received[waits_for[received] == 0])
        freed = freed[np.diff(freed, prepend=-1) > 0]  # each once: much faster than np.unique
        ready = freed[to[freed] != freed]
    return area.reshape(receiver.shape)


def smoothing_size(
    *, cell_width: float, cell_height: float, smoothing_area: float
) -> tuple[int, int]:
    """
    Return the square over which the draining area is smoothed.

    Parameters
    ----------
    cell_width, cell_height : [m]
        Size of a cell.
    smoothing_area : [m2]
        As `cold_air_accumulation` is given it.

    Returns
    -------
    [1]
        Rows and columns, odd numbers.
    """
    side = sqrt(smoothing_area)
    return 2 * int(side / cell_height / 2) + 1, 2 * int(side / cell_width / 2) + 1


def _giving(to: IntArray, piece: slice) -> IntArray:
    """Return the cells of a piece that send their air elsewhere."""
    receiver = to[piece]
    own = np.arange(piece.start, piece.start + receiver.size)
    found: IntArray = own[(receiver >= 0) & (receiver != own)]
    return found


def _give(ready: IntArray, to: IntArray, area: AnyArray, waits_for: AnyArray) -> IntArray:
    """Pass the air of cells on, in place, and return who received it."""
    receives: IntArray = to[ready].astype(np.intp)
    np.add.at(area, receives, area[ready])
    np.add.at(waits_for, receives, np.int8(-1))
    waits_for[ready] = TAKEN
    return receives


def cold_air_accumulation(
    accumulation: FloatArray, *, cell_width: float, cell_height: float, smoothing_area: float
) -> FloatArray:
    r"""
    Return the logarithm of the smoothed draining area.

    Parameters
    ----------
    accumulation : [m2]
        As `flow_accumulation` gives it.
    cell_width, cell_height : [m]
        Size of a cell.
    smoothing_area : [m2]
        About a hectare explained most of a hilly orchard's minimum temperatures.

    Returns
    -------
    [1]
        :math:`\log_{10}` of the mean square metres over the smoothing square; NaN where unknown.

    Notes
    -----
    In a hilly orchard of 1 km2 on 10 m cells the deviation of minimum temperature on radiative
    nights was linear in this number with r2 = 0.78 (jung2003, abstract; that the mean comes
    before the logarithm is our reading of it).
    """
    size = smoothing_size(
        cell_width=cell_width, cell_height=cell_height, smoothing_area=smoothing_area
    )
    known = ~np.isnan(accumulation)
    share = uniform_filter(known.astype(np.float64), size, mode="constant")
    total = uniform_filter(np.where(known, accumulation, 0.0), size, mode="constant")
    # A running sum over large areas may leave a trace of them: never less than one cell's own.
    mean = np.maximum(total / np.where(known, share, 1.0), cell_width * cell_height)
    return np.where(known, np.log10(mean), np.nan)
