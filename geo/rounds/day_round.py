"""The round of a day as planned: who drives where, with which tank, from when to when."""

from dataclasses import dataclass
from datetime import date, datetime

TRACKS, STRAIGHT = "tracks", "straight lines"


@dataclass(frozen=True, slots=True)
class Ingredient:
    """
    What goes into a tank.

    Attributes
    ----------
    material : str
        Active ingredient.
    amount : float or None
        For this load, in the unit of the label's rate; None where the label's rate is not known.
    unit : str
        Of the amount; empty where it is not known.
    """

    material: str
    amount: float | None
    unit: str


@dataclass(frozen=True, slots=True)
class Load:
    """
    A tank from filling to filling.

    Attributes
    ----------
    number : int
        Of the sprayer's day, from 1.
    water : str
        Name of the place where it is filled.
    filled_from, filled_until : datetime.datetime
        Local start and end of filling and mixing.
    litres : float
        To fill in.
    is_part : bool
        Whether that is less than the tank holds.
    ingredients : tuple of Ingredient
        In the order of mixing.
    """

    number: int
    water: str
    filled_from: datetime
    filled_until: datetime
    litres: float
    is_part: bool
    ingredients: tuple[Ingredient, ...]


@dataclass(frozen=True, slots=True)
class Stop:
    """
    Whole rows of a block, sprayed without a break from one load.

    Attributes
    ----------
    number : int
        Place in the sprayer's driving order, from 1.
    block : str
        Its id.
    rank : int
        Of the block in the spray order: driving never changes it.
    load : int
        Number of the load it is sprayed from.
    first_row, last_row, rows_of_block : int
        Rows sprayed, counted from 1 at the downwind side, and how many the block has.
    litres : float
        Sprayed here.
    area : float
        Hectares sprayed here.
    arrives, starts, finishes : datetime.datetime
        Local; between arriving and starting the sprayer waits for an hour to open.
    longitude, latitude : float
        Where the block is entered, degrees, WGS 84.
    cautions : tuple of str
        What warns in these hours and closes nothing.
    re_entry_ends : datetime.datetime or None
        Local; None where the label's hours are not known.
    pre_harvest_ends : date or None
        First day that may be picked; None where the label's days are not known.
    """

    number: int
    block: str
    rank: int
    load: int
    first_row: int
    last_row: int
    rows_of_block: int
    litres: float
    area: float
    arrives: datetime
    starts: datetime
    finishes: datetime
    longitude: float
    latitude: float
    cautions: tuple[str, ...] = ()
    re_entry_ends: datetime | None = None
    pre_harvest_ends: date | None = None


@dataclass(frozen=True, slots=True)
class SprayerDay:
    """
    One sprayer's day.

    Attributes
    ----------
    sprayer : str
        Its name.
    leaves, returns : datetime.datetime
        Local.
    kilometres : float
        Driven between blocks, water and shed.
    spraying_hours, driving_hours, filling_hours, waiting_hours : float
        What the day is made of.
    loads : tuple of Load
        First to last.
    stops : tuple of Stop
        In driving order.
    path : tuple of tuple of float
        Longitude and latitude of every bend of the way, from leaving to returning.
    """

    sprayer: str
    leaves: datetime
    returns: datetime
    kilometres: float
    spraying_hours: float
    driving_hours: float
    filling_hours: float
    waiting_hours: float
    loads: tuple[Load, ...]
    stops: tuple[Stop, ...]
    path: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class LeftOut:
    """
    A block that the day's round does not reach.

    Attributes
    ----------
    block : str
        Its id.
    rank : int
        In the spray order.
    cost : float
        Loss that could have been avoided: days of hazard index 1 times hectares.
    reason : str
        One plain sentence: no time, no open hours in a row, no sprayer that may carry the material.
    """

    block: str
    rank: int
    cost: float
    reason: str


@dataclass(frozen=True, slots=True)
class DayRound:
    """
    Who sprays what today, in which order and hours.

    Attributes
    ----------
    day : datetime.date
        The day it is for.
    materials : tuple of str
        Active ingredients in the tank.
    sprayers : tuple of SprayerDay
        Those that leave the shed.
    left_out : tuple of LeftOut
        Blocks of the spray order that are not reached, the costliest first.
    avoided : float
        Loss that the round avoids: days of hazard index 1 times hectares.
    bound : float
        What no round of the day could exceed.
    is_proven : bool
        Whether round and bound meet.
    ways : str
        `TRACKS`, or `STRAIGHT` where the farm has no tracks that reach its blocks.
    notes : tuple of str
        Plain sentences: why the day is short or empty, what was assumed.
    """

    day: date
    materials: tuple[str, ...]
    sprayers: tuple[SprayerDay, ...]
    left_out: tuple[LeftOut, ...]
    avoided: float
    bound: float
    is_proven: bool
    ways: str
    notes: tuple[str, ...]
