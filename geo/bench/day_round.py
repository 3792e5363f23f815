"""How long does the round of a day take for many blocks, and how far from the best may it be?"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, time
from time import perf_counter

import geopandas as gpd
import numpy as np
import pandas as pd
from shapely import LineString, Point

from geo.arrays import BoolArray, FloatArray
from geo.bench.gates import BLOCKS, SEED, SPACING_M, made_farm, made_season
from geo.rounds.order import SprayEntry, SprayOrder
from geo.rounds.plan_round import plan_day_round
from geo.season import Farm
from geo.season.sprayers import RoundSettings, Sprayer
from geo.windows import spray_windows

COLUMNS, ROWS = 20, BLOCKS // 20
LITRES_PER_HECTARE = (1000.0, 300.0)
HOURS = 10.0


def lines() -> Iterator[str]:
    """
    Plan rounds of 300 blocks with three sprayers over 72 hours of forecast.

    Yields
    ------
    str
        What was found, a line each.
    """
    chance = np.random.default_rng(SEED)
    season = made_season(chance)
    worth = chance.lognormal(0.0, 1.0, BLOCKS)
    for volume in LITRES_PER_HECTARE:
        farm = _with_round(volume)
        season = season.assign_coords(block=list(farm.blocks.index))
        started = perf_counter()
        windows = spray_windows(farm, season)
        asked = perf_counter()
        windows = replace(windows, is_closed=_closed(chance, len(windows.start)))
        planned = plan_day_round(farm, season, _order(farm, worth), windows)
        seconds = perf_counter() - asked
        stops = sum(len(day.stops) for day in planned.sprayers)
        gap = 1.0 - planned.avoided / planned.bound
        yield (
            f"{len(windows.gates)} rules: {asked - started:.2f} s; round of {BLOCKS} blocks, "
            f"{len(planned.sprayers)} sprayers, {len(windows.start)} h, {volume:g} L/ha: "
            f"{seconds:.1f} s here, {stops} stops, within {gap:.1%} of the best"
        )


def _closed(chance: np.random.Generator, hours: int) -> BoolArray:
    """Return hours closed but for a morning and an evening, which begin and end block by block."""
    clock = np.arange(hours) % 24
    early, late = chance.integers(5, 8, (BLOCKS, 1)), chance.integers(15, 18, (BLOCKS, 1))
    is_open = (clock >= early) & (clock < early + 5) | (clock >= late) & (clock < late + 4)
    return ~is_open


def _with_round(volume: float) -> Farm:
    """Return the farm of blocks with tracks between them, water, a shed and three sprayers."""
    farm = made_farm()
    length, width = COLUMNS * SPACING_M, ROWS * SPACING_M
    east = [LineString([(-25, y), (length, y)]) for y in np.arange(ROWS) * SPACING_M - 25.0]
    north = [
        LineString([(x, -25), (x, width)]) for x in np.arange(0, COLUMNS, 5) * SPACING_M - 25.0
    ]
    drawn = [*east, *north]
    tracks = gpd.GeoDataFrame(
        {"kind": ["track"] * len(drawn), "name": [""] * len(drawn)}, geometry=drawn, crs=farm.crs
    )
    shed = gpd.GeoDataFrame(
        {"kind": ["shed"], "name": ["Shed"]}, geometry=[Point(length / 2, -25)], crs=farm.crs
    )
    sprayer = Sprayer("", "airblast", agitated=True, tank_litres=2000.0)
    settings = replace(
        farm.settings,
        sprayers=tuple(replace(sprayer, name=f"Sprayer {letter}") for letter in "ABC"),
        day_round=RoundSettings(
            start=time(0), hours=HOURS, row_spacing=8.0, litres_per_hectare=volume
        ),
    )
    places = pd.concat([farm.places, tracks, shed], ignore_index=True)
    return replace(farm, places=places, settings=settings, crews=None)


def _order(farm: Farm, worth: FloatArray) -> SprayOrder:
    area = farm.blocks.geometry.area.to_numpy() / 10_000.0
    entries = tuple(
        SprayEntry(
            rank=rank,
            block=str(farm.blocks.index[i]),
            hazard=float(worth[i]),
            ratio=1.0,
            low=1.0,
            high=1.0,
            area=float(area[i]),
            sprayer_hours=None,
            reason="",
            avoidable=float(worth[i] * area[i]),
        )
        for rank, i in enumerate(np.argsort(-worth), start=1)
    )
    return SprayOrder(
        today=farm.today,
        first_day=date(2026, 1, 1),
        horizon_days=farm.settings.horizon_days,
        material=farm.settings.material,
        reference_block=entries[0].block,
        entries=entries,
        cannot_now=(),
    )
