"""What a walk through the blocks is, as planned: frozen."""

from dataclasses import dataclass
from datetime import date, datetime

from geo.scouting.order import ScoutingEntry
from geo.scouting.stops import Stop


@dataclass(frozen=True, slots=True)
class Morning:
    """
    When to look.

    Attributes
    ----------
    opens, closes : datetime.datetime
        Local, without a zone: from first light until growth shows less well.
    hours : dict of str to tuple of datetime.datetime
        Within those, when each block may be walked; blocks that nobody should walk are left out.
    re_entry_ends : dict of str to datetime.datetime or None
        Of each block closed to people after a spray; None where the label's hours are not known.
    words : str
        Plain sentences for the whole farm.
    """

    opens: datetime
    closes: datetime
    hours: dict[str, tuple[datetime, datetime]]
    re_entry_ends: dict[str, datetime | None]
    words: str = ""


@dataclass(frozen=True, slots=True)
class WalkStop:
    """
    A tree on the walk.

    Attributes
    ----------
    number : int
        Along the whole walk, from 1.
    stop : Stop
        Where, and why there.
    longitude, latitude : float
        Degrees, WGS 84.
    """

    number: int
    stop: Stop
    longitude: float
    latitude: float


@dataclass(frozen=True, slots=True)
class WalkVisit:
    """
    A block on the walk: all its trees are looked at in one go.

    Attributes
    ----------
    number : int
        Along the walk, from 1.
    entry : ScoutingEntry
        Its place in the scouting order, with its reason and what finding nothing proves.
    arrives, leaves : datetime.datetime
        Local.
    metres_to, metres_inside : float
        On foot from the place before, and from tree to tree.
    gate : tuple of float
        East and north of where the block is entered and left, in the farm's system.
    stops : tuple of WalkStop
        In walking order.
    """

    number: int
    entry: ScoutingEntry
    arrives: datetime
    leaves: datetime
    metres_to: float
    metres_inside: float
    gate: tuple[float, float]
    stops: tuple[WalkStop, ...]


@dataclass(frozen=True, slots=True)
class NotWalked:
    """
    A block of the scouting order that is not on the walk.

    Attributes
    ----------
    entry : ScoutingEntry
        Its place in the order.
    reason : str
        One plain sentence.
    """

    entry: ScoutingEntry
    reason: str


@dataclass(frozen=True, slots=True)
class Walk:
    """
    A morning's walk.

    Attributes
    ----------
    day : datetime.date
        It is for.
    morning : Morning
        When to look.
    hours : float
        Time given.
    chosen_among : int
        How many blocks of the scouting order it chose among.
    start : str
        Name of the gate.
    start_place : tuple of float
        East and north of it, in the farm's system.
    leaves, returns : datetime.datetime
        Local; both the opening where nobody leaves.
    metres : float
        On foot in all.
    value_share : float
        Value of looking that the walk collects, as a share of what the blocks it chose among
        have; blocks that are due or drawn take time from it.
    is_proven : bool
        Whether no walk in that time collects more.
    ways : str
        On what: tracks, or straight lines where none leads.
    visits : tuple of WalkVisit
        In walking order.
    left_out : tuple of NotWalked
        In scouting order.
    way : tuple of tuple of float
        East and north of every bend, from leaving to returning.
    notes : tuple of str
        Plain sentences: why it is short or empty, what was assumed.
    """

    day: date
    morning: Morning
    hours: float
    chosen_among: int
    start: str
    start_place: tuple[float, float]
    leaves: datetime
    returns: datetime
    metres: float
    value_share: float
    is_proven: bool
    ways: str
    visits: tuple[WalkVisit, ...]
    left_out: tuple[NotWalked, ...]
    way: tuple[tuple[float, float], ...]
    notes: tuple[str, ...] = ()
