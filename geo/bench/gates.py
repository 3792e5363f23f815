"""How long do all spray rules take for many blocks, and how much faster than block by block?"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from time import perf_counter

import geopandas as gpd
import numpy as np
import xarray as xr
from pyproj import CRS
from shapely import Point, box

from geo.bench.pairs import ratio
from geo.season import Farm, Settings
from geo.season.crews import Crews
from geo.season.label import Label
from geo.windows import spray_windows

SEED = 20260218
BLOCKS, MEASURED_DAYS, FORECAST_DAYS, SPRAYS = 300, 30, 3, 3000
MATERIALS = ("sulfur", "azoxystrobin", "copper")
SIDE_M, SPACING_M = 150.0, 200.0


def lines() -> Iterator[str]:
    """
    Ask every rule of 300 blocks and 72 hours, all at once and block by block.

    Yields
    ------
    str
        What was found, a line each.
    """
    farm, season = made_farm(), made_season(np.random.default_rng(SEED))

    def at_once() -> object:
        return spray_windows(farm, season)

    def one_by_one() -> object:
        return [spray_windows(*_only(farm, season, place)) for place in range(0, BLOCKS, 10)]

    started = perf_counter()
    windows = spray_windows(farm, season)
    seconds = perf_counter() - started
    yield (
        f"{len(windows.gates)} rules x {BLOCKS} blocks x {len(windows.start)} hours: "
        f"{seconds:.2f} s here"
    )
    found = ratio(at_once, one_by_one, pairs=3)
    yield f"    all blocks at once : every tenth block alone = {found}"


def _only(farm: Farm, season: xr.Dataset, place: int) -> tuple[Farm, xr.Dataset]:
    is_its = season["spray_block"].values == place
    alone = season.isel(block=slice(place, place + 1), spray=is_its)
    alone["spray_block"] = ("spray", np.zeros(int(is_its.sum()), dtype=np.int64))
    return replace(farm, blocks=farm.blocks.iloc[place : place + 1], crews=None), alone


def made_farm() -> Farm:
    """
    Return a farm of square blocks, with labels and crews.

    Returns
    -------
    Farm
        Houses, hives and water among its blocks.
    """
    crs = CRS.from_epsg(32613)
    corner = [(SPACING_M * (i % 20), SPACING_M * (i // 20)) for i in range(BLOCKS)]
    names = [f"B{number:03d}" for number in range(BLOCKS)]
    blocks = gpd.GeoDataFrame(
        {"name": names},
        geometry=[box(x, y, x + SIDE_M, y + SIDE_M) for x, y in corner],
        index=names,
        crs=crs,
    )
    spots = [Point(x, y) for x in (175.0, 1975.0) for y in (175.0, 975.0)]
    kinds = ["water", "hive", "house", "water"]
    places = gpd.GeoDataFrame({"kind": kinds, "name": kinds}, geometry=spots, crs=crs)
    first = float(MEASURED_DAYS * 24)
    return Farm(
        name="bench",
        is_made=True,
        zone="UTC",
        today=date(2026, 1, 1) + timedelta(days=MEASURED_DAYS),
        crs=crs,
        blocks=blocks,
        neighbours=blocks.iloc[:0],
        places=places,
        station_elevation=100.0,
        settings=Settings(material="azoxystrobin", mixed_with="sulfur", agitated=True),
        labels=tuple(Label(one, (), 24.0, 3.0, 7.0, 3.0) for one in ("azoxystrobin", "sulfur")),
        crews=Crews(
            block=np.arange(BLOCKS),
            start=np.full(BLOCKS, first + 30.0),
            end=np.full(BLOCKS, first + 36.0),
            day=np.full(BLOCKS, MEASURED_DAYS + 1),
            is_picking=np.arange(BLOCKS) % 2 == 0,
        ),
    )


def made_season(chance: np.random.Generator) -> xr.Dataset:
    """
    Return measured and forecast weather of that farm, and its diary.

    Parameters
    ----------
    chance : numpy.random.Generator
        That it is drawn by.

    Returns
    -------
    xarray.Dataset
        What the spray rules read.
    """
    days = MEASURED_DAYS + FORECAST_DAYS
    hour = np.arange(days * 24)
    swing = np.cos(2.0 * np.pi * (hour - 5.0) / 24.0)
    at_block = chance.normal(0.0, 1.0, (BLOCKS, 1))
    return xr.Dataset(
        {
            "hour_day": ("hour", hour // 24),
            "is_forecast": ("hour", (hour >= MEASURED_DAYS * 24).astype(np.int64)),
            "spot_of_block": (("block", "corner"), np.arange(BLOCKS)[:, None]),
            "spot_weight": (("block", "corner"), np.ones((BLOCKS, 1))),
            "air_temperature_at_spot": (("spot", "hour"), 21.0 - 7.0 * swing + at_block),
            "relative_humidity_at_spot": (("spot", "hour"), 68.0 + 22.0 * swing + at_block),
            "elevation": ("block", np.full(BLOCKS, 120.0)),
            "wind_speed": ("hour", np.maximum(1.5 - swing, 0.0)),
            "wind_from_direction": ("hour", chance.uniform(0.0, 360.0, hour.size)),
            "wind_share": (("block", "sector"), chance.uniform(0.6, 1.0, (BLOCKS, 16))),
            "precipitation": ("hour", np.zeros(hour.size)),
            "cloud_cover": ("hour", np.full(hour.size, 0.3)),
            "solar_elevation": ("hour", -60.0 * np.cos(2.0 * np.pi * hour / 24.0)),
            "day_maximum_temperature": (("block", "day"), np.full((BLOCKS, days), 27.0)),
            "stage_progress": (("block", "day"), np.full((BLOCKS, days), 20.0)),
            "spray_block": ("spray", chance.integers(0, BLOCKS, SPRAYS)),
            "spray_hour": ("spray", chance.uniform(-5000.0, MEASURED_DAYS * 24.0, SPRAYS)),
            "spray_material": ("spray", chance.choice(MATERIALS, SPRAYS)),
        },
        coords={
            "day": np.datetime64("2026-01-01", "ns") + np.arange(days) * np.timedelta64(1, "D"),
            "hour": np.datetime64("2026-01-01", "ns") + hour * np.timedelta64(1, "h"),
        },
    )
