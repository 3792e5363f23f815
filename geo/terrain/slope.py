"""How steep is the ground, and which way does it fall?"""

import numpy as np

from geo.arrays import FloatArray


def gradient_horn1981(
    elevation_grid: FloatArray, *, cell_width: float, cell_height: float
) -> tuple[FloatArray, FloatArray]:
    r"""
    Return the rise of the ground eastward and northward.

    Parameters
    ----------
    elevation_grid : [m]
        Shape (row, column), row 0 in the north. NaN where unknown.
    cell_width, cell_height : [m]
        Size of a cell.

    Returns
    -------
    [1]
        Rise per metre towards the east and towards the north, same shape. An unknown neighbour
        counts as level with the cell; beyond the edge the grid repeats its outermost cells. Both
        make the ground there rather too level. NaN where the cell is unknown.

    Notes
    -----
    Horn's third-order finite difference [1]_, cells numbered row by row from the north-west:

    .. math:: p = \frac{(z_3 + 2 z_6 + z_9) - (z_1 + 2 z_4 + z_7)}{8 \Delta x}

    and likewise northward. Exact on a plane.

    References
    ----------
    .. [1] B. K. P. Horn, "Hill shading and the reflectance map", Proceedings of the IEEE 69,
       1981 (horn1981).

    Examples
    --------
    >>> plane = 0.1 * np.arange(5.0)[None, :] + np.zeros((5, 1))
    >>> east, north = gradient_horn1981(plane, cell_width=1.0, cell_height=1.0)
    >>> float(east[2, 2].round(6)), float(north[2, 2].round(6))
    (0.1, 0.0)
    """
    padded = np.pad(elevation_grid, 1, mode="edge")
    neighbour = {
        (row, column): _level_where_unknown(padded, elevation_grid, row, column)
        for row in range(3)
        for column in range(3)
    }

    def side(cells: tuple[tuple[int, int], tuple[int, int], tuple[int, int]]) -> FloatArray:
        first, middle, last = (neighbour[cell] for cell in cells)
        total: FloatArray = first + 2.0 * middle + last
        return total

    east = side(((0, 2), (1, 2), (2, 2))) - side(((0, 0), (1, 0), (2, 0)))
    north = side(((0, 0), (0, 1), (0, 2))) - side(((2, 0), (2, 1), (2, 2)))
    # The formula leaves the cell itself out; where that is unknown so is its slope.
    known = np.where(np.isnan(elevation_grid), np.nan, 1.0)
    return known * east / (8.0 * cell_width), known * north / (8.0 * cell_height)


def slope(east: FloatArray, north: FloatArray) -> FloatArray:
    """
    Return the steepness of the ground as rise over run.

    Parameters
    ----------
    east, north : [1]
        Rise per metre, as `gradient_horn1981` gives them.

    Returns
    -------
    [1]
        Same shape, 0 on level ground.
    """
    return np.hypot(east, north)


def aspect(east: FloatArray, north: FloatArray) -> FloatArray:
    """
    Return the direction the ground falls towards.

    Parameters
    ----------
    east, north : [1]
        Rise per metre, as `gradient_horn1981` gives them.

    Returns
    -------
    [degree]
        Clockwise from north, 0 to 360.
    """
    # A full turn, so that no direction is negative.
    falls_towards: FloatArray = np.degrees(np.arctan2(-east, -north)) % 360.0
    return falls_towards


def _level_where_unknown(
    padded: FloatArray, centre: FloatArray, row: int, column: int
) -> FloatArray:
    rows, columns = centre.shape
    neighbour = padded[row : row + rows, column : column + columns]
    return np.where(np.isnan(neighbour), centre, neighbour)
