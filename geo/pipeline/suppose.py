"""What if? Each supposition takes a season as read and gives another one; no file is touched."""

from collections.abc import Sequence

import numpy as np
import xarray as xr

from geo.arrays import AnyArray, IntArray
from geo.reference.growth_stages import growth_stages
from geo.season import variables as v
from geo.season.today import today_of
from geo.weather.humidity import humidity_of, vapour_pressure


def hours_ahead(season: xr.Dataset) -> IntArray:
    """
    Return the hours that are forecast.

    Parameters
    ----------
    season : xarray.Dataset
        As read, as for all functions here.

    Returns
    -------
    numpy.ndarray
        Indices.
    """
    return np.flatnonzero(season.is_forecast.values == 1)


def coming_night(season: xr.Dataset) -> IntArray:
    """
    Return the forecast hours of the coming night.

    Parameters
    ----------
    season : xarray.Dataset
        With its forecast.

    Returns
    -------
    numpy.ndarray
        Indices of hours on end with the sun down: of the first night of which no less than half
        is ahead, so that before dawn it is the next one that is meant. None without any.
    """
    is_dark = season.solar_elevation.values < 0.0
    is_ahead = season.is_forecast.values == 1
    night = np.cumsum(np.diff(is_dark, prepend=False))  # another number for each night and day
    length = np.bincount(night, minlength=1)
    left = np.bincount(night, is_dark & is_ahead)
    coming = np.flatnonzero((left > 0) & (left >= length / 2.0))
    hours: IntArray = np.flatnonzero((night == coming[0]) & is_ahead) if coming.size else coming
    return hours


def with_rain(season: xr.Dataset, millimetres: float, hours: IntArray) -> xr.Dataset:
    """
    Suppose that more rain falls.

    Parameters
    ----------
    season : xarray.Dataset
        Left as it is.
    millimetres : float
        In all, on top of what is forecast.
    hours : numpy.ndarray
        Indices of the hours it falls in, evenly.

    Returns
    -------
    xarray.Dataset
        Another season. Temperature, humidity and cloud stay as forecast: what the rain would do
        to them is not known.
    """
    rain = season.precipitation.values.copy()
    rain[hours] += millimetres / hours.size
    return _with(season, precipitation=rain)


def warmer(season: xr.Dataset, kelvin: float) -> xr.Dataset:
    """
    Suppose that the forecast hours are warmer, or colder.

    Parameters
    ----------
    season : xarray.Dataset
        Left as it is.
    kelvin : float
        Added to each.

    Returns
    -------
    xarray.Dataset
        Another season. The air holds the same water, so that warmer is drier; what colder air
        cannot hold falls out.
    """
    ahead = hours_ahead(season)
    air, humidity = (
        season[variable.name].values.astype(float)
        for variable in (v.AIR_TEMPERATURE, v.RELATIVE_HUMIDITY)
    )
    water = vapour_pressure(air[ahead], humidity[ahead])
    air[ahead] += kelvin
    # Nothing supposed leaves the very same numbers, which a division would not.
    humidity[ahead] = humidity_of(water, air[ahead]) if kelvin else humidity[ahead]
    return _with(season, air_temperature=air, relative_humidity=humidity)


def with_stage(season: xr.Dataset, block: int, code: str) -> xr.Dataset:
    """
    Suppose that a block is seen at one stage today.

    Parameters
    ----------
    season : xarray.Dataset
        Left as it is.
    block : int
        Its place.
    code : str
        BBCH code.

    Returns
    -------
    xarray.Dataset
        Another season, in which all of the organ is at that stage; what was seen of the organ
        today no longer counts. Days since the look before lead up to it, so growth since the
        sprays follows.
    """
    today, known = today_of(season), growth_stages()
    is_organ = [
        known[stage].scale == known[code].scale for stage in season.portion_stage.values.tolist()
    ]
    is_today = (season.portion_block.values == block) & (season.portion_day.values >= today)
    return _appended(
        season.isel(portion=~(is_today & np.array(is_organ, dtype=bool))),
        portion_block=[block],
        portion_day=[today],
        portion_stage=[code],
        portion_share=[1.0],
    )


def with_spray(season: xr.Dataset, blocks: list[int], material: str, hour: float) -> xr.Dataset:
    """
    Suppose that blocks are sprayed once more.

    Parameters
    ----------
    season : xarray.Dataset
        Left as it is.
    blocks : list of int
        Their places.
    material : str
        Active ingredient, as in fungicides.
    hour : float
        When, in hours since the season's first.

    Returns
    -------
    xarray.Dataset
        Another season, with a spray more a block.
    """
    count = len(blocks)
    return _appended(
        season, spray_block=blocks, spray_hour=[hour] * count, spray_material=[material] * count
    )


def with_cultivar(season: xr.Dataset, block: int, name: str) -> xr.Dataset:
    """
    Suppose that all of a block is of one cultivar.

    Parameters
    ----------
    season : xarray.Dataset
        Left as it is.
    block : int
        Its place.
    name : str
        As in the table of cultivars.

    Returns
    -------
    xarray.Dataset
        Another season.
    """
    texts = season.cultivar_share_text.values.tolist()
    texts[block] = f"{name}:1"
    return _with(season, cultivar_share_text=np.array(texts, dtype=str))


def with_neighbour(season: xr.Dataset, source: int, status: str) -> xr.Dataset:
    """
    Suppose that more or less is known of a neighbour's disease.

    Parameters
    ----------
    season : xarray.Dataset
        Left as it is.
    source : int
        Its place among the sources.
    status : str
        One of known, suspected or unknown.

    Returns
    -------
    xarray.Dataset
        Another season. A count of the neighbour's outweighs its status.
    """
    statuses = season.source_status.values.tolist()
    statuses[source] = status
    return _with(season, source_status=np.array(statuses, dtype=str))


def without_neighbour(season: xr.Dataset, source: int) -> xr.Dataset:
    """
    Suppose that a neighbour is not there.

    Parameters
    ----------
    season : xarray.Dataset
        Left as it is.
    source : int
        Its place among the sources, after the blocks.

    Returns
    -------
    xarray.Dataset
        Another season, without its outline and its counts.
    """
    edge, visit = (season[name].values != source for name in ("edge_source", "visit_block"))
    others = np.flatnonzero(np.arange(season.sizes["source"]) != source)
    left = season.isel(source=others, edge=edge, visit=visit)
    # Sources after it move up by one place.
    moved = {
        name: left[name].values - (left[name].values > source)
        for name in ("edge_source", "visit_block")
    }
    return _with(left, **moved)


def _with(season: xr.Dataset, **arrays: AnyArray) -> xr.Dataset:
    """Return the season with other values, each still saying its unit and meaning."""
    return season.assign(
        {name: (season[name].dims, array, season[name].attrs) for name, array in arrays.items()}
    )


def _appended(season: xr.Dataset, **lists: Sequence[object]) -> xr.Dataset:
    """Return the season with more at the end of one dimension, given all that lies on it."""
    (dimension,) = {season[name].dims for name in lists}
    longer = {
        name: (dimension, np.concatenate([season[name].values, values]), season[name].attrs)
        for name, values in lists.items()
    }
    return season.drop_vars(list(lists)).assign(longer)
