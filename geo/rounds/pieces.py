"""Into which loads is each block of the spray order split, and how long does each take?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray
from geo.rounds.dose import row_litres
from geo.rounds.mixing import may_carry
from geo.rounds.order import SprayEntry
from geo.rounds.ready import ReadyRound
from geo.rounds.rows import rows_of
from geo.rounds.work import loads_of_rows, minutes_of_rows
from geo.season.farm import Farm
from geo.windows.ask_material import planned

_ROUNDING = 1e-9  # a row that fills the tank to the last drop still fits


@dataclass(frozen=True, slots=True)
class Piece:
    """
    Whole rows of a block that are sprayed from one load.

    Attributes
    ----------
    entry : SprayEntry
        Its block in the spray order.
    place : int
        Of the block among the farm's.
    first_row, last_row, rows_of_block : int
        Counted from 1 at the downwind side.
    litres, area : float
        Sprayed, and the hectares of its rows: their length times their spacing.
    minutes : tuple of float
        For each sprayer, setting up and turning included.
    worth : float
        Loss that it avoids: days of hazard index 1 times hectares.
    sprayers : frozenset of int
        Which may do it.
    """

    entry: SprayEntry
    place: int
    first_row: int
    last_row: int
    rows_of_block: int
    litres: float
    area: float
    minutes: tuple[float, ...]
    worth: float
    sprayers: frozenset[int]


def able_sprayers(farm: Farm, ready: ReadyRound) -> frozenset[int]:
    """
    Return which sprayers may carry the planned tank.

    Parameters
    ----------
    farm : Farm
        For the planned materials.
    ready : ReadyRound
        For the sprayers.

    Returns
    -------
    frozenset of int
        Without those whose tank is known not to be kept stirred, where something in it settles;
        where it is not known the rule of agitation warns.
    """
    return frozenset(
        number
        for number, sprayer in enumerate(ready.sprayers)
        if may_carry(planned(farm), keeps_stirred=sprayer.keeps_stirred) is not False
    )


def pieces_of(
    farm: Farm, entry: SprayEntry, place: int, *, ready: ReadyRound, wind_from: float
) -> tuple[Piece, ...]:
    """
    Return the loads that a block takes, each small enough for any sprayer that may do the block.

    Parameters
    ----------
    farm : Farm
        For the block's outline.
    entry : SprayEntry
        Of the block.
    place : int
        Of the block among the farm's.
    ready : ReadyRound
        All numbers of the round.
    wind_from : float
        Degrees; NaN where it is not known.

    Returns
    -------
    tuple of Piece
        None where a row takes more than the tank of any sprayer that may carry the materials.
    """
    rows = rows_of(
        farm.blocks.geometry.iloc[place],
        spacing=float(ready.row_spacing[place]),
        direction=float(ready.row_direction[place]),
        wind_from=wind_from,
    )
    volume, spacing = float(ready.volume[place]), float(ready.row_spacing[place])
    litres = row_litres(1.0, row_length=1.0, row_spacing=spacing) * volume * rows.length
    share = rows.length / rows.length.sum()
    able = frozenset(
        number
        for number in able_sprayers(farm, ready)
        if ready.sprayers[number].tank_litres * (1.0 + _ROUNDING) >= litres.max()
    )
    if not able:
        return ()
    tank = min(ready.sprayers[number].tank_litres for number in able)
    ends = np.cumsum(loads_of_rows(litres, tank_litres=tank)).tolist()
    return tuple(
        Piece(
            entry=entry,
            place=place,
            first_row=first + 1,
            last_row=last,
            rows_of_block=len(share),
            litres=float(litres[first:last].sum()),
            area=float(litres[first:last].sum()) / volume,
            minutes=_minutes(ready, rows.length[first:last]),
            worth=float(entry.avoidable * share[first:last].sum()),
            sprayers=able,
        )
        for first, last in zip([0, *ends[:-1]], ends, strict=True)
    )


def _minutes(ready: ReadyRound, length: FloatArray) -> tuple[float, ...]:
    return tuple(
        minutes_of_rows(
            length,
            speed=sprayer.speed,
            turn_seconds=ready.turn_seconds,
            setup_minutes=ready.setup_minutes,
        ).minutes
        for sprayer in ready.sprayers
    )
