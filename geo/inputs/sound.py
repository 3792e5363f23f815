"""Which drawn areas can be used? Each with an id of its own, mended where that changes nothing."""

import geopandas as gpd
import numpy as np
import shapely
from pyproj import Geod, Transformer

from geo.arrays import FloatArray
from geo.errors import Outcome, quoted
from geo.inputs.at import at_feature
from geo.inputs.closed_lines import with_lines_closed
from geo.inputs.faults import CROSSED, fault_of
from geo.inputs.overlaps import sliver
from geo.inputs.reading import Reading
from geo.inputs.repair import mended, parts_of
from geo.inputs.twins import without_twins
from geo.inputs.vectors import DEGREES
from geo.texts import phrase
from geo.texts.lists import listed

SQUARE_METRES_PER_HECTARE = 10_000.0
_SHOWN = 2


def sound_polygons(reading: Reading, features: gpd.GeoDataFrame, key: str) -> gpd.GeoDataFrame:
    """
    Return the features that are sound areas; the others are set aside.

    Parameters
    ----------
    reading : Reading
        The file of outlines.
    features : geopandas.GeoDataFrame
        Index their number in the file.
    key : str
        Column of ids.

    Returns
    -------
    geopandas.GeoDataFrame
        Index the id.

    Raises
    ------
    InputError
        If the same id is given to two different shapes.
    """
    total = len(features)
    if reading.closes_lines:
        features = with_lines_closed(reading, features, key)
    features = without_twins(reading, features, key)
    to_degrees = Transformer.from_crs(features.crs, DEGREES, always_xy=True)
    shapes, is_sound = [], []
    for number, name, geometry in zip(
        features.index, features[key], features.geometry, strict=True
    ):
        shape = geometry
        fault = fault_of(geometry, name, to_degrees)
        if fault and fault[0] == CROSSED:
            shape = mended(geometry)
            code, found, fix = fault
            found += f"; {_areas(geometry, features)}"
            if shape is not None:
                fault = None
                fix = phrase("Redraw that corner if another shape is meant")
                reading.add(Outcome.FIX, code, at_feature(number, name), found=found, fix=fix)
            else:
                fault = (code, found, fix)
        if fault:
            code, found, fix = fault
            reading.add(Outcome.HOLD, code, at_feature(number, name), found=found, fix=fix)
        shapes.append(shape)
        is_sound.append(fault is None)
    sound = features.set_geometry(gpd.GeoSeries(shapes, index=features.index, crs=features.crs))
    sound = _without_slivers(reading, sound[np.array(is_sound, dtype=bool)], key)
    reading.used, reading.held = len(sound), total - len(sound)
    return sound.set_index(key)


def _areas(geometry: shapely.Geometry, features: gpd.GeoDataFrame) -> str:
    """Return in words into which areas a crossed outline falls."""
    parts = gpd.GeoDataFrame(geometry=parts_of(geometry), crs=features.crs)
    hectares = geodesic_area(parts)
    told = listed(f"{area:.3g} ha" for area in hectares[:_SHOWN])
    if not told:
        return phrase("no area is left of it")
    if len(hectares) <= _SHOWN:
        return phrase("it falls into {areas}", areas=told)
    more = len(hectares) - _SHOWN
    return phrase("it falls into {areas} and {more} more", areas=told, more=more)


def _without_slivers(reading: Reading, features: gpd.GeoDataFrame, key: str) -> gpd.GeoDataFrame:
    if features.empty:
        return features
    metres = features.geometry.to_crs(features.estimate_utm_crs())
    small = metres.map(sliver)
    for number in features.index[small != ""]:
        name = features[key][number]
        others = metres[(metres.index != number) & (small == "")]
        fix = phrase("Join it to a block, or take it out")
        if len(others):
            beside = others.distance(metres[number]).idxmin()
            name_beside = quoted(features[key][beside])
            fix = phrase("Join it to {block}, or take it out", block=name_beside)
        found = phrase("{size}: no block of its own, it is set aside", size=small[number])
        reading.add(
            Outcome.HOLD, "E-OUTLINE-SLIVER", at_feature(number, name), found=found, fix=fix
        )
    return features[small == ""]


def geodesic_area(outlines: gpd.GeoDataFrame) -> FloatArray:
    """
    Return the area of outlines on the ellipsoid, which no map projection distorts.

    Parameters
    ----------
    outlines : geopandas.GeoDataFrame
        In any system.

    Returns
    -------
    [ha]
        Holes taken out, parts added up.
    """
    geod = Geod(ellps="WGS84")
    degrees = shapely.orient_polygons(outlines.geometry.to_crs(DEGREES).array)
    areas = [geod.geometry_area_perimeter(geometry)[0] for geometry in degrees]
    area: FloatArray = np.abs(np.array(areas, dtype=float)) / SQUARE_METRES_PER_HECTARE
    return area
