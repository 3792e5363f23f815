"""Which gates, sheds, tracks and filling points are there? Things to draw and to route by."""

import geopandas as gpd
import pandas as pd
from pyproj import CRS

from geo.errors import Outcome, quoted
from geo.inputs.faults import is_finite
from geo.inputs.reading import Reading
from geo.inputs.vectors import label, read_features

KINDS = ("gate", "shed", "water", "track", "station", "logger")


def read_places(reading: Reading, *, crs: CRS) -> gpd.GeoDataFrame:
    """
    Return the places to draw and to route by.

    Parameters
    ----------
    reading : Reading
        The file.
    crs : pyproj.CRS
        The farm's system.

    Returns
    -------
    geopandas.GeoDataFrame
        Columns kind, name, geometry.

    Raises
    ------
    InputError
        If the file cannot be used.
    """
    features = read_features(reading, required=("kind",), optional=("name",))
    kinds = features["kind"].str.lower()
    is_drawn = ~(features.geometry.isna() | features.geometry.is_empty)
    for number in features.index[~kinds.isin(KINDS)]:
        found = f"{quoted(features['kind'][number])} is not a kind of place"
        at = f"{label(number, features['name'][number])} column kind"
        reading.add(Outcome.HOLD, "E-PLACE-KIND", at, found=found, fix=f"Write {', '.join(KINDS)}")
    for number in features.index[kinds.isin(KINDS) & ~is_drawn]:
        at = label(number, features["name"][number])
        reading.add(
            Outcome.HOLD, "E-OUTLINE-EMPTY", at, found="nothing is drawn", fix="Draw the place"
        )
    is_kept = kinds.isin(KINDS) & is_drawn
    is_placed = features.geometry.map(is_finite)
    for number in features.index[is_kept & ~is_placed]:
        at, fix = label(number, features["name"][number]), "Draw the place anew"
        reading.add(Outcome.HOLD, "E-OUTLINE-CORNER", at, found="a corner is no number", fix=fix)
    is_kept &= is_placed
    reading.used, reading.held = int(is_kept.sum()), int((~is_kept).sum())
    kept = features[is_kept].assign(kind=kinds[is_kept]).reset_index(drop=True)
    return kept[["kind", "name", "geometry"]].to_crs(crs)


def no_places(crs: CRS) -> gpd.GeoDataFrame:
    """
    Return the places of a farm that named none.

    Parameters
    ----------
    crs : pyproj.CRS
        The farm's system.

    Returns
    -------
    geopandas.GeoDataFrame
        With the columns of ``read_places`` and no row.
    """
    columns = {"kind": pd.Series(dtype=object), "name": pd.Series(dtype=object)}
    return gpd.GeoDataFrame(columns, geometry=[], crs=crs)
