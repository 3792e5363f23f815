"""What a scouting order is, as decided: frozen."""

from dataclasses import dataclass
from datetime import date

VALUE, DUE, DRAWN = "value of looking", "due", "drawn"


@dataclass(frozen=True, slots=True)
class ScoutingEntry:
    """
    A block to walk.

    Attributes
    ----------
    rank : int
        1 is first.
    block : str
        Its id.
    score : float
        Value of looking an hour, scaled so that the largest is 1.
    doubt : float
        Standard deviation of the logarithm of the hazard.
    stake : float
        Hazard to come times hectares.
    days_since_look : int or None
        Days since the panicles were last inspected, None if never.
    chosen : str
        Why it has its place: `VALUE`, `DUE` (not looked at within the visit interval) or
        `DRAWN` (by lot).
    trees : int
        How many to look at.
    organs_per_tree : int
        How many panicles, leaves or fruit on each.
    share_left : float
        Share that may be infected though none is found.
    proof : str
        Both in words.
    reason : str
        One plain sentence.
    """

    rank: int
    block: str
    score: float
    doubt: float
    stake: float
    days_since_look: int | None
    chosen: str
    trees: int
    organs_per_tree: int
    share_left: float
    proof: str
    reason: str


@dataclass(frozen=True, slots=True)
class ScoutingOrder:
    """
    Today's scouting order.

    Attributes
    ----------
    today : datetime.date
        The day it is for.
    entries : tuple of ScoutingEntry
        First to last.
    """

    today: date
    entries: tuple[ScoutingEntry, ...]
