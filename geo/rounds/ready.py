"""What is a day's round reckoned with: the user's own numbers, and what is assumed for the rest?"""

from dataclasses import dataclass
from datetime import time

import geopandas as gpd
import numpy as np

from geo.arrays import FloatArray
from geo.errors import InputError
from geo.reference.number import numbers
from geo.rounds.dose import litres_per_hectare, tree_row_volume
from geo.rounds.missing import missing_of_blocks, missing_tanks
from geo.season.farm import Farm
from geo.season.sprayers import RoundSettings, Sprayer
from geo.texts import mark, phrase, phrase_of

TABLE = "rounds"
# What is assumed where it is not given, in words.
_OF_SPRAYER = {
    "speed": mark("{value:g} km/h while spraying"),
    "travel_speed": mark("{value:g} km/h between blocks"),
    "refill_minutes": mark("{value:g} minutes to fill a tank"),
}
_OF_ROUND = {
    "hours": mark("{value:g} hours of work"),
    "turn_seconds": mark("{value:g} seconds for a turn"),
    "setup_minutes": mark("{value:g} minutes at each block before spraying"),
}


@dataclass(frozen=True, slots=True)
class Assumed:
    """
    A number that the farm does not give.

    Attributes
    ----------
    key : str
        As it would be given in the farm's file.
    words : str
        What was taken instead, with its unit.
    sprayer : str
        Whose it is; empty for the whole round.
    """

    key: str
    words: str
    sprayer: str = ""


@dataclass(frozen=True, slots=True)
class ReadySprayer:
    """
    A sprayer with nothing left open that a round needs.

    Attributes
    ----------
    name : str
        As the user calls it.
    kind : str or None
        None where it is not known.
    keeps_stirred : bool or None
        Whether a settling suspension stays stirred in its tank; None where it is not known.
    tank_litres : float
        What its tank holds.
    nozzles : int or None
        How many spray at once; None where it is not known.
    speed, travel_speed : float
        While spraying and between blocks, km/h.
    refill_minutes : float
        To fill and mix a tank.
    """

    name: str
    kind: str | None
    keeps_stirred: bool | None
    tank_litres: float
    nozzles: int | None
    speed: float
    travel_speed: float
    refill_minutes: float


@dataclass(frozen=True, slots=True)
class ReadyRound:
    """
    All numbers of a day's round.

    Attributes
    ----------
    sprayers : tuple of ReadySprayer
        In the order of the file.
    start : datetime.time
        Local time at which they leave.
    hours : float
        Of work for each.
    turn_seconds, setup_minutes : float
        From row to row, and at each block before spraying.
    turning_radius : float or None
        Metres; None where it is not known.
    row_spacing : numpy.ndarray
        Metres, shape (block,).
    row_direction : numpy.ndarray
        Degrees from north, shape (block,); NaN for along the block's longer side.
    volume : numpy.ndarray
        Litres for a hectare, shape (block,).
    assumed : tuple of Assumed
        What the farm does not give.
    """

    sprayers: tuple[ReadySprayer, ...]
    start: time
    hours: float
    turn_seconds: float
    setup_minutes: float
    turning_radius: float | None
    row_spacing: FloatArray
    row_direction: FloatArray
    volume: FloatArray
    assumed: tuple[Assumed, ...]


def ready_round(farm: Farm) -> ReadyRound:
    """
    Return all numbers of a day's round.

    Parameters
    ----------
    farm : Farm
        Settings and blocks.

    Returns
    -------
    ReadyRound
        In the blocks' own order.

    Raises
    ------
    InputError
        If no sprayer is described, or one without its tank, or if a block's row spacing or spray
        volume is not known: all that is missing at once. None of these is ever assumed.
    """
    day_round = farm.settings.day_round
    row_spacing = _of_blocks(farm.blocks, "row_spacing", day_round)
    volume = _volume(farm.blocks, day_round, row_spacing)
    missing = [*missing_tanks(farm.settings.sprayers)]
    missing += missing_of_blocks(farm.blocks, "row_spacing", row_spacing)
    # Without its rows a canopy cannot be told either: that is said once.
    is_spaced = not np.isnan(row_spacing).any() or day_round.litres_per_1000_m3 is None
    if is_spaced:
        missing += missing_of_blocks(farm.blocks, "litres_per_hectare", volume)
    if missing:
        raise InputError(missing)
    assumed: list[Assumed] = []
    sprayers = tuple(_ready(sprayer, assumed) for sprayer in farm.settings.sprayers)
    told = _with_assumed(day_round, _OF_ROUND, assumed)
    start = day_round.start or _time_of(numbers(TABLE)["round", "start"].value)
    if day_round.start is None:
        words = phrase("leaving the shed at {start:%H:%M}", start=start)
        assumed.append(Assumed("start", words))
    return ReadyRound(
        sprayers=sprayers,
        start=start,
        turning_radius=day_round.turning_radius,
        row_spacing=row_spacing,
        row_direction=_of_blocks(farm.blocks, "row_direction", day_round),
        volume=volume,
        assumed=tuple(assumed),
        **told,
    )


def _ready(sprayer: Sprayer, assumed: list[Assumed]) -> ReadySprayer:
    return ReadySprayer(
        name=sprayer.name,
        kind=sprayer.kind,
        keeps_stirred=sprayer.keeps_stirred,
        tank_litres=sprayer.tank_litres or 0.0,
        nozzles=sprayer.nozzles,
        **_with_assumed(sprayer, _OF_SPRAYER, assumed),
    )


def _with_assumed(
    given: Sprayer | RoundSettings, words: dict[str, str], assumed: list[Assumed]
) -> dict[str, float]:
    """Return each number, assumed where it was not given, and write down what was assumed."""
    sprayer = given.name if isinstance(given, Sprayer) else ""
    kind = "sprayer" if isinstance(given, Sprayer) else "round"
    told = {}
    for key, number in words.items():
        value = getattr(given, key)
        if value is None:
            value = numbers(TABLE)[kind, key].value
            said = phrase_of(number, value=value)
            assumed.append(Assumed(key, f"{sprayer}, {said}" if sprayer else said, sprayer))
        told[key] = float(value)
    return told


def _time_of(hours: float) -> time:
    return time(int(hours), round(hours % 1.0 * 60.0))  # minutes of an hour


def _of_blocks(blocks: gpd.GeoDataFrame, key: str, day_round: RoundSettings) -> FloatArray:
    """Return what holds in each block: its own column, else the farm's key, else NaN."""
    of_farm = getattr(day_round, key)
    own = blocks[key].to_numpy(float) if key in blocks else np.full(len(blocks), np.nan)
    return np.where(np.isnan(own), np.nan if of_farm is None else of_farm, own)


def _volume(
    blocks: gpd.GeoDataFrame, day_round: RoundSettings, row_spacing: FloatArray
) -> FloatArray:
    if day_round.litres_per_hectare is not None:
        return np.full(len(blocks), day_round.litres_per_hectare)
    if day_round.litres_per_1000_m3 is None:
        return np.full(len(blocks), np.nan)
    canopy = tree_row_volume(
        height=_of_blocks(blocks, "canopy_height", day_round),
        width=_of_blocks(blocks, "canopy_width", day_round),
        row_spacing=row_spacing,
    )
    return litres_per_hectare(canopy, litres_per_1000_m3=day_round.litres_per_1000_m3)
