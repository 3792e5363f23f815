"""In which hours should a scout walk: from first light, before heat, outside re-entry?"""

from dataclasses import dataclass
from datetime import date, datetime
from math import ceil, floor
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd
import xarray as xr

from geo.arrays import BoolArray, FloatArray, IntArray
from geo.reference.number import values
from geo.season.acts import UNKNOWN_SPRAY
from geo.season.between import at_blocks
from geo.season.farm import Farm
from geo.season.label import Label
from geo.windows.entry import closed_to_people

_HOUR = pd.Timedelta(hours=1)
HOURS_A_DAY = 24.0  # by definition


@dataclass(frozen=True, slots=True)
class WalkHours:
    """
    When to walk next, on the farm and in each block.

    Hours are counted from the season's first; `clock` turns one into the farm's time.

    Attributes
    ----------
    sunrise : float
        [h] Of the day of the walk.
    start, end : float
        [h] From sunrise, or from now where the sun is up, until growth shows less well.
    block_start, block_end : numpy.ndarray
        [h] Shape (block,): within those, after re-entry and before heat. The start is not before
        the end where nobody should walk there.
    heat : numpy.ndarray
        [h] Shape (block,): when it gets too warm, infinite where not in these hours, NaN where it
        is not forecast.
    closed_until : numpy.ndarray
        [h] Shape (block,): end of re-entry, infinite where it is unknown, minus infinite where no
        spray is known to matter.
    closing_spray : numpy.ndarray
        [1] Shape (block,): the spray that closes, -1 where none does; behind the last of them
        those of an unknown material.
    is_dewy : numpy.ndarray
        [1] Shape (block,): 1 where dew is computed for the night before, NaN where unknown.
    rain : float
        [mm] In these hours, NaN where unknown.
    first_hour : pandas.Timestamp
        Start of the season's first hour, UTC.
    zone : str
        The farm's.
    """

    sunrise: float
    start: float
    end: float
    block_start: FloatArray
    block_end: FloatArray
    heat: FloatArray
    closed_until: FloatArray
    closing_spray: IntArray
    is_dewy: FloatArray
    rain: float
    first_hour: pd.Timestamp
    zone: str

    @property
    def day(self) -> date:
        """
        Return the local day of the walk.

        Returns
        -------
        datetime.date
            That of its start.
        """
        return self.clock(self.start).date()

    @property
    def is_open(self) -> BoolArray:
        """
        Return in which blocks somebody may walk in these hours.

        Returns
        -------
        numpy.ndarray
            Shape (block,).
        """
        return self.block_start < self.block_end

    def clock(self, hour: float) -> datetime:
        """
        Return an hour as the farm's clocks show it, to the minute.

        Parameters
        ----------
        hour : [h]
            Since the season's first.

        Returns
        -------
        datetime.datetime
            With the farm's zone.
        """
        moment = (self.first_hour + hour * _HOUR).round("min").tz_localize("UTC")
        local: datetime = moment.tz_convert(ZoneInfo(self.zone)).to_pydatetime()
        return local


def walk_hours(farm: Farm, season: xr.Dataset) -> WalkHours | None:
    """
    Return when to walk next.

    Parameters
    ----------
    farm : Farm
        With the user's labels.
    season : xarray.Dataset
        With the weather of its spots and the sprays of the diary.

    Returns
    -------
    WalkHours or None
        Of the first morning that is not over; None where the sun does not rise.
    """
    table = values("scouting", "walk")
    now = float(np.flatnonzero(season["is_forecast"].to_numpy() == 0)[-1] + 1)
    rise = season["sunrise"].to_numpy()
    # A season without a forecast ends the evening before: the sun then rises as it did that day.
    sunrises = np.append(rise, rise[-1] + HOURS_A_DAY)
    ahead = np.flatnonzero(sunrises + table["hours_of_low_light"] > now)
    if not ahead.size:
        return None
    day = int(ahead[0])
    sunrise = float(sunrises[day])
    start, end = max(sunrise, now), sunrise + table["hours_of_low_light"]
    heat = _first_hot_hour(season, start, end, limit=table["heat"])
    closed_until, closing_spray = _re_entry(farm.labels, season, start, table["re_entry_asked"])
    is_known = day < season.sizes["day"]
    rain = season["precipitation"].to_numpy()[floor(start) : ceil(end)]
    return WalkHours(
        sunrise=sunrise,
        start=start,
        end=end,
        block_start=np.maximum(closed_until, start),
        block_end=np.fmin(heat, end),
        heat=heat,
        closed_until=closed_until,
        closing_spray=closing_spray,
        is_dewy=(
            np.where(season["dew"].to_numpy()[:, day] > 0, 1.0, 0.0)
            if is_known
            else np.full(season.sizes["block"], np.nan)
        ),
        rain=float(rain.sum()) if rain.size else np.nan,
        first_hour=pd.Timestamp(season["hour"].to_numpy()[0]),
        zone=farm.zone,
    )


def _first_hot_hour(season: xr.Dataset, start: float, end: float, *, limit: float) -> FloatArray:
    hours = np.arange(floor(start), min(ceil(end), season.sizes["hour"]))
    if hours.size < ceil(end) - floor(start):
        return np.full(season.sizes["block"], np.nan)
    air = at_blocks(
        season["air_temperature_at_spot"].to_numpy()[:, hours],
        season["spot_of_block"].to_numpy(),
        season["spot_weight"].to_numpy(),
    )
    is_hot = air >= limit
    first = np.maximum(hours[is_hot.argmax(axis=1)], start)
    none = np.where(np.isnan(air).any(axis=1), np.nan, np.inf)
    return np.where(is_hot.any(axis=1), first, none)


def _re_entry(
    labels: tuple[Label, ...] | None, season: xr.Dataset, start: float, asked_hours: float
) -> tuple[FloatArray, IntArray]:
    """Return until when blocks are closed to people, for sprays that may still matter."""
    blocks = season.sizes["block"]
    if labels is None:
        return np.full(blocks, -np.inf), np.full(blocks, -1)
    interval = {label.material: label.re_entry_hours for label in labels}
    # Sprays of unknown materials stand among the acts: behind the sprays, and never on a label.
    strange = season["act_kind"].to_numpy().astype(str) == UNKNOWN_SPRAY
    known = np.array(
        [interval.get(str(name), np.nan) for name in season["spray_material"].to_numpy()]
        + [np.nan] * int(strange.sum()),
        dtype=float,
    )
    hour = np.append(season["spray_hour"].to_numpy(), season["act_hour"].to_numpy()[strange])
    # Unknown is closed, as long as any label could ask for.
    unknown = np.where(hour + asked_hours > start, np.inf, -np.inf)
    until, spray = closed_to_people(
        np.append(season["spray_block"].to_numpy(), season["act_block"].to_numpy()[strange]),
        hour,
        np.where(np.isnan(known), unknown, known),
        block_count=blocks,
    )
    is_closing = until > start
    return np.where(is_closing, until, -np.inf), np.where(is_closing, spray, -1)
