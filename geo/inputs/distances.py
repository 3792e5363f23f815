"""How far from the blocks do the weather stations stand, and could that be a slip of the pen?"""

from collections.abc import Sequence

import geopandas as gpd
import numpy as np
from pyproj import Geod, Transformer

from geo.arrays import FloatArray
from geo.errors import Outcome, quoted
from geo.inputs.folder import Folder
from geo.inputs.settings_stations import Station
from geo.inputs.vectors import DEGREES, LARGEST_LATITUDE

# A station further away tells nothing about the farm: then longitude and latitude are swapped or
# one of them has lost its sign (our choice).
FARTHEST_STATION_KM = 500.0
# Beyond it rain and cloud are another valley's (our choice).
DOUBTFUL_STATION_KM = 25.0
_KILOMETRE = 1000.0


def check_distances(folder: Folder, blocks: gpd.GeoDataFrame) -> None:
    """
    Refuse stations too far away to tell anything, and note those that are far.

    Parameters
    ----------
    folder : Folder
        The farm folder, with settings that can be used.
    blocks : geopandas.GeoDataFrame
        In metres.

    Raises
    ------
    InputError
        With the slip that would explain it, where there is one. Nothing is mended.
    """
    to_degrees = Transformer.from_crs(blocks.crs, DEGREES, always_xy=True)
    west, south, east, north = blocks.total_bounds
    longitude, latitude = to_degrees.transform((west + east) / 2, (south + north) / 2)
    stations = folder.farm.stations
    away = metres_away(stations, longitude=longitude, latitude=latitude) / _KILOMETRE
    for station, distance in zip(stations, away, strict=True):
        where = f"{station.latitude:g}, {station.longitude:g} (latitude, longitude)"
        found = f"{where} is {distance:.0f} km from the blocks at {latitude:.4g}, {longitude:.4g}"
        if distance > FARTHEST_STATION_KM:
            fix = "Check signs and order of the two, and the coordinate system of the outlines"
            if slip := _slip(station, longitude=longitude, latitude=latitude):
                fix = f"{slip}: mend the outlines or the station, whichever is wrong"
            folder.settings.add(Outcome.STOP, "E-STATION-FAR", named(station), found=found, fix=fix)
        elif distance > DOUBTFUL_STATION_KM:
            found += ": its rain and cloud may be another valley's"
            fix = "Take a nearer station if there is one"
            folder.settings.add(
                Outcome.NOTE, "E-STATION-AWAY", named(station), found=found, fix=fix
            )
    folder.settings.check()


def metres_away(stations: Sequence[Station], *, longitude: float, latitude: float) -> FloatArray:
    """
    Return how far stations stand from a place.

    Parameters
    ----------
    stations : sequence of Station
        Any.
    longitude, latitude : [degree]
        Of the place.

    Returns
    -------
    [m]
        On the ellipsoid.
    """
    geod = Geod(ellps="WGS84")
    away = [
        geod.inv(longitude, latitude, station.longitude, station.latitude)[2]
        for station in stations
    ]
    return np.array(away, dtype=float)


def named(station: Station) -> str:
    """
    Return a station as messages about ``farm.toml`` name it.

    Parameters
    ----------
    station : Station
        The only one, or one of several.

    Returns
    -------
    str
        Its table, or its name.
    """
    return "[station]" if station.role == "weather" else f"station {quoted(station.name)}"


def _slip(station: Station, *, longitude: float, latitude: float) -> str:
    """Return which slip would bring blocks and station together; empty if none would."""
    slips = (
        ("Longitude and latitude look swapped", latitude, longitude),
        ("The sign of the latitude looks lost (south is negative)", longitude, -latitude),
        ("The sign of the longitude looks lost (west is negative)", -longitude, latitude),
    )
    for words, east, north in slips:
        if abs(north) <= LARGEST_LATITUDE:
            away = metres_away([station], longitude=east, latitude=north)[0]
            if away <= FARTHEST_STATION_KM * _KILOMETRE:
                return words
    return ""
