"""The two orders of the day, as decided: frozen, and carrying what they were decided with."""

from dataclasses import dataclass
from datetime import date, datetime


@dataclass(frozen=True, slots=True)
class SprayEntry:
    """
    A block that may be sprayed today.

    Attributes
    ----------
    rank : int
        1 is first; equal hazards share a rank.
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
        One plain sentence.
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
    """

    today: date
    first_day: date
    horizon_days: int
    material: str
    reference_block: str
    entries: tuple[SprayEntry, ...]
    cannot_now: tuple[CannotNow, ...]
    not_ranked: tuple[NotRanked, ...] = ()
