"""How far from the blocks do the weather stations stand, and could that be a slip of the pen?"""

from collections.abc import Sequence

import geopandas as gpd
import numpy as np
from pyproj import Geod, Transformer

from geo.arrays import FloatArray
from geo.errors import Outcome, quoted
from geo.inputs.at import At
from geo.inputs.folder import Folder
from geo.inputs.settings_stations import Station
from geo.inputs.vectors import DEGREES, LARGEST_LATITUDE
from geo.texts import mark, phrase, phrase_of

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
        numbers = {
            "station_latitude": station.latitude,
            "station_longitude": station.longitude,
            "distance": distance,
            "latitude": latitude,
            "longitude": longitude,
        }
        if distance > FARTHEST_STATION_KM:
            found = phrase(
                "{station_latitude:g}, {station_longitude:g} (latitude, longitude) is "
                "{distance:.0f} km from the blocks at {latitude:.4g}, {longitude:.4g}",
                **numbers,
            )
            fix = _slip(station, longitude=longitude, latitude=latitude) or phrase(
                "Check signs and order of the two, and the coordinate system of the outlines"
            )
            folder.settings.add(
                Outcome.STOP, "E-STATION-FAR", At(named(station)), found=found, fix=fix
            )
        elif distance > DOUBTFUL_STATION_KM:
            found = phrase(
                "{station_latitude:g}, {station_longitude:g} (latitude, longitude) is "
                "{distance:.0f} km from the blocks at {latitude:.4g}, {longitude:.4g}: its rain "
                "and cloud may be another valley's",
                **numbers,
            )
            fix = phrase("Take a nearer station if there is one")
            folder.settings.add(
                Outcome.NOTE, "E-STATION-AWAY", At(named(station)), found=found, fix=fix
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
    if station.role == "weather":
        return "[station]"
    return phrase("station {name}", name=quoted(station.name))


def _slip(station: Station, *, longitude: float, latitude: float) -> str:
    """Return what to do about a slip that explains the distance; empty if none would."""
    slips = (
        (
            mark(
                "Longitude and latitude look swapped: mend the outlines or the station, whichever "
                "is wrong"
            ),
            latitude,
            longitude,
        ),
        (
            mark(
                "The sign of the latitude looks lost (south is negative): mend the outlines or "
                "the station, whichever is wrong"
            ),
            longitude,
            -latitude,
        ),
        (
            mark(
                "The sign of the longitude looks lost (west is negative): mend the outlines or "
                "the station, whichever is wrong"
            ),
            -longitude,
            latitude,
        ),
    )
    for words, east, north in slips:
        if abs(north) <= LARGEST_LATITUDE:
            away = metres_away([station], longitude=east, latitude=north)[0]
            if away <= FARTHEST_STATION_KM * _KILOMETRE:
                return phrase_of(words)
    return ""
