"""A small made farm with every oddity that the page must bear."""

from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta

import geopandas as gpd
import numpy as np
import pandas as pd
import shapely
import xarray as xr
from pyproj import CRS
from shapely import affinity
from shapely.geometry import LineString, MultiPolygon, Point, Polygon, box

from geo.exports.page_risk import Risk
from geo.ranking.factors import FACTORS, factor_table
from geo.rounds.order import CannotNow, NotWorth, SprayEntry, SprayOrder
from geo.scouting.order import ScoutingEntry, ScoutingOrder
from geo.season.farm import Farm
from geo.windows.gate import Gate, Rule
from geo.windows.open_hours import NotAsked, Windows

METRES = CRS.from_epsg(32755)  # southern hemisphere on purpose: signs show
WEST, SOUTH = 331_000.0, 8_107_000.0
TODAY = date(2024, 8, 14)
DAYS_BEFORE, DAYS_AFTER = 14, 3
HORIZON = 3
HOSTILE = "<img src=x onerror=alert(1)>"
HOSTILE_TEMPLATE = "{{ 7 * 7 }}</script><b>"
NAMES = {"B03": HOSTILE, "B05": HOSTILE_TEMPLATE, "B02": "River bend", "B08": "Top of the hill"}
CULTIVARS = ("Keitt", "Kent", "Kensington Pride", "Nam Dok Mai", "unknown")
UNKNOWN, REFERENCE, CLOSED, OFF_THE_GRID = "B11", "B06", "B04", "B09"
APART = "B12"


@dataclass(frozen=True)
class Made:
    """What the page is made from."""

    farm: Farm
    season: xr.Dataset
    spray: SprayOrder
    scouting: ScoutingOrder
    windows: Windows

    def parts(self, **changes: object) -> dict[str, object]:
        """Return the keyword arguments of the page, some of its parts changed."""
        made = replace(self, **changes)
        risk = Risk(made.season, made.spray, made.scouting)
        return {"farm": made.farm, "risks": [risk], "windows": made.windows}


def made(*, count: int = 12) -> Made:
    farm = made_farm(count)
    season = made_season(farm)
    return Made(
        farm, season, made_spray(farm, season), made_scouting(farm, season), made_windows(farm)
    )


def made_windows(farm: Farm) -> Windows:
    """Return thirty hours: heat closes one block, wind the first four hours, bees warn of one."""
    count, hours = len(farm.blocks), 30
    start = datetime.combine(TODAY, time(6))
    wind, bees = np.zeros((1, hours), dtype=bool), np.zeros((1, hours), dtype=bool)
    wind[0, :4], bees[0, 5] = True, True
    is_hot = farm.blocks.index.to_numpy() == CLOSED
    heat = np.repeat(is_hot[:, None], hours, axis=1)
    gates = (
        Gate(Rule("sulfur-heat", "Sulfur and heat", 32.0, "degC", "said"), heat, 34.1 * heat),
        Gate(Rule("wind-low", "Too little wind", 0.83, "m s-1", "said"), wind, 0.4 * wind),
        Gate(
            Rule("bees", "Bees may forage", 13.0, "degC", "said", is_caution=True),
            bees,
            20.0 * bees,
        ),
    )
    return Windows(
        start=tuple(start + timedelta(hours=hour) for hour in range(hours)),
        hour=np.arange(hours, dtype=float),
        gates=gates,
        is_closed=heat | wind,
        not_asked=(NotAsked("re-entry", "Re-entry: not asked."),),
        heat=None,
        hot_days=np.zeros(count, dtype=np.int64),
        month_days=14,
    )


def of_leaves(made: Made) -> Risk:
    """Return the same farm's mildew on leaves: everywhere half as much, and no order to spray."""
    season = made.season.assign_coords(disease="leaf_mildew")
    season = season.assign(hazard=season.hazard / 2, hazard_ahead=season.hazard_ahead / 2)
    first = replace(made.spray.entries[-1], rank=1, reason="Only this one.")
    return Risk(season, replace(made.spray, entries=(first,), cannot_now=()), made.scouting)


def made_farm(count: int) -> Farm:
    ids = [f"B{number:02d}" for number in range(1, count + 1)]
    chance = np.random.default_rng(11)
    blocks = gpd.GeoDataFrame(
        {
            "name": [NAMES.get(block, block) for block in ids],
            "cultivar": [CULTIVARS[place % len(CULTIVARS)] for place in range(count)],
            "planted": [2004.0 + place for place in range(count)],
            "note": ["", "<b>Late urea</b> in May", *[""] * (count - 2)],
        },
        geometry=[_outline(place, count, chance) for place in range(count)],
        crs=METRES,
        index=pd.Index(ids, name="block_id"),
    )
    blocks["area"] = blocks.area / 10_000
    east = WEST + 230 * _side(count)
    neighbours = gpd.GeoDataFrame(
        {"name": ["Home paddock", "Old trees <b>"], "status": ["known", "unknown"]},
        geometry=[
            box(east + 60, SOUTH + 100, east + 260, SOUTH + 330),
            affinity.rotate(box(WEST - 330, SOUTH + 250, WEST - 90, SOUTH + 420), 12),
        ],
        crs=METRES,
        index=pd.Index(["N1", "N2"], name="neighbour_id"),
    )
    return Farm(
        name="Two Creeks & Daughters",
        is_made=True,
        zone="Australia/Brisbane",
        today=TODAY,
        crs=METRES,
        blocks=blocks,
        neighbours=neighbours,
        places=_places(east),
        station_elevation=412.0,
    )


def _side(count: int) -> int:
    return int(np.ceil(np.sqrt(count)))


def _outline(place: int, count: int, chance: np.random.Generator) -> Polygon | MultiPolygon:
    row, column = divmod(place, _side(count))
    west, south = WEST + 230 * column + 20 * (row % 2), SOUTH + 190 * row
    wide, high = chance.uniform(150, 205), chance.uniform(110, 160)
    corners = [(0, 0), (wide * 0.6, -8), (wide, 6), (wide + 9, high * 0.7), (wide, high)]
    shape = Polygon([(west + x, south + y) for x, y in [*corners, (14, high + 5)]])
    shape = affinity.rotate(shape, chance.uniform(-7, 7))
    if place == 6:
        return MultiPolygon(
            [
                box(west, south, west + 80, south + 120),
                shape.difference(box(west - 20, south - 20, west + 105, south + 300)),
            ]
        )
    if place == 9:
        return shape.difference(Point(west + 85, south + 60).buffer(28))
    return shape


def _places(east: float) -> gpd.GeoDataFrame:
    shapes = [
        ("gate", "Main gate", Point(east + 10, SOUTH - 50)),
        ("shed", "Shed", Point(WEST - 40, SOUTH + 170)),
        ("water", None, Point(WEST - 60, SOUTH + 560)),
        ("station", "Station", Point(WEST + 215, SOUTH + 365)),
        (
            "track",
            "Creek track",
            LineString([(WEST - 80, SOUTH - 45), (east, SOUTH - 45), (east + 20, SOUTH + 520)]),
        ),
        ("windbreak", None, LineString([(WEST - 90, SOUTH), (WEST - 90, SOUTH + 500)])),
        ("dam", "Creek dam", LineString([(WEST, SOUTH - 70), (WEST + 260, SOUTH - 70)])),
        ("drain", None, LineString([(WEST + 300, SOUTH - 70), (WEST + 420, SOUTH - 70)])),
        ("hives", "Hives", Point(east + 20, SOUTH + 600)),
    ]
    kinds, names, geometry = zip(*shapes, strict=True)
    return gpd.GeoDataFrame({"kind": kinds, "name": names}, geometry=list(geometry), crs=METRES)


def looks_ago(count: int) -> list[float]:
    """Return the days since each block was last counted, one of them never."""
    ages = [3.0, np.nan, 12.0, 7.0, 5.0, 9.0, 4.0, 21.0, 2.0, 6.0, 8.0, 10.0]
    return [ages[place % len(ages)] for place in range(count)]


def made_season(farm: Farm) -> xr.Dataset:
    chance = np.random.default_rng(5)
    ids = list(farm.blocks.index)
    count, days = len(ids), DAYS_BEFORE + 1 + DAYS_AFTER
    day = np.arange(days)
    ground = np.linspace(0, 1, count)
    favourability = np.clip(
        0.45
        + 0.3 * np.sin(day / 2.6)[None, :]
        + 0.25 * (0.5 - ground)[:, None]
        + chance.normal(0, 0.05, (count, days)),
        0.02,
        1,
    )
    site = np.clip(favourability * (1 - 0.3 * (1 - ground))[:, None], 0.01, 1)
    cultivar = np.linspace(0.3, 1.0, count)[chance.permutation(count)]
    age = np.ones(count)
    stage = np.clip(chance.uniform(0.2, 0.9, (count, 1)) + 0.02 * day, 0, 1)
    home = 1 + chance.gamma(1.2, 1.1, (count, 1)) * np.linspace(0.5, 1.3, days)
    incoming = 0.2 * home[::-1]
    last_spray = chance.integers(-8, 13, (count, 1))
    since = day - last_spray
    protection = np.where(since >= 0, 0.9 * 0.5 ** (since / 8), 0.0)
    hazard = (
        favourability * stage * (home + incoming) * (1 - protection) * (cultivar * age)[:, None]
    )
    ahead = slice(DAYS_BEFORE, DAYS_BEFORE + HORIZON)
    factors = factor_table(
        site_favourability=site[:, ahead],
        favourability=favourability[:, ahead],
        constant_susceptibility=(cultivar, age),
        stage=stage[:, ahead],
        home=home[:, ahead],
        incoming=incoming[:, ahead],
        protection=protection[:, ahead],
    )
    coolest = 9 + 5 * ground[:, None] + 2 * np.cos(day / 2)
    unknown = [ids.index(UNKNOWN)] if UNKNOWN in ids else []
    for values in (hazard, factors, coolest, favourability, stage):
        values[unknown] = np.nan
    sources = [*ids, *farm.neighbours.index]
    share = chance.gamma(0.4, 1.0, (count, len(sources)))
    share[np.arange(count), np.arange(count)] *= 2
    share /= share.sum(axis=1, keepdims=True) + 2.0
    share[unknown] = np.nan
    stage_age = chance.integers(0, 9, count).astype(float)
    stage_age[-1] = np.nan
    by_day = ("block", "day")
    season = xr.Dataset(
        {
            "hazard": (by_day, hazard),
            "favourability": (by_day, favourability),
            "day_minimum_temperature": (by_day, coolest),
            "day_maximum_temperature": (by_day, coolest + 15),
            "humid_hours": (by_day, np.clip(np.round(12 * site), 0, 24)),
            "stage_susceptibility": (by_day, stage),
            "protection_left": (by_day, protection),
            "home_inoculum": (by_day, home),
            "cultivar_share_text": (
                ("block",),
                np.array([f"{name}:1" for name in farm.blocks["cultivar"]]),
            ),
            "spray_block": (("spray",), np.array([0])),
            "spray_hour": (("spray",), np.array([-40.0])),
            "spray_material": (("spray",), np.array(["sulfur"])),
            "spray_left": (("spray",), np.array([0.48])),
            "visit_block": (("visit",), np.array([1, 1])),
            "visit_day": (("visit",), np.array([4, 11])),
            "visit_infected": (("visit",), np.array([0.0, 18.0])),
            "visit_inspected": (("visit",), np.array([50.0, 60.0])),
            "rain_to_reapply": (("block",), np.full(count, 16.8)),
            "dry_days_to_reapply": (("block",), np.full(count, 9.4)),
            "portion_block": (("portion",), np.array([1, 1, 1, 2])),
            "portion_day": (("portion",), np.array([3, 9, 9, 4])),
            "portion_stage": (("portion",), np.array(["513", "514", "515", "610"])),
            "portion_share": (("portion",), np.array([1.0, 0.7, 0.3, 1.0])),
            "incoming_inoculum": (by_day, incoming),
            "rain": (("day",), np.where(day % 6 == 4, 3.4 + day, 0.0)),
            "factors": (("block", "factor"), factors),
            "already_in": (("block",), 0.5 + ground),
            "to_come": (("block",), 1.5 - ground),
            "hazard_ahead": (("block",), factors.prod(axis=1)),
            "pool_depth": (("block",), 14 * (1 - ground)),
            "elevation": (("block",), 400 + 60 * ground),
            "terrain_covered": (("block",), np.where(np.array(ids) == OFF_THE_GRID, 0.0, 1.0)),
            "terrain_doubt": (("block",), np.where(np.array(ids) == OFF_THE_GRID, 0.5, 0.0)),
            "block_cells": (("block",), np.full(count, 40.0)),
            "vertical_error": 0.0,
            "area": (("block",), farm.blocks["area"].to_numpy()),
            "cultivar_susceptibility": (("block",), cultivar),
            "days_since_stage_seen": (("block",), stage_age),
            "days_since_look": (("block",), np.array(looks_ago(count), dtype=float)),
            "is_filled": (("hour",), np.zeros(days * 24, dtype=np.int64)),
            "arrival_block": (("arrival",), np.repeat(np.arange(count), len(sources))),
            "arrival_source": (("arrival",), np.tile(np.arange(len(sources)), count)),
            "arrival_share": (("arrival",), share.ravel()),
            "arrival_rest": (("block",), np.where(np.isnan(share[:, 0]), np.nan, 0.0)),
            "arrival_home": (("block",), share[np.arange(count), np.arange(count)]),
            "arrival_background": (("block",), 1.0 - share.sum(axis=1)),
            **_by_side(share),
        },
        coords={
            "block": ids,
            "source": sources,
            "day": np.datetime64(TODAY - timedelta(DAYS_BEFORE)) + day.astype("timedelta64[D]"),
            "factor": [factor.name for factor in FACTORS],
        },
    )
    return _with_ground(_with_hours(season), farm)


def _by_side(share: np.ndarray) -> dict[str, object]:
    """Return most from the north-east, from within 300 m."""
    own = np.arange(len(share))
    incoming = (share.sum(axis=1) - share[own, own])[:, None]
    return {
        "arrival_from_band": (("block", "band"), incoming * [0.2, 0.5, 0.2, 0.1]),
        "arrival_from_compass": (
            ("block", "compass"),
            incoming * [0.1, 0.6, 0.1, 0.1, 0.0, 0.0, 0.1, 0.0],
        ),
    }


def _with_hours(season: xr.Dataset) -> xr.Dataset:
    days = season.sizes["day"]
    first = np.datetime64(TODAY - timedelta(DAYS_BEFORE), "h") - np.timedelta64(10, "h")
    hours = first + np.arange(24 * days).astype("timedelta64[h]")
    last_measured = 24 * DAYS_BEFORE + 14
    return season.assign_coords(hour=hours.astype("datetime64[ns]")).assign(
        hour_day=(("hour",), np.arange(24 * days) // 24),
        is_forecast=(("hour",), (np.arange(24 * days) > last_measured).astype(float)),
    )


def _with_ground(season: xr.Dataset, farm: Farm) -> xr.Dataset:
    width, height = 20.0, 25.0
    east = np.arange(85) * width
    south = np.arange(64) * height
    x, y = np.meshgrid(east, south)
    grid = 430 + 28 * np.sin(x / 330) + 24 * np.cos(y / 260 + x / 700) - 0.03 * x
    grid[:3, :4] = np.nan
    season = season.assign(
        elevation_grid=(("row", "column"), grid), cell_width=width, cell_height=height
    )
    # Cooler and better for mildew in the low ground; unknown where the ground is.
    depth = np.clip((440 - grid) / 60, 0, 1)
    season = season.assign(
        season_favourability_grid=_cells(0.42 + 0.2 * depth, "1", "Mean share of a mildew day"),
        last_night_temperature_grid=_cells(12.3 - 4 * depth, "degC", "Air of each cell"),
        last_night_hour=float(24 * DAYS_BEFORE + 5),
        pool_depth_grid=_cells(20 * depth, "m", "How deep a cell lies"),
    )
    centre = shapely.points(WEST - 450 + x + width / 2, SOUTH + 1100 - y - height / 2)
    block, cell = farm.blocks.sindex.query(centre.ravel(), predicate="within")[::-1]
    order = np.argsort(block, kind="stable")
    season = season.assign(
        cover_block=("cover", block[order]),
        cover_cell=("cover", cell[order]),
        cover_share=("cover", np.ones(cell.size)),
    )
    season.attrs.update(grid_west=WEST - 450, grid_north=SOUTH + 1100)
    return season


def _cells(values: np.ndarray, unit: str, meaning: str) -> tuple[object, ...]:
    return ("row", "column"), values.astype(np.float32), {"units": unit, "long_name": meaning}


def made_spray(farm: Farm, season: xr.Dataset) -> SprayOrder:
    ahead = season["hazard_ahead"].to_series()
    area = farm.blocks["area"]
    order = [b for b in ahead.sort_values(ascending=False).index if np.isfinite(ahead[b])]
    entries = tuple(
        SprayEntry(
            rank=rank,
            block=block,
            hazard=float(ahead[block]),
            ratio=float(ahead[block] / ahead[REFERENCE]),
            low=float(0.7 * ahead[block] / ahead[REFERENCE]),
            high=float(1.4 * ahead[block] / ahead[REFERENCE]),
            area=float(area[block]),
            sprayer_hours=1.4 if rank == 1 else None,
            reason=f"{block} has little protection left and favourable nights ahead.",
            avoidable=round(2.0 / rank, 2),
            per_hour=round(0.7 / rank, 2),
            next_window=datetime.combine(TODAY + timedelta(1), time(6)),
            waiting=f"Left until it is next open, {TODAY + timedelta(1)}, it loses something.",
        )
        for rank, block in enumerate([b for b in order if b not in {CLOSED, APART}], start=1)
    )
    closed = CannotNow(
        block=CLOSED,
        hazard=float(ahead[CLOSED]),
        rule="heat after sulfur",
        day=TODAY + timedelta(1),
        value=34.1,
        limit=32.0,
        unit="degC",
        standing="common practice",
        clears=datetime.combine(TODAY + timedelta(3), time(6)),
        title="Sulfur and heat",
        reason="Tomorrow is forecast too hot for sulfur in this block.",
    )
    return SprayOrder(
        today=TODAY,
        first_day=TODAY,
        horizon_days=HORIZON,
        material="sulfur",
        reference_block=REFERENCE,
        entries=entries,
        cannot_now=(closed,),
        not_worth=(
            NotWorth(
                block=APART,
                hazard=float(ahead[APART]),
                avoidable=0.2,
                protection=0.45,
                next_window=None,
                reason="Its sprays still prevent 0.45 or more, above the reapply line of 0.30.",
            ),
        ),
        not_asked=(NotAsked("re-entry", "Re-entry: not asked."),),
    )


def made_scouting(farm: Farm, season: xr.Dataset) -> ScoutingOrder:
    ahead = season["hazard_ahead"].to_series()
    looks: list[int | None] = [3, None, 12, 7, 5, 9, 4, 21, 2, 6, 8, 10]
    blocks = [b for b in farm.blocks.index if np.isfinite(ahead[b])]
    entries = tuple(
        ScoutingEntry(
            rank=rank,
            block=block,
            score=1.0 / rank,
            doubt=0.5 + 0.03 * (len(blocks) - rank),
            stake=float(ahead[block] * farm.blocks["area"][block]),
            days_since_look=looks[rank % len(looks)],
            chosen="value of looking",
            trees=11,
            organs_per_tree=10,
            share_left=0.05,
            proof="Look at 10 panicles on each of 11 trees.",
            reason=f"Nobody has looked at {block} since its bloom opened, and much is at stake.",
        )
        for rank, block in enumerate(blocks, start=1)
    )
    return ScoutingOrder(today=TODAY, entries=entries)
