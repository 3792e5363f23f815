"""Outlines as few bytes: whole millionths of a degree, each corner told from the one before."""

import geopandas as gpd
import numpy as np
import shapely
from pyproj import CRS

from geo.arrays import FloatArray, IntArray

DEGREES_PER_UNIT = 1e-6  # 0.11 m northward
# A step must fit in 16 bits (0.032767 degrees): longer edges are cut on the straight line.
LONGEST_EDGE_DEGREES = 0.03


def encoded_outlines(outlines: gpd.GeoSeries) -> dict[str, int | IntArray]:
    """
    Return polygons, with their parts and holes, ready for the page.

    Parameters
    ----------
    outlines : geopandas.GeoSeries
        Polygons or multipolygons, with any coordinate system set.

    Returns
    -------
    dict
        ``count`` of outlines; ``rings`` of each; ``corners`` of each ring, the closing one left
        out; ``starts``, the first corner of each ring as (east, north); ``steps``, every further
        corner as the step from the one before. Units are millionths of a degree.

    Notes
    -----
    Outer rings run counter-clockwise and holes clockwise, so that a non-zero fill leaves holes
    open and does not cancel where two blocks overlap.
    """
    shapes = shapely.orient_polygons(outlines.to_crs(4326).values)
    shapes = shapely.segmentize(shapes, LONGEST_EDGE_DEGREES)
    parts, part_owner = shapely.get_parts(shapes, return_index=True)
    rings, ring_part = shapely.get_rings(parts, return_index=True)
    ring_count = np.bincount(part_owner[ring_part], minlength=len(shapes))
    corners, corner_ring = shapely.get_coordinates(rings, return_index=True)
    units = np.round(corners / DEGREES_PER_UNIT).astype(np.int64)
    is_last = np.diff(corner_ring, append=len(rings)) > 0
    units, owner = units[~is_last], corner_ring[~is_last]
    is_first = np.diff(owner, prepend=-1) > 0
    steps = np.diff(units, axis=0, prepend=units[:1])
    return {
        "count": len(shapes),
        "rings": ring_count.astype("<u2"),
        "corners": np.bincount(owner, minlength=len(rings)).astype("<u4"),
        "starts": units[is_first].astype("<i4"),
        "steps": steps[~is_first].astype("<i2"),
    }


def inside_circles(outlines: gpd.GeoSeries) -> FloatArray:
    """
    Return the widest circle inside the largest part of each outline, where its label stands.

    Parameters
    ----------
    outlines : geopandas.GeoSeries
        In metres.

    Returns
    -------
    [m]
        Shape (outline, 3): east and north of the centre, and the radius.
    """
    return np.array([_inside_circle(outline) for outline in outlines.values]).reshape(-1, 3)


def encoded_points(points: FloatArray, crs: CRS) -> IntArray:
    """
    Return points as whole numbers for the page.

    Parameters
    ----------
    points : [m]
        Shape (point, 2): east and north.
    crs : pyproj.CRS
        Their coordinate system.

    Returns
    -------
    [1]
        Pairs (east, north) in millionths of a degree.
    """
    degrees = gpd.GeoSeries(shapely.points(points), crs=crs).to_crs(4326)
    units: IntArray = np.round(degrees.get_coordinates().values / DEGREES_PER_UNIT).astype("<i4")
    return units


def _inside_circle(outline: shapely.Geometry) -> list[float]:
    largest = max(shapely.get_parts(outline), key=shapely.area)
    tolerance_m = max(1.0, 0.02 * float(np.sqrt(largest.area)))
    centre_to_edge = shapely.maximum_inscribed_circle(largest, tolerance=tolerance_m)
    centre = shapely.get_coordinates(centre_to_edge)[0]
    return [*centre.tolist(), float(centre_to_edge.length)]
