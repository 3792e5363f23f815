"""Season and last night at every cell, as cloud-optimised GeoTIFF for any GIS."""

from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import numpy as np
import rasterio
import xarray as xr
from rasterio.io import MemoryFile
from rasterio.shutil import copy

from geo.arrays import AnyArray
from geo.exports.farm_title import scenario_words
from geo.exports.files import write_whole
from geo.exports.page_words import CAUTIONS, HONESTY
from geo.season.farm import Farm
from geo.season.today import today_index
from geo.texts import phrase, phrase_of
from geo.texts.days import day_words

# Tiles small enough that a farm of a few hundred cells a side has overviews too.
TILE = 256


def write_favourability(path: Path, *, farm: Farm, season: xr.Dataset) -> None:
    """
    Write the season's mean favourability for the disease at every cell.

    Parameters
    ----------
    path : pathlib.Path
        Of the GeoTIFF, replaced only when the new one is complete.
    farm : Farm
        For the coordinate system.
    season : xarray.Dataset
        With ``season_favourability_grid``.

    Raises
    ------
    OSError
        If it cannot be written.
    """
    days = season["day"].values[[0, today_index(season)]].astype("datetime64[D]")
    about = {"FIRST_DAY": str(days[0]), "LAST_DAY": str(days[1])}
    _write(path, farm, season, name="season_favourability_grid", about=about)


def write_last_night(path: Path, *, farm: Farm, season: xr.Dataset) -> None:
    """
    Write the temperature at every cell in the coolest hour of the last measured night.

    Parameters
    ----------
    path : pathlib.Path
        Of the GeoTIFF, replaced only when the new one is complete.
    farm : Farm
        For the coordinate system and the time zone.
    season : xarray.Dataset
        With ``last_night_temperature_grid``.

    Raises
    ------
    OSError
        If it cannot be written.
    """
    about = {"HOUR_BEGINS": last_night_words(season, farm)}
    _write(path, farm, season, name="last_night_temperature_grid", about=about)


def last_night_words(season: xr.Dataset, farm: Farm) -> str:
    """
    Return the hour that the last night's temperatures are of.

    Parameters
    ----------
    season : xarray.Dataset
        With ``last_night_hour``.
    farm : Farm
        For the time zone.

    Returns
    -------
    str
        Such as ``04:00 on Wed 14 Aug``, or ``no measured night``.
    """
    hour = int(season["last_night_hour"])
    if hour < 0:
        return phrase("no measured night")
    utc = season["hour"].values[hour].astype("datetime64[s]").astype(datetime)
    local = utc.replace(tzinfo=ZoneInfo("UTC")).astimezone(ZoneInfo(farm.zone))
    return phrase("{hour:%H:%M} on {day}", hour=local, day=day_words(local.date()))


def _write(path: Path, farm: Farm, season: xr.Dataset, *, name: str, about: dict[str, str]) -> None:
    band = season[name].transpose("row", "column")
    tags = about | {
        "FARM": farm.name,
        "SCENARIO": scenario_words(farm),
        "HONESTY_LEVEL": phrase_of(HONESTY),
        "CAUTIONS": phrase_of(CAUTIONS),
    }
    width, height = float(season["cell_width"]), float(season["cell_height"])
    west, north = float(season.attrs["grid_west"]), float(season.attrs["grid_north"])
    profile = {
        "crs": farm.crs.to_wkt(),
        "transform": rasterio.Affine(width, 0.0, west, 0.0, -height, north),
        "nodata": np.nan,
    }

    with MemoryFile() as plain, MemoryFile() as optimised:
        _fill(plain, band, profile, tags)
        _optimise(plain, optimised)
        # Written by ourselves, so that a full disk is the same fault as for every other file.
        write_whole(path, lambda beside: _write_bytes(beside, optimised))


def _write_bytes(path: Path, content: MemoryFile) -> None:
    path.write_bytes(content.getbuffer())


def _fill(
    memory: MemoryFile, band: xr.DataArray, profile: dict[str, object], tags: dict[str, str]
) -> None:
    values: AnyArray = band.values.astype(np.float32)
    height, width = values.shape
    with memory.open(
        driver="GTiff", dtype="float32", count=1, width=width, height=height, **profile
    ) as file:
        file.write(values, 1)
        file.set_band_description(1, band.attrs["long_name"])
        file.set_band_unit(1, band.attrs["units"])
        file.update_tags(**tags)


def _optimise(plain: MemoryFile, optimised: MemoryFile) -> None:
    with plain.open() as file:
        copy(
            file,
            optimised.name,
            driver="COG",
            compress="DEFLATE",
            predictor="YES",
            blocksize=TILE,
            overview_resampling="AVERAGE",
        )
