"""Where is everything? Blocks, neighbours, places and ground in one system."""

from collections.abc import Collection
from dataclasses import dataclass

import geopandas as gpd
from pyproj import CRS

from geo.inputs.cover import Cover, cover_of, note_uncovered
from geo.inputs.drawn_lines import (
    DrawnLines,
    DrawnWindbreaks,
    drawn_lines,
    drawn_windbreaks,
    note_lines,
    note_windbreaks,
)
from geo.inputs.elevation import Ground, read_elevation
from geo.inputs.folder import Folder
from geo.inputs.ground_faults import note_poor_ground
from geo.inputs.outlines import no_neighbours, read_blocks, read_neighbours
from geo.inputs.places import no_places, read_places


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
    lines : DrawnLines
        Dams and drains across it.
    windbreaks : DrawnWindbreaks
        Belts of trees, piece by piece.
    """

    crs: CRS
    blocks: gpd.GeoDataFrame
    neighbours: gpd.GeoDataFrame
    places: gpd.GeoDataFrame
    held: tuple[str, ...]
    ground: Ground
    cover: Cover
    lines: DrawnLines
    windbreaks: DrawnWindbreaks


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
    ground = read_elevation(
        readings["elevation"],
        outlines=blocks.geometry,
        vertical_error=folder.farm.settings.vertical_error,
    )
    cover = cover_of(blocks, ground)
    note_uncovered(readings["elevation"], blocks, ground, cover)
    note_poor_ground(readings["elevation"], blocks, ground, cover)
    readings["elevation"].check()
    lines = drawn_lines(places, ground)
    if "places" in readings:
        note_lines(readings["places"], places, lines)
        note_windbreaks(readings["places"], places)
    windbreaks = drawn_windbreaks(places)
    return Land(crs, blocks, neighbours, places, held, ground, cover, lines, windbreaks)
