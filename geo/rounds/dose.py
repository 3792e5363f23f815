"""How much liquid does a hectare, a nozzle and a row take?"""

from typing import TypeVar

from geo.arrays import FloatArray

SQUARE_METRES_PER_HECTARE = 10_000.0
# L/min = L/ha · km/h · m / 600: 10 000 m2 in a hectare, 1 000 m in a km, 60 min in an hour.
LITRES_A_MINUTE_DIVISOR = 600.0
# One number, or one for each block or row.
Amount = TypeVar("Amount", float, FloatArray)


def tree_row_volume(*, height: Amount, width: Amount, row_spacing: Amount) -> Amount:
    """
    Return how much canopy stands on a hectare, as if each row were a box.

    Parameters
    ----------
    height, width : [m]
        Of the canopy.
    row_spacing : [m]
        From row to row.

    Returns
    -------
    [m3 ha-1]
        A box: it overstates canopies that are round or taper off.
    """
    return height * width * SQUARE_METRES_PER_HECTARE / row_spacing


def litres_per_hectare(canopy: Amount, *, litres_per_1000_m3: float) -> Amount:
    """
    Return the spray volume for a canopy.

    Parameters
    ----------
    canopy : [m3 ha-1]
        As from `tree_row_volume`.
    litres_per_1000_m3 : [L]
        What a thousand cubic metres of it take: the user's own figure.

    Returns
    -------
    [L ha-1]
        Spray volume.
    """
    return canopy / 1000.0 * litres_per_1000_m3  # per thousand cubic metres


def flow(volume: Amount, *, speed: float, row_spacing: Amount) -> Amount:
    """
    Return what all nozzles together must give.

    Parameters
    ----------
    volume : [L ha-1]
        Spray volume.
    speed : [km h-1]
        While spraying.
    row_spacing : [m]
        Width treated in one pass: both sides of one alley.

    Returns
    -------
    [L min-1]
        Of all nozzles.
    """
    return volume * speed * row_spacing / LITRES_A_MINUTE_DIVISOR


def row_litres(volume: float, *, row_length: Amount, row_spacing: float) -> Amount:
    """
    Return what one row takes.

    Parameters
    ----------
    volume : [L ha-1]
        Spray volume.
    row_length, row_spacing : [m]
        Of the block.

    Returns
    -------
    [L]
        For one row.
    """
    return volume * row_length * row_spacing / SQUARE_METRES_PER_HECTARE
