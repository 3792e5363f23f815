"""What a scouting order is, as decided: frozen."""

from dataclasses import dataclass
from datetime import date


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
        Doubt times stake, scaled so that the first is 1.
    doubt : float
        Standard deviation of the logarithm of the hazard.
    stake : float
        Hazard to come times hectares.
    days_since_look : int or None
        Days since the panicles were last inspected, None if never.
    reason : str
        One plain sentence.
    """

    rank: int
    block: str
    score: float
    doubt: float
    stake: float
    days_since_look: int | None
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
