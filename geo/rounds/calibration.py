"""How fast does a sprayer drive, and what does a tree take? What a field test tells."""

_KILOMETRES_AN_HOUR = 3.6  # for each metre a second
_SECONDS_A_MINUTE = 60.0
_SQUARE_METRES_PER_HECTARE = 10_000.0


def speed_over(metres: float, *, seconds: float) -> float:
    """
    Return the speed over a measured course.

    Parameters
    ----------
    metres : [m]
        Length of the course.
    seconds : [s]
        From its start to its end.

    Returns
    -------
    [km h-1]
        Mean speed.
    """
    return metres / seconds * _KILOMETRES_AN_HOUR


def seconds_over(metres: float, *, speed: float) -> float:
    """
    Return how long a measured course takes: what to hold a watch against before spraying.

    Parameters
    ----------
    metres : [m]
        Length of the course.
    speed : [km h-1]
        Wanted.

    Returns
    -------
    [s]
        From its start to its end.
    """
    return metres * _KILOMETRES_AN_HOUR / speed


def litres_per_tree(volume: float, *, row_spacing: float, tree_spacing: float) -> float:
    """
    Return what a tree takes, for whoever sprays tree by tree.

    Parameters
    ----------
    volume : [L ha-1]
        Spray volume.
    row_spacing, tree_spacing : [m]
        From row to row, and from tree to tree in a row.

    Returns
    -------
    [L]
        For one tree.
    """
    return volume * row_spacing * tree_spacing / _SQUARE_METRES_PER_HECTARE


def seconds_per_tree(litres: float, *, flow: float) -> float:
    """
    Return how long to hold the gun on a tree.

    Parameters
    ----------
    litres : [L]
        That a tree takes.
    flow : [L min-1]
        Of the gun.

    Returns
    -------
    [s]
        For one tree.
    """
    return litres / flow * _SECONDS_A_MINUTE
