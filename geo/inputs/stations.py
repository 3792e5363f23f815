"""Where does the farm's weather hold, and how much does each station count?"""

from dataclasses import dataclass

import numpy as np
from pyproj import Transformer

from geo.arrays import FloatArray, IntArray
from geo.errors import Outcome
from geo.inputs.at import At
from geo.inputs.cover import cell_at
from geo.inputs.distances import metres_away, named
from geo.inputs.folder import Folder
from geo.inputs.ground_faults import feet_for_metres
from geo.inputs.land import Land
from geo.inputs.settings_stations import Station
from geo.texts import phrase
from geo.weather.stations import station_weights

# Global elevation files are off by a few metres and smooth over tens: beyond the first a typing
# error is likelier, beyond the second certain enough to stop (our choice).
DOUBTFUL_HEIGHT_M, WRONG_HEIGHT_M = 30.0, 300.0


@dataclass(frozen=True, slots=True)
class Site:
    """
    The place the season's weather is made for.

    Attributes
    ----------
    longitude, latitude : float
        Degrees, WGS 84.
    elevation : float
        m above sea level.
    stations : tuple of Station
        Whom it comes from.
    cell : numpy.ndarray
        Flat index of each station's elevation cell, -1 outside.
    weight : numpy.ndarray
        How much each counts while all measure; 1 in all.
    """

    longitude: float
    latitude: float
    elevation: float
    stations: tuple[Station, ...]
    cell: IntArray
    weight: FloatArray


def read_site(folder: Folder, land: Land) -> Site:
    """
    Return where the weather holds: at the one station, or amid the blocks with several.

    Parameters
    ----------
    folder : Folder
        The farm folder.
    land : Land
        For the blocks.

    Returns
    -------
    Site
        With several stations at the middle and the mean height of the blocks.

    Raises
    ------
    InputError
        If a station's height cannot be that of the ground it stands on.
    """
    stations = folder.farm.stations
    to_metres = Transformer.from_crs(4326, land.crs, always_xy=True)
    west, south, east, north = land.blocks.total_bounds
    longitude, latitude = to_metres.transform(
        (west + east) / 2, (south + north) / 2, direction="INVERSE"
    )
    distance = metres_away(stations, longitude=longitude, latitude=latitude)
    places = (to_metres.transform(station.longitude, station.latitude) for station in stations)
    cells = [cell_at(land.ground, x=x, y=y) for x, y in places]
    _check_feet(folder, land, cells)
    for station, cell in zip(stations, cells, strict=True):
        _check_height(folder, land, station, cell)
    if len(stations) == 1:
        only = stations[0]
        return Site(
            only.longitude, only.latitude, only.elevation, stations, np.array(cells), np.ones(1)
        )
    elevation = _mean_elevation(land)
    above = np.array([station.elevation for station in stations]) - elevation
    weight = station_weights(distance, above)
    return Site(longitude, latitude, elevation, stations, np.array(cells), weight)


def _check_feet(folder: Folder, land: Land, cells: list[int]) -> None:
    stated = [station.elevation for station in folder.farm.stations]
    reading = folder.readings["elevation"]
    if refusal := feet_for_metres(reading, land.ground, stated=stated, cells=cells):
        raise refusal


def _check_height(folder: Folder, land: Land, station: Station, cell: int) -> None:
    """Hold the station's stated height against the ground: limits on heat hang on it."""
    ground = float(land.ground.grid.ravel()[cell]) if cell >= 0 else np.nan
    away = abs(station.elevation - ground)
    if not away > DOUBTFUL_HEIGHT_M:  # also where the ground is not known
        return
    found = phrase(
        "{stated:g} m is stated, the elevation file has {ground:.0f} m there",
        stated=station.elevation,
        ground=ground,
    )
    fix = phrase("Check the station's elevation and place, and the unit of the elevation file")
    at = At(f"{named(station)} elevation")
    if away > WRONG_HEIGHT_M:
        raise folder.settings.refused("E-STATION-HEIGHT", at, found=found, fix=fix)
    folder.settings.add(Outcome.NOTE, "E-STATION-HEIGHT", at, found=found, fix=fix)


def _mean_elevation(land: Land) -> float:
    height = land.ground.grid.ravel()[land.cover.cell]
    share = np.where(np.isnan(height), 0.0, land.cover.share)
    return float(np.nan_to_num(height) @ share / share.sum())
