"""Which gates, sheds, tracks, dams and drains are there? To draw, to route by, to stop cold air."""

import geopandas as gpd
import numpy as np
import pandas as pd
from pyproj import CRS

from geo.errors import Outcome, quoted
from geo.inputs.at import at_feature
from geo.inputs.faults import is_finite
from geo.inputs.reading import Reading
from geo.inputs.vectors import read_features
from geo.texts import phrase

# What may lie across the flow of cold air or of wind, and the column that says how high or deep.
AIR_KINDS = ("dam", "drain")
LINE_KINDS = {"dam": "height_m", "drain": "depth_m", "windbreak": "height_m"}
KINDS = ("gate", "shed", "water", "house", "hive", "track", "station", "logger", *LINE_KINDS)
# Our own choice: a higher wall or deeper ditch is a slip of the pen.
LEAST_HEIGHT_M, MOST_HEIGHT_M = 0.1, 50.0


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
        Columns kind, name, height (m, of a dam or windbreak, or depth of a drain), porosity (of a
        windbreak, 0 to 1), both NaN if not given, geometry.

    Raises
    ------
    InputError
        If the file cannot be used.
    """
    features = read_features(
        reading, required=("kind",), optional=("name", "height_m", "depth_m", "porosity")
    )
    kinds = features["kind"].str.lower()
    is_drawn = ~(features.geometry.isna() | features.geometry.is_empty)
    for number in features.index[~kinds.isin(KINDS)]:
        found = phrase("{kind} is not a kind of place", kind=quoted(features["kind"][number]))
        fix = phrase("Write {kinds}", kinds=", ".join(KINDS))
        at = at_feature(number, features["name"][number], "kind")
        reading.add(Outcome.HOLD, "E-PLACE-KIND", at, found=found, fix=fix)
    for number in features.index[kinds.isin(KINDS) & ~is_drawn]:
        at = at_feature(number, features["name"][number])
        reading.add(
            Outcome.HOLD,
            "E-OUTLINE-EMPTY",
            at,
            found=phrase("nothing is drawn"),
            fix=phrase("Draw the place"),
        )
    is_kept = kinds.isin(KINDS) & is_drawn
    is_placed = features.geometry.map(is_finite)
    for number in features.index[is_kept & ~is_placed]:
        at, fix = at_feature(number, features["name"][number]), phrase("Draw the place anew")
        reading.add(
            Outcome.HOLD, "E-OUTLINE-CORNER", at, found=phrase("a corner is no number"), fix=fix
        )
    is_kept &= is_placed
    height, is_sound = _line_heights(reading, features[is_kept], kinds[is_kept])
    is_kept &= is_sound.reindex(features.index, fill_value=False)
    porosity, is_sound = _porosities(reading, features[is_kept], kinds[is_kept])
    is_kept &= is_sound.reindex(features.index, fill_value=False)
    reading.used, reading.held = int(is_kept.sum()), int((~is_kept).sum())
    kept = features[is_kept].assign(kind=kinds[is_kept], height=height, porosity=porosity)
    columns = ["kind", "name", "height", "porosity", "geometry"]
    return kept[columns].reset_index(drop=True).to_crs(crs)


def _line_heights(
    reading: Reading, features: gpd.GeoDataFrame, kinds: pd.Series
) -> tuple[pd.Series, pd.Series]:
    """Return how high or deep each is, and whether it can be used; what is no line always can."""
    height = pd.Series(np.nan, index=features.index)
    is_sound = pd.Series(True, index=features.index)  # noqa: FBT003
    for number in features.index[kinds.isin(LINE_KINDS)]:
        column = LINE_KINDS[kinds[number]]
        written = features[column][number].strip()
        value = pd.to_numeric(written, errors="coerce") if written else np.nan
        at = at_feature(number, features["name"][number])
        if not features.geometry[number].geom_type.endswith("LineString"):
            found = phrase("a {kind} that is no line", kind=kinds[number])
            fix = phrase("Draw it as a line")
            reading.add(Outcome.HOLD, "E-PLACE-LINE", at, found=found, fix=fix)
            is_sound[number] = False
        elif written and not LEAST_HEIGHT_M <= value <= MOST_HEIGHT_M:
            found = phrase(
                "{value} is no height or depth of a {kind}",
                value=quoted(written),
                kind=kinds[number],
            )
            fix = phrase(
                "Write metres from {least:g} to {most:g}, or nothing",
                least=LEAST_HEIGHT_M,
                most=MOST_HEIGHT_M,
            )
            at = at_feature(number, features["name"][number], column)
            reading.add(Outcome.HOLD, "E-PLACE-HEIGHT", at, found=found, fix=fix)
            is_sound[number] = False
        height[number] = value
    return height, is_sound


def _porosities(
    reading: Reading, features: gpd.GeoDataFrame, kinds: pd.Series
) -> tuple[pd.Series, pd.Series]:
    """Return how open windbreaks are, and whether that can be used; what is none always can."""
    written = features["porosity"].str.strip().where(kinds == "windbreak", "")
    porosity = pd.to_numeric(written, errors="coerce")
    is_sound = (written == "") | porosity.between(0.0, 1.0)
    for number in features.index[~is_sound]:
        found = phrase(
            "{value} is no share of sky seen through a windbreak", value=quoted(written[number])
        )
        at = at_feature(number, features["name"][number], "porosity")
        fix = phrase("Write a number from 0 (closed) to 1 (open), or nothing")
        reading.add(Outcome.HOLD, "E-PLACE-POROSITY", at, found=found, fix=fix)
    return porosity, is_sound


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
    columns |= {"height": pd.Series(dtype=float), "porosity": pd.Series(dtype=float)}
    return gpd.GeoDataFrame(columns, geometry=[], crs=crs)
