"""The farm that goes with the made season."""

from datetime import date

import geopandas as gpd
import numpy as np
from pyproj import CRS
from shapely import box

from geo.season import Farm, Settings
from tests.laws.made_season import BLOCK_CELLS, BLOCK_COUNT, CELL, CORNERS


def made_farm(**settings: object) -> Farm:
    """Return five blocks with a neighbour, and settings as given."""
    crs = CRS.from_epsg(32613)
    outlines = [
        box(x * CELL, y * CELL, (x + BLOCK_CELLS[1]) * CELL, (y + BLOCK_CELLS[0]) * CELL)
        for x, y in CORNERS
    ]
    names = [f"B{number}" for number in range(1, BLOCK_COUNT + 1)]
    blocks = gpd.GeoDataFrame(
        {"name": names, "cultivar": "Keitt", "planted": np.nan, "area": 2.4, "note": ""},
        geometry=outlines[:BLOCK_COUNT],
        index=names,
        crs=crs,
    )
    neighbours = gpd.GeoDataFrame(
        {"name": ["next door"], "status": ["suspected"]},
        geometry=outlines[BLOCK_COUNT:],
        index=["N1"],
        crs=crs,
    )
    return Farm(
        name="Made farm",
        is_made=True,
        zone="UTC",
        today=date(2026, 2, 6),
        crs=crs,
        blocks=blocks,
        neighbours=neighbours,
        places=gpd.GeoDataFrame({"kind": [], "name": []}, geometry=[], crs=crs),
        station_elevation=415.0,
        settings=Settings(**settings),
    )
