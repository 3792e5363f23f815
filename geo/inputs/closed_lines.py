"""Which walked lines end where they began? They are outlines, if the user says so."""

import geopandas as gpd
import shapely
from pyproj import Transformer

from geo.errors import Outcome
from geo.inputs.at import at_feature
from geo.inputs.faults import CLOSED_WITHIN_M, gap_of
from geo.inputs.reading import Reading
from geo.inputs.vectors import DEGREES
from geo.texts import phrase

_LEAST_CORNERS = 4  # a triangle and its first corner again


def with_lines_closed(reading: Reading, features: gpd.GeoDataFrame, key: str) -> gpd.GeoDataFrame:
    """
    Return features with lines turned into areas, where their ends nearly meet.

    Parameters
    ----------
    reading : Reading
        The file of outlines; each line that was closed is said.
    features : geopandas.GeoDataFrame
        Index their number in the file.
    key : str
        Column of ids.

    Returns
    -------
    geopandas.GeoDataFrame
        Lines of which the ends lie further apart, and points, are left as they are.
    """
    to_degrees = Transformer.from_crs(features.crs, DEGREES, always_xy=True)
    shapes = list(features.geometry)
    for place, (number, shape) in enumerate(zip(features.index, features.geometry, strict=True)):
        if shape is None or shapely.get_num_coordinates(shape) < _LEAST_CORNERS:
            continue
        gap = gap_of(shape, to_degrees)
        if gap > CLOSED_WITHIN_M:
            continue
        shapes[place] = shapely.Polygon(shapely.get_coordinates(shape))
        found = phrase("a line whose ends lie {gap:.1f} m apart is taken as an outline", gap=gap)
        fix = phrase("Check it on the map")
        at = at_feature(number, features[key][number])
        reading.add(Outcome.FIX, "E-OUTLINE-CLOSED", at, found=found, fix=fix)
    return features.set_geometry(gpd.GeoSeries(shapes, index=features.index, crs=features.crs))
