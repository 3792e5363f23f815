"""Which sprays did a block get?"""

from dataclasses import dataclass

import numpy as np
import xarray as xr

from geo.arrays import IntArray

HOURS_OF_A_DAY = 24.0  # of the days before the season; those within may have 23 or 25


@dataclass(frozen=True, slots=True)
class Spray:
    """
    A spray.

    Attributes
    ----------
    material : str
        Active ingredient.
    day : int
        Days from the season's first; below 0 for a spray before it.
    is_planned : bool
        Whether it lies beyond the last measured hour.
    """

    material: str
    day: int
    is_planned: bool = False


def sprays_of(season: xr.Dataset, place: int) -> tuple[Spray, ...]:
    """
    Return the sprays of a block, first to last, planned ones too.

    Parameters
    ----------
    season : xarray.Dataset
        With its sprays.
    place : int
        Of the block.

    Returns
    -------
    tuple of Spray
        As the diary has them.
    """
    mine = np.flatnonzero(season["spray_block"].values == place)
    mine = mine[np.argsort(season["spray_hour"].values[mine], kind="stable")]
    hour, day = season["spray_hour"].values[mine], season["hour_day"].values
    within = np.clip(hour.astype(np.int64), 0, len(day) - 1)
    # A spray before the season's first hour lies before its first day.
    days = np.where(hour < 0, np.floor(hour / HOURS_OF_A_DAY), day[within])
    planned = hour > _measured_hours(season)
    materials = season["spray_material"].values[mine].tolist()
    found = zip(materials, days.astype(np.int64).tolist(), planned.tolist(), strict=True)
    return tuple(Spray(*spray) for spray in found)


def sprays_so_far(season: xr.Dataset) -> IntArray:
    """
    Return how often each block was sprayed up to the last measured hour.

    Parameters
    ----------
    season : xarray.Dataset
        With its sprays.

    Returns
    -------
    [1]
        Shape (block,).
    """
    is_done = season["spray_hour"].values <= _measured_hours(season)
    done: IntArray = np.bincount(
        season["spray_block"].values[is_done].astype(np.int64), minlength=season.sizes["block"]
    )
    return done


def _measured_hours(season: xr.Dataset) -> int:
    return int((season["is_forecast"].values == 0).sum())
