"""Where is everything? Blocks, neighbours, places, ground and station in one system."""

from collections.abc import Collection
from dataclasses import dataclass

import geopandas as gpd
from pyproj import CRS, Geod, Transformer

from geo.inputs.cover import Cover, cover_of, refuse_uncovered, station_cell
from geo.inputs.elevation import Ground, read_elevation
from geo.inputs.folder import Folder
from geo.inputs.outlines import no_neighbours, read_blocks, read_neighbours
from geo.inputs.places import no_places, read_places

# A station further away tells nothing about the farm: then longitude and latitude are swapped or
# one of them has lost its sign (our choice).
FARTHEST_STATION_KM = 500.0


@dataclass(frozen=True, slots=True)
class Land:
    """
    The farm's land, in metres.

    Attributes
    ----------
    crs : pyproj.CRS
        The UTM zone everything is in.
    blocks, neighbours, places : geopandas.GeoDataFrame
        As their readers give them.
    held : tuple of str
        Ids of blocks set aside.
    ground : Ground
        Elevation.
    cover : Cover
        How the blocks lie on it.
    station_cell : int
        Flat index of the station's cell, -1 outside.
    """

    crs: CRS
    blocks: gpd.GeoDataFrame
    neighbours: gpd.GeoDataFrame
    places: gpd.GeoDataFrame
    held: tuple[str, ...]
    ground: Ground
    cover: Cover
    station_cell: int


def read_land(folder: Folder, *, cultivars: Collection[str]) -> Land:
    """
    Return the farm's land.

    Parameters
    ----------
    folder : Folder
        The farm folder.
    cultivars : collection of str
        Those with a rating.

    Returns
    -------
    Land
        All of it in one system of metres.

    Raises
    ------
    InputError
        If outlines or elevation cannot be used.
    """
    readings = folder.readings
    blocks, held = read_blocks(readings["outlines"], cultivars=cultivars)
    crs = blocks.crs
    neighbours, places = no_neighbours(crs), no_places(crs)
    if "neighbours" in readings:
        neighbours = read_neighbours(readings["neighbours"], crs=crs, taken=blocks.index)
    if "places" in readings:
        places = read_places(readings["places"], crs=crs)
    x, y = _station(folder, blocks)
    west, south, east, north = map(float, blocks.total_bounds)
    ground = read_elevation(readings["elevation"], crs=crs, bounds=(west, south, east, north))
    cover = cover_of(blocks, ground)
    refuse_uncovered(readings["elevation"], blocks, ground, cover)
    readings["elevation"].check()
    cell = station_cell(ground, x=x, y=y)
    return Land(crs, blocks, neighbours, places, held, ground, cover, cell)


def _station(folder: Folder, blocks: gpd.GeoDataFrame) -> tuple[float, float]:
    station = folder.farm.station
    to_metres = Transformer.from_crs(4326, blocks.crs, always_xy=True)
    west, south, east, north = blocks.total_bounds
    longitude, latitude = to_metres.transform(
        (west + east) / 2, (south + north) / 2, direction="INVERSE"
    )
    _, _, metres = Geod(ellps="WGS84").inv(longitude, latitude, station.longitude, station.latitude)
    if metres > 1000.0 * FARTHEST_STATION_KM:
        where = f"{station.latitude:g}, {station.longitude:g} (latitude, longitude)"
        found = f"{where} is {metres / 1000:.0f} km from the blocks at "
        found += f"{latitude:.4g}, {longitude:.4g}"
        fix = "Check signs and order of the two, and the coordinate system of the outlines"
        raise folder.settings.refused("E-STATION-FAR", "[station]", found=found, fix=fix)
    x, y = to_metres.transform(station.longitude, station.latitude)
    return float(x), float(y)
