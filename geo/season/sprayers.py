"""Which sprayers does the farm have, and what did the user set for a day's round?"""

from dataclasses import dataclass
from datetime import time

# Whose drops reach farthest first: what is not known is taken as airblast, but for its name.
_WIDEST_FIRST = ("airblast", None, "handgun", "knapsack", "hose_end")


@dataclass(frozen=True, slots=True)
class Sprayer:
    """
    A sprayer as the user described it; None stands for what was not given.

    Attributes
    ----------
    name : str
        As the user calls it.
    kind : str or None
        Airblast, handgun, knapsack or hose_end.
    agitated : bool or None
        Whether its tank is agitated.
    tank_litres : float or None
        What its tank holds.
    nozzles : int or None
        How many spray at once.
    speed, travel_speed : float or None
        While spraying and between blocks, km/h.
    refill_minutes : float or None
        To fill and mix a tank.
    """

    name: str
    kind: str | None = None
    agitated: bool | None = None
    tank_litres: float | None = None
    nozzles: int | None = None
    speed: float | None = None
    travel_speed: float | None = None
    refill_minutes: float | None = None

    @property
    def keeps_stirred(self) -> bool | None:
        """
        Return whether it keeps a settling suspension stirred.

        Returns
        -------
        bool or None
            None where it is not known; a hose end has no tank to stir.
        """
        return False if self.agitated is None and self.kind == "hose_end" else self.agitated


@dataclass(frozen=True, slots=True)
class RoundSettings:
    """
    What the user set for a day's round; None stands for what was not given.

    Attributes
    ----------
    start : datetime.time or None
        Local time at which sprayers leave the shed.
    hours : float or None
        Of work for each sprayer.
    row_spacing : float or None
        From row to row, m.
    row_direction : float or None
        Of the rows, degrees from north.
    turn_seconds : float or None
        From one row into the next.
    turning_radius : float or None
        Of tractor and sprayer, m.
    setup_minutes : float or None
        At each block before spraying.
    litres_per_hectare : float or None
        Spray volume.
    canopy_height, canopy_width : float or None
        Of a row, m.
    litres_per_1000_m3 : float or None
        Spray volume for a thousand cubic metres of canopy.
    """

    start: time | None = None
    hours: float | None = None
    row_spacing: float | None = None
    row_direction: float | None = None
    turn_seconds: float | None = None
    turning_radius: float | None = None
    setup_minutes: float | None = None
    litres_per_hectare: float | None = None
    canopy_height: float | None = None
    canopy_width: float | None = None
    litres_per_1000_m3: float | None = None


def governing(sprayers: tuple[Sprayer, ...]) -> tuple[str | None, bool | None]:
    """
    Return the kind and the agitation that the rules for all blocks are asked with.

    Parameters
    ----------
    sprayers : tuple of Sprayer
        Of the farm; may be empty.

    Returns
    -------
    str or None
        The kind with the widest rules.
    bool or None
        True if any tank is agitated, since that sprayer may be sent; None where none is known to
        be and one is not known.

    Examples
    --------
    >>> governing((Sprayer("A", "knapsack", False), Sprayer("B", "airblast", True)))
    ('airblast', True)
    """
    if not sprayers:
        return None, None
    kind = min((sprayer.kind for sprayer in sprayers), key=_WIDEST_FIRST.index)
    stirred = [sprayer.agitated for sprayer in sprayers]
    return kind, True if True in stirred else None if None in stirred else False
