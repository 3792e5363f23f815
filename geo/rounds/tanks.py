"""How many tanks does a block take, if a sprayer refills at the end of a row only?"""

from math import ceil, floor

# A row that fills the tank to the last drop still fits: rounding must not cost a load.
ROUNDING = 1e-9


def rows_a_tank(tank_litres: float, row_litres: float) -> int:
    """
    Return how many whole rows a tank is enough for.

    Parameters
    ----------
    tank_litres : [L]
        What the tank holds.
    row_litres : [L]
        What a row takes.

    Returns
    -------
    int
        0 where a single row takes more than the tank holds.
    """
    return floor(tank_litres / row_litres + ROUNDING)


def rows_of_loads(rows: int, *, most_rows: int) -> tuple[int, ...]:
    """
    Return the rows of each load, as even as can be.

    Parameters
    ----------
    rows : int
        Of the block.
    most_rows : int
        That a tank is enough for; at least 1.

    Returns
    -------
    tuple of int
        The larger loads first. As few loads as whole rows allow: often one more than the litres
        alone would ask for.

    Examples
    --------
    >>> rows_of_loads(25, most_rows=12)
    (9, 8, 8)
    """
    loads = ceil(rows / most_rows)
    least, more = divmod(rows, loads)
    return (least + 1,) * more + (least,) * (loads - more)


def product_of_load(litres: float, *, volume: float, rate: float) -> float:
    """
    Return how much product goes into a load.

    Parameters
    ----------
    litres : [L]
        Of the load.
    volume : [L ha-1]
        Spray volume.
    rate : [unit of the label]
        For a hectare, from the user's own label.

    Returns
    -------
    float
        In the rate's own unit, without its "per hectare".
    """
    return litres * rate / volume
