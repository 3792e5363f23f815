"""What a scouting order is, as decided: frozen."""

from dataclasses import dataclass
from datetime import date, datetime

from geo.texts import mark

VALUE, DUE, DRAWN, CLOSED = mark("value of looking"), mark("due"), mark("drawn"), mark("closed")


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
        Why it has its place: `VALUE`, `DUE` (not looked at within the visit interval),
        `DRAWN` (by lot) or `CLOSED` (last: nobody should walk there in the hours of the walk). A
        walk that takes only some blocks must keep the due and the drawn ones.
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
    when : str
        The hours of a look in words: re-entry, heat, dew.
    option : str
        What may be done by hand, with what is known of it; empty where nothing applies.
    walk_from, walk_until : datetime.datetime or None
        Local; None where nobody should walk in the hours of the walk.
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
    when: str = ""
    option: str = ""
    walk_from: datetime | None = None
    walk_until: datetime | None = None


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
    when : str
        In which hours to walk, for the whole farm.
    rule : str
        Which blocks are due, and which share of the places is drawn.
    """

    today: date
    entries: tuple[ScoutingEntry, ...]
    when: str = ""
    rule: str = ""
