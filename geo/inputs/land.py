"""Where is everything? Blocks, neighbours, places and ground in one system."""

from dataclasses import dataclass

import geopandas as gpd
from pyproj import CRS

from geo.inputs.cover import Cover, cover_of, note_uncovered
from geo.inputs.drawn import Drawn
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


def read_land(folder: Folder, drawn: Drawn) -> Land:
    """
    Return the farm's land.

    Parameters
    ----------
    folder : Folder
        The farm folder.
    drawn : Drawn
        What is drawn on it.

    Returns
    -------
    Land
        All of it in one system of metres.

    Raises
    ------
    InputError
        If the drawings or the elevation cannot be used.
    """
    readings = folder.readings
    blocks, neighbours, places = drawn.blocks, drawn.neighbours, drawn.places
    if blocks is None or "elevation" not in readings:
        raise folder.error()
    ground = read_elevation(
        readings["elevation"],
        outlines=blocks.geometry,
        vertical_error=folder.farm.settings.vertical_error,
    )
    cover = cover_of(blocks, ground)
    note_uncovered(readings["elevation"], blocks, ground, cover)
    note_poor_ground(readings["elevation"], blocks, ground, cover)
    readings["elevation"].check()
    if neighbours is None or places is None:
        raise folder.error()
    lines = drawn_lines(places, ground)
    if "places" in readings:
        note_lines(readings["places"], places, lines)
        note_windbreaks(readings["places"], places)
    windbreaks = drawn_windbreaks(places)
    return Land(
        blocks.crs, blocks, neighbours, places, drawn.held, ground, cover, lines, windbreaks
    )
