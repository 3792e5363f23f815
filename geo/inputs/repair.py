"""Which outlines can be mended without changing what is meant? Slips and needless corners."""

import geopandas as gpd
import numpy as np
import shapely

from geo.errors import Outcome, quoted
from geo.inputs.at import At
from geo.inputs.reading import Reading
from geo.texts import phrase

# A crossing that changes the area by less, and leaves nearly all of it in one part, is a slip of
# the hand; anything larger may mean another shape (our choice).
LARGEST_CHANGE = 0.01
# Nobody walks or draws so many corners: they come from a scanner, and cost time without telling
# more; half a hand's breadth is below what a receiver in the field can tell (our choice).
MOST_CORNERS = 5000
TOLERANCE_M = 0.2


def mended(geometry: shapely.Geometry) -> shapely.Geometry | None:
    """
    Return an outline that crosses itself without the crossing.

    Parameters
    ----------
    geometry : shapely.Geometry
        A polygon, or several, with a boundary that is not sound.

    Returns
    -------
    shapely.Geometry or None
        Its largest part, or all of them if it was drawn in parts; None where mending would change
        the area by 1 % or more, so that nobody knows what was meant.
    """
    parts = [
        part
        for part in shapely.get_parts(shapely.make_valid(geometry))
        if part.geom_type in ("Polygon", "MultiPolygon")
    ]
    polygons = [part for whole in parts for part in shapely.get_parts(whole)]
    areas = np.array([polygon.area for polygon in polygons])
    if not areas.sum() > 0.0:
        return None
    count = shapely.get_num_geometries(geometry)
    kept = np.argsort(-areas)[:count]
    share = areas[kept].sum() / areas.sum()
    change = abs(areas[kept].sum() - abs(geometry.area)) / areas.sum()
    if share <= 1.0 - LARGEST_CHANGE or change >= LARGEST_CHANGE:
        return None
    whole: shapely.Geometry = (
        polygons[kept[0]] if count == 1 else shapely.union_all([polygons[part] for part in kept])
    )
    return whole


def parts_of(geometry: shapely.Geometry) -> list[shapely.Geometry]:
    """
    Return the areas that a crossed outline falls into.

    Parameters
    ----------
    geometry : shapely.Geometry
        A polygon, or several.

    Returns
    -------
    list of shapely.Geometry
        The largest first.
    """
    whole = shapely.make_valid(geometry)
    parts = [part for piece in shapely.get_parts(whole) for part in shapely.get_parts(piece)]
    return sorted(
        (part for part in parts if part.geom_type == "Polygon"), key=lambda part: -part.area
    )


def simplified(reading: Reading, outlines: gpd.GeoSeries) -> gpd.GeoSeries:
    """
    Return outlines without corners that tell nothing.

    Parameters
    ----------
    reading : Reading
        The file, for what was done.
    outlines : geopandas.GeoSeries
        In metres, by id.

    Returns
    -------
    geopandas.GeoSeries
        The same, but for those with more than 5000 corners: no edge of them moves by more than
        0.2 m.
    """
    counts = shapely.get_num_coordinates(outlines.array)
    is_dense = counts > MOST_CORNERS
    if not is_dense.any():
        return outlines
    lighter = outlines.copy()
    lighter[is_dense] = outlines[is_dense].simplify(TOLERANCE_M)
    left = shapely.get_num_coordinates(lighter.array)
    for place in np.flatnonzero(is_dense):
        change = 100.0 * abs(lighter.iloc[place].area / outlines.iloc[place].area - 1.0)
        found = phrase(
            "{corners} corners, of which {used} within {near:g} m of the others are used: the area "
            "changes by {change:.2g} %",
            corners=counts[place],
            used=left[place],
            near=TOLERANCE_M,
            change=change,
        )
        at = At(quoted(outlines.index[place]))
        reading.add(Outcome.FIX, "E-OUTLINE-DENSE", at, found=found, fix=phrase("Nothing"))
    return lighter
