"""What did the stations measure, together? One series out of one file or of several."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import pandas as pd

from geo.arrays import FloatArray
from geo.errors import Outcome
from geo.inputs.at import WHOLE_FILE, at_column
from geo.inputs.folder import Folder
from geo.inputs.rain import blocked_gauges
from geo.inputs.stations import Site
from geo.inputs.sun import mid_hour_elevation
from geo.inputs.weather import COLUMNS
from geo.texts import phrase
from geo.weather.layer import pool_parameters
from geo.weather.pools import mixed_air_lapse, pool_strength
from geo.weather.stations import (
    StationHours,
    combine_stations,
    lapse_rate_by_hour,
    shares_by_hour,
)

_HOUR = pd.Timedelta(hours=1)
_MONTHS = 12


@dataclass(frozen=True, slots=True)
class Measured:
    """
    What the stations say.

    Attributes
    ----------
    hours : pandas.DataFrame
        As `geo.inputs.weather.read_weather` gives them.
    share : numpy.ndarray
        Of each station in the temperatures: its weight where all measured, less where it was
        silent. 1 in all.
    """

    hours: pd.DataFrame
    share: FloatArray


def read_measured(folder: Folder, site: Site, hours: Mapping[str, pd.DataFrame]) -> Measured:
    """
    Return the measured hours at the site.

    Parameters
    ----------
    folder : Folder
        The farm folder.
    site : Site
        Where they shall hold.
    hours : mapping of str to pandas.DataFrame
        Of each weather file, by role.

    Returns
    -------
    Measured
        A single station's rows as they stand; several brought together, an hour missing only
        where nobody measured.

    Raises
    ------
    InputError
        If a file cannot be used.
    """
    frames = [hours[station.role] for station in site.stations]
    if len(frames) == 1 or all(frame.empty for frame in frames):
        return Measured(frames[0], site.weight)
    _refuse_other_clocks(folder, site, frames)
    return _together(folder, site, frames)


def _refuse_other_clocks(folder: Folder, site: Site, frames: list[pd.DataFrame]) -> None:
    first = next(frame.index[0] for frame in frames if len(frame))
    for station, frame in zip(site.stations, frames, strict=True):
        if len(frame) and (frame.index[0] - first) % _HOUR:
            found = phrase("its hours begin at other minutes than the other stations'")
            fix = phrase("Give all of them by the same clock")
            raise folder.readings[station.role].refused(
                "E-TIME-MINUTE", at_column("time"), found=found, fix=fix
            )


def _together(folder: Folder, site: Site, frames: list[pd.DataFrame]) -> Measured:
    known = [frame for frame in frames if len(frame)]
    hours = pd.date_range(
        min(frame.index[0] for frame in known), max(frame.index[-1] for frame in known), freq="h"
    )
    aligned = [frame.reindex(hours) for frame in frames]
    _say_silent(folder, site, aligned)
    _drop_blocked(folder, site, aligned)
    measured = StationHours(
        **{name: np.stack([frame[name].to_numpy(float) for frame in aligned]) for name in COLUMNS}
    )
    elevation = np.array([station.elevation for station in site.stations])
    local = hours.tz_localize("UTC").tz_convert(folder.farm.zone)
    combined = combine_stations(
        measured,
        elevation=elevation,
        weight=site.weight,
        at_elevation=site.elevation,
        lapse_rate=lapse_rate_by_hour(
            measured.air_temperature,
            elevation,
            kind_of_hour=np.asarray(local.hour * _MONTHS + local.month, dtype=np.int64),
            otherwise=_usual_lapse(measured, site, hours),
        ),
    )
    frame = pd.DataFrame({name: getattr(combined, name) for name in COLUMNS}, index=hours)
    # For messages: where the heaviest station's file stands in that hour.
    heaviest = aligned[int(np.argmax(site.weight))]
    frame["row"] = heaviest["row"].ffill().fillna(1)
    made = [frame["is_made"].to_numpy(float) for frame in aligned if "is_made" in frame]
    frame["is_made"] = np.nan_to_num(made).max(axis=0) if made else 0.0
    share = shares_by_hour(measured.air_temperature, site.weight).sum(axis=1)
    return Measured(frame, share / share.sum() if share.sum() else site.weight)


def _usual_lapse(measured: StationHours, site: Site, hours: pd.DatetimeIndex) -> FloatArray:
    """Return the lapse that blocks get too: that of mixed air, less as pools stand."""
    parameters = pool_parameters()
    mean = combine_stations(
        measured,
        elevation=np.full(site.weight.size, site.elevation),
        weight=site.weight,
        at_elevation=site.elevation,
        lapse_rate=np.zeros(len(hours)),
    )
    strength = pool_strength(
        air_temperature=_bridged(mean.air_temperature),
        relative_humidity=_bridged(mean.relative_humidity),
        cloud_cover=mean.cloud_cover,
        wind_speed=_bridged(mean.wind_speed),
        solar_elevation=mid_hour_elevation(
            hours,
            longitude=site.longitude,
            latitude=site.latitude,
            elevation=site.elevation,
        ),
        parameters=parameters,
    )
    return mixed_air_lapse(strength, lapse_rate=parameters.lapse_rate)


def _bridged(values: FloatArray) -> FloatArray:
    """Return a series that ends no state: lines across hours in which nobody measured."""
    is_known = ~np.isnan(values)
    place = np.arange(values.size)
    if not is_known.any():
        return np.zeros(values.size)
    bridged: FloatArray = np.interp(place, place[is_known], values[is_known])
    return bridged


def _drop_blocked(folder: Folder, site: Site, aligned: list[pd.DataFrame]) -> None:
    """Take the rain of blocked gauges as unknown, never as none."""
    is_blocked = blocked_gauges(np.stack([frame["precipitation"] for frame in aligned]))
    for station, frame, blocked in zip(site.stations, aligned, is_blocked, strict=True):
        if blocked:
            found = phrase(
                "tells of no rain while another station caught plenty: the gauge looks blocked, "
                "and its rain is taken as unknown"
            )
            at, fix = at_column(COLUMNS["precipitation"][0]), phrase("Clean the gauge")
            reading = folder.readings[station.role]
            reading.add(Outcome.NOTE, "E-RAIN-BLOCKED", at, found=found, fix=fix)
            frame["precipitation"] = np.nan


def _say_silent(folder: Folder, site: Site, aligned: list[pd.DataFrame]) -> None:
    column = COLUMNS["air_temperature"][0]
    is_known = np.stack([frame["air_temperature"].notna().to_numpy() for frame in aligned])
    for station, knows in zip(site.stations, is_known, strict=True):
        silent = int((~knows & is_known.any(axis=0)).sum())
        if silent:
            found = phrase(
                "{hours} h without {column} left to the other stations",
                hours=silent,
                column=column,
            )
            fix = phrase("Fill them from the station's memory if you can")
            reading = folder.readings[station.role]
            reading.add(Outcome.NOTE, "E-STATION-SILENT", WHOLE_FILE, found=found, fix=fix)
