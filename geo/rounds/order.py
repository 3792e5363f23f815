"""The two orders of the day, as decided: frozen, and carrying what they were decided with."""

from dataclasses import dataclass
from datetime import date, datetime

from geo.windows.open_hours import NotAsked


@dataclass(frozen=True, slots=True)
class SprayEntry:
    """
    A block that may be sprayed today.

    Attributes
    ----------
    rank : int
        1 is first; what is equal to six figures shares a rank.
    block : str
        Its id.
    hazard : float
        Mean daily hazard index over the days ahead.
    ratio : float
        That hazard over the reference block's.
    low, high : float
        The middle 80 % of that ratio's doubt, as far as counts, stages, cultivars and ground of the
        two blocks go; weather, pools, spores blown in and sprays are doubtful beyond it.
    area : float
        Hectares.
    sprayer_hours : float or None
        Sprayer time, if the user gave hours per hectare.
    reason : str
        One plain sentence: why its hazard is what it is.
    avoidable, avoidable_low, avoidable_high : float
        What leaving it out today costs: days of hazard index 1 times hectares that a spray today
        would keep out until the next open hours, at the expected, the lowest and the highest
        effect of the planned materials.
    per_hour : float
        The same for each hour of sprayer, or for each hectare where hours are not known: the order
        goes by it.
    next_window : datetime.datetime or None
        Local start of the next open hours after today that are long enough; None if there are
        none within the forecast, whose end then takes their place.
    waiting : str
        One plain sentence: what it costs to leave the block.
    is_within : bool or None
        Whether the sprayer hours of today reach so far down the order, driving not counted; None
        where they are not known.
    open_from, open_until : datetime.datetime or None
        Local start and end of the first stretch of open hours that is long enough.
    cautions : tuple of str
        Of hours in that stretch: what warns and closes nothing.
    """

    rank: int
    block: str
    hazard: float
    ratio: float
    low: float
    high: float
    area: float
    sprayer_hours: float | None
    reason: str
    avoidable: float = 0.0
    avoidable_low: float = 0.0
    avoidable_high: float = 0.0
    per_hour: float = 0.0
    next_window: datetime | None = None
    waiting: str = ""
    is_within: bool | None = None
    open_from: datetime | None = None
    open_until: datetime | None = None
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CannotNow:
    """
    A block that a rule keeps out of today's round.

    Attributes
    ----------
    block : str
        Its id.
    hazard : float
        Mean daily hazard index over the days ahead: what waits there.
    rule : str
        Stable id of the rule.
    day : datetime.date
        The day that closed it.
    value : float or None
        The value that failed, None where it is unknown.
    limit : float or None
        The rule's limit, None where it is not known.
    unit : str
        Unit of both.
    standing : str
        Where the limit comes from.
    clears : datetime.datetime or None
        Local hour from which no rule closes the block for as long as it takes, None if not within
        the forecast.
    reason : str
        Plain sentences.
    title : str
        What the rule is about.
    about : str
        The same without an explanation.
    """

    block: str
    hazard: float
    rule: str
    day: date
    value: float | None
    limit: float | None
    unit: str
    standing: str
    clears: datetime | None
    reason: str
    title: str = ""
    about: str = ""


@dataclass(frozen=True, slots=True)
class NotWorth:
    """
    A block that no rule keeps out, and that a spray of today would hardly help.

    Attributes
    ----------
    block : str
        Its id.
    hazard : float
        Mean daily hazard index over the days ahead.
    avoidable : float
        Days of hazard index 1 times hectares that a spray today would keep out until the next
        open hours.
    protection : float
        Lowest protection by the diary's sprays until then.
    next_window : datetime.datetime or None
        Local start of those hours, None if there are none within the forecast.
    reason : str
        One plain sentence.
    """

    block: str
    hazard: float
    avoidable: float
    protection: float
    next_window: datetime | None
    reason: str


@dataclass(frozen=True, slots=True)
class NotRanked:
    """
    A block without a hazard ahead, or without a known one.

    Attributes
    ----------
    block : str
        Its id.
    reason : str
        One plain sentence.
    """

    block: str
    reason: str


@dataclass(frozen=True, slots=True)
class SprayOrder:
    """
    Today's spray order.

    Attributes
    ----------
    today : datetime.date
        The day it is for.
    first_day : datetime.date
        First day that its hazards are a mean of: today, or the last whole day that is known.
    horizon_days : int
        Days it looks at from there: fewer than wished where weather is not known.
    material : str
        Active ingredient it was made for.
    reference_block : str
        Block the ratios are quoted against.
    entries : tuple of SprayEntry
        First to last.
    cannot_now : tuple of CannotNow
        The most hazardous first.
    not_ranked : tuple of NotRanked
        Blocks with nothing to spray for, or of unknown hazard.
    not_worth : tuple of NotWorth
        Blocks open today that are protected until their next open hours, or that the planned
        materials do nothing for; the most hazardous first. A stand-in without money.
    not_asked : tuple of NotAsked
        Rules that nobody was asked about, since the farm does not give what they need.
    notes : tuple of str
        What about the day as a whole keeps blocks out, a sentence each.
    hours_today : float or None
        Hours of work of all sprayers together; None where the user gave none.
    """

    today: date
    first_day: date
    horizon_days: int
    material: str
    reference_block: str
    entries: tuple[SprayEntry, ...]
    cannot_now: tuple[CannotNow, ...]
    not_ranked: tuple[NotRanked, ...] = ()
    not_worth: tuple[NotWorth, ...] = ()
    not_asked: tuple[NotAsked, ...] = ()
    notes: tuple[str, ...] = ()
    hours_today: float | None = None
