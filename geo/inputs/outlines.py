"""Which blocks and neighbours are there? Where they lie and how large they are."""

from collections.abc import Collection

import geopandas as gpd
import pandas as pd
from pyproj import CRS

from geo.errors import Outcome, quoted
from geo.inputs.at import WHOLE_FILE, at_column
from geo.inputs.cultivars import cultivar_shares
from geo.inputs.names import plain
from geo.inputs.outline_rows import ROWS, row_columns
from geo.inputs.overlaps import note_overlaps, note_written_areas
from geo.inputs.reading import Reading
from geo.inputs.repair import simplified
from geo.inputs.sound import geodesic_area, sound_polygons
from geo.inputs.vectors import read_features
from geo.texts import phrase

STATUSES = ("known", "suspected", "unknown")
OLDEST_PLANTING, LATEST_PLANTING = 1850, 2200  # beyond these it is a slip of the pen (our choice)


def read_blocks(
    reading: Reading, *, cultivars: Collection[str]
) -> tuple[gpd.GeoDataFrame, tuple[str, ...]]:
    """
    Return the farm's blocks in metres, and the ids of those set aside.

    Parameters
    ----------
    reading : Reading
        The file of outlines.
    cultivars : collection of str
        Those we have a rating for.

    Returns
    -------
    geopandas.GeoDataFrame
        Index ``block_id``; columns name, cultivar, planted, area, shares (as text), had_mildew,
        note (as written), those of `ROWS` (NaN where not written), geometry, in the UTM zone of
        the farm.
    tuple of str
        Blocks that cannot be used, so that rows about them are not called unknown.

    Raises
    ------
    InputError
        If no block can be used or two have the same id.
    """
    optional = ("name", "planted", "mildew_last_season", "note", "area_ha", *ROWS)
    drawn = read_features(reading, required=("block_id", "cultivar"), optional=optional)
    features = sound_polygons(reading, drawn, "block_id")
    if features.empty:
        found, fix = phrase("no block can be used"), phrase("Mend at least one outline")
        reading.add(Outcome.STOP, "E-NO-BLOCK", WHOLE_FILE, found=found, fix=fix)
    reading.check()
    shares = cultivar_shares(reading, features["cultivar"], known=cultivars)
    area = geodesic_area(features)
    held = tuple(name for name in drawn["block_id"] if name and name not in features.index)
    blocks = features.to_crs(features.estimate_utm_crs())
    outlines = simplified(reading, blocks.geometry)
    note_overlaps(reading, outlines)
    note_written_areas(reading, blocks["area_ha"], area)
    usable = gpd.GeoDataFrame(
        {
            "name": blocks["name"].where(blocks["name"] != "", blocks.index),
            "cultivar": blocks["cultivar"],
            "planted": _planted(reading, blocks["planted"]),
            "area": area,
            "shares": shares,
            "had_mildew": _had_mildew(reading, blocks["mildew_last_season"]),
            "note": blocks["note"],
            **row_columns(reading, blocks),
        },
        geometry=outlines,
    )
    return usable, held


def read_neighbours(reading: Reading, *, crs: CRS, taken: Collection[str]) -> gpd.GeoDataFrame:
    """
    Return the orchards next door.

    Parameters
    ----------
    reading : Reading
        The file of outlines.
    crs : pyproj.CRS
        The farm's system.
    taken : collection of str
        Ids of the blocks.

    Returns
    -------
    geopandas.GeoDataFrame
        Index ``neighbour_id``; columns name, status, geometry.

    Raises
    ------
    InputError
        If an id is given twice or is a block's.
    """
    features = read_features(reading, required=("neighbour_id",), optional=("name", "status"))
    features = sound_polygons(reading, features, "neighbour_id")
    plain_taken = {plain(block) for block in taken}
    for neighbour in features.index[features.index.map(plain).isin(plain_taken)]:
        found = phrase("{neighbour} is also a block's id", neighbour=quoted(neighbour))
        fix = phrase("Give the neighbour an id of its own")
        reading.add(Outcome.STOP, "E-ID-TWICE", WHOLE_FILE, found=found, fix=fix)
    reading.check()
    status = features["status"].str.lower().replace("", "unknown")
    for neighbour in features.index[~status.isin(STATUSES)]:
        found = phrase(
            "{status} is not a status, taken as unknown",
            status=quoted(features["status"][neighbour]),
        )
        fix = phrase("Write known, suspected or unknown")
        at = at_column("status", of=[neighbour])
        reading.add(Outcome.NOTE, "E-STATUS", at, found=found, fix=fix)
    names = features["name"].where(features["name"] != "", features.index)
    status = status.where(status.isin(STATUSES), "unknown")
    neighbours = gpd.GeoDataFrame({"name": names, "status": status}, geometry=features.geometry)
    return neighbours.to_crs(crs)


def no_neighbours(crs: CRS) -> gpd.GeoDataFrame:
    """
    Return the orchards next door of a farm that named none.

    Parameters
    ----------
    crs : pyproj.CRS
        The farm's system.

    Returns
    -------
    geopandas.GeoDataFrame
        With the columns of ``read_neighbours`` and no row.
    """
    index = pd.Index([], dtype=object, name="neighbour_id")
    columns = {"name": pd.Series(dtype=object), "status": pd.Series(dtype=object)}
    return gpd.GeoDataFrame(columns, geometry=[], crs=crs, index=index)


def _planted(reading: Reading, texts: pd.Series) -> pd.Series:
    years = pd.to_numeric(texts.replace("", "nan"), errors="coerce").astype(float)
    years = years.where(years.between(OLDEST_PLANTING, LATEST_PLANTING))
    for block in years.index[years.isna() & (texts != "")]:
        found = phrase(
            "{year} is not a planting year: it is set aside, and the age is taken as unknown",
            year=quoted(texts[block]),
        )
        fix = phrase("Write the year in four digits")
        at = at_column("planted", of=[block])
        reading.add(Outcome.HOLD, "E-PLANTED", at, found=found, fix=fix)
    return years


def _had_mildew(reading: Reading, texts: pd.Series) -> pd.Series:
    words = {"": 0.0, "0": 0.0, "1": 1.0, "false": 0.0, "true": 1.0, "no": 0.0, "yes": 1.0}
    values = texts.str.lower().map(words)
    for block in values.index[values.isna()]:
        found = phrase(
            "{value} is neither 0 nor 1, taken as unknown (0)", value=quoted(texts[block])
        )
        at, fix = at_column("mildew_last_season", of=[block]), phrase("Write 0 or 1")
        reading.add(Outcome.NOTE, "E-MILDEW", at, found=found, fix=fix)
    return values.fillna(0.0).astype(float)
