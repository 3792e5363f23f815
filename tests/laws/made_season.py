"""A small made season with every variable that is read from files, for the laws."""

from functools import cache

import numpy as np
import xarray as xr

from geo.pipeline.order import ORDER
from geo.season import VOCABULARY, Layer

ROWS, COLUMNS, CELL = 60, 60, 20.0
BLOCK_CELLS = (6, 10)  # rows and columns of cells that a block covers
# South-west corners in cells from the grid's, of five blocks and one neighbour.
CORNERS = ((10, 12), (22, 12), (25, 26), (38, 20), (14, 40), (40, 40))
BLOCK_COUNT, SOURCE_COUNT = 5, 6
DAYS_PER_SEASON, HOURS_PER_DAY, LAST_MEASURED_HOUR = 9, 24, 5 * 24 + 5
CULTIVARS = ("Keitt:1", "Kent:0.5;Haden:0.5", "Alphonso:1", "Grandfather's:1", "Osteen:1")


def made_season(
    *, is_level: bool = False, seed: int = 1, kernel: str = "two_dt", rain_mode: str = "washoff"
) -> xr.Dataset:
    """Return a season of nine days for five blocks and a neighbour, as inputs would give it."""
    arrays = {
        **ground(is_level=is_level),
        **outlines(),
        **hours(np.random.default_rng(seed)),
        **loggers(),
        **notes(),
    }
    season = xr.Dataset(
        {name: (VOCABULARY[name].dims, np.asarray(array)) for name, array in arrays.items()},
        coords={
            "block": [f"B{number}" for number in range(1, BLOCK_COUNT + 1)],
            "source": [*(f"B{number}" for number in range(1, BLOCK_COUNT + 1)), "N1"],
            "day": np.datetime64("2026-02-01", "ns") + np.arange(DAYS_PER_SEASON) * DAY,
            "hour": np.datetime64("2026-02-01", "ns")
            + np.arange(DAYS_PER_SEASON * HOURS_PER_DAY) * np.timedelta64(1, "h"),
        },
    )
    return season.assign_attrs(
        horizon_days=3, kernel=kernel, rain_mode=rain_mode, wetness_rule="conservative"
    )


DAY = np.timedelta64(1, "D")


def ground(*, is_level: bool) -> dict[str, object]:
    """Return a slope towards the west with a hollow in it, and how blocks lie on it."""
    east, north = np.meshgrid(
        (np.arange(COLUMNS) + 0.5) * CELL, (ROWS - np.arange(ROWS) - 0.5) * CELL
    )
    hollow = 14.0 * np.exp(-(((east - 620.0) / 150.0) ** 2) - ((north - 620.0) / 130.0) ** 2)
    grid = np.full((ROWS, COLUMNS), 412.3) if is_level else 400.0 + 0.03 * east - hollow
    cells = [_cells(corner) for corner in CORNERS[:BLOCK_COUNT]]
    return {
        "elevation_grid": grid,
        "cell_width": CELL,
        "cell_height": CELL,
        "cover_block": np.repeat(np.arange(BLOCK_COUNT), [len(of_block) for of_block in cells]),
        "cover_cell": np.concatenate(cells),
        "cover_share": np.ones(sum(map(len, cells))),
        "block_cells": np.full(BLOCK_COUNT, BLOCK_CELLS[0] * BLOCK_CELLS[1]),
        "vertical_error": 0.0,
        "station_elevation": 412.3 if is_level else 415.0,
        "station_cell": [20 * COLUMNS + 25],
        "station_weight": [1.0],
        "line_cell": np.zeros(0, dtype=np.int64),
        "line_is_drain": np.zeros(0, dtype=np.int64),
        "line_height": np.zeros(0),
        "windbreak_start_x": np.zeros(0),
        "windbreak_start_y": np.zeros(0),
        "windbreak_end_x": np.zeros(0),
        "windbreak_end_y": np.zeros(0),
        "windbreak_height": np.zeros(0),
        "windbreak_porosity": np.zeros(0),
    }


def _cells(corner: tuple[int, int]) -> np.ndarray:
    column, row_from_south = corner
    rows = ROWS - 1 - row_from_south - np.arange(BLOCK_CELLS[0])
    return (rows[:, None] * COLUMNS + column + np.arange(BLOCK_CELLS[1])).ravel()


def outlines() -> dict[str, object]:
    """Return the edges of blocks and neighbour, and four points in each block."""
    west, south = (np.array(CORNERS, dtype=float) * CELL).T
    width, height = BLOCK_CELLS[1] * CELL, BLOCK_CELLS[0] * CELL
    x = np.stack([west, west + width, west + width, west], axis=1)
    y = np.stack([south, south, south + height, south + height], axis=1)
    quarter = np.array([[0.25, 0.25], [0.75, 0.25], [0.75, 0.75], [0.25, 0.75]])
    return {
        "area": np.full(BLOCK_COUNT, width * height / 1e4),
        "edge_source": np.repeat(np.arange(SOURCE_COUNT), 4),
        "edge_start_x": x.ravel(),
        "edge_start_y": y.ravel(),
        "edge_end_x": np.roll(x, -1, axis=1).ravel(),
        "edge_end_y": np.roll(y, -1, axis=1).ravel(),
        "point_block": np.repeat(np.arange(BLOCK_COUNT), 4),
        "point_x": (west[:BLOCK_COUNT, None] + width * quarter[:, 0]).ravel(),
        "point_y": (south[:BLOCK_COUNT, None] + height * quarter[:, 1]).ravel(),
        "point_share": np.full(4 * BLOCK_COUNT, 0.25),
    }


def hours(chance: np.random.Generator) -> dict[str, object]:
    """Return weather with cool clear nights, a wet day, and a forecast from the sixth day on."""
    count = DAYS_PER_SEASON * HOURS_PER_DAY
    hour = np.arange(count)
    swing = np.cos(2.0 * np.pi * (hour - 5.0) / HOURS_PER_DAY)  # 1 in the coolest hour
    rain = np.zeros(count)
    rain[60:66] = chance.uniform(0.5, 4.0, 6)
    cloud = np.where(hour % 7 == 0, np.nan, chance.uniform(0.0, 0.5, count))
    return {
        "hour_day": hour // HOURS_PER_DAY,
        "solar_elevation": -60.0 * np.cos(2.0 * np.pi * hour / HOURS_PER_DAY),
        "sunrise": 24.0 * np.arange(DAYS_PER_SEASON) + 6.4,
        "air_temperature": 21.0 - 7.0 * swing + chance.normal(0.0, 0.5, count),
        "relative_humidity": np.clip(68.0 + 22.0 * swing + chance.normal(0.0, 2.0, count), 5, 100),
        "wind_speed": np.maximum(1.2 - swing + chance.normal(0.0, 0.3, count), 0.0),
        "wind_from_direction": np.where(hour % 5 == 0, np.nan, 37.0 * hour % 360.0),
        "precipitation": rain,
        "cloud_cover": cloud,
        "is_forecast": (hour > LAST_MEASURED_HOUR).astype(np.int64),
        "is_filled": np.zeros(count, dtype=np.int64),
        "pool_strength_before": 0.0,
    }


def loggers() -> dict[str, object]:
    """Return what two loggers measured on three nights: one in the hollow, one up the slope."""
    count = DAYS_PER_SEASON * HOURS_PER_DAY
    measured = np.full((2, count), np.nan)
    hour = np.arange(24, 96)
    swing = np.cos(2.0 * np.pi * (hour - 5.0) / HOURS_PER_DAY)
    measured[:, 24:96] = 21.0 - np.array([[9.0], [7.0]]) * swing
    return {
        "logger_cell": [28 * COLUMNS + 30, 30 * COLUMNS + 50],
        "logger_air_temperature": measured,
    }


def notes() -> dict[str, object]:
    """Return what people wrote: cultivars, sprays, counts and stages; little about block 5."""
    return {
        "cultivar_share_text": np.array(CULTIVARS),
        "had_mildew_last_season": np.array([0, 1, 0, 0, 1]),
        "source_status": np.array(["scouted"] * BLOCK_COUNT + ["suspected"]),
        "spray_block": np.array([0, 1, 1, 2]),
        "spray_hour": np.array([7.0, -60.0, 57.5, 100.0]),
        "spray_material": np.array(["sulfur", "copper", "sulfur", "penconazole"]),
        "act_block": np.array([2]),
        "act_hour": np.array([80.0]),
        "act_kind": np.array(["panicle removal"]),
        "visit_block": np.array([0, 1, 2, 2, 3, 5]),
        "visit_disease": np.full(6, "panicle_mildew"),
        "visit_day": np.array([1, 2, 1, 4, 3, 2]),
        "visit_inspected": np.array([100, 50, 80, 100, 60, 20]),
        "visit_infected": np.array([2, 0, 1, 9, 3, 4]),
        "portion_block": np.array([0, 0, 1, 2, 3]),
        "portion_day": np.array([1, 1, 2, 4, 3]),
        "portion_stage": np.array(["514", "613", "515", "615", "511"]),
        "portion_share": np.array([0.4, 0.6, 1.0, 1.0, 1.0]),
    }


def through(season: xr.Dataset, *, last: str = ORDER[-1].name) -> xr.Dataset:
    """Return the season after all layers up to one of them."""
    for layer in ORDER:
        season = layer.add_to(season)
        if layer.name == last:
            break
    return season


def before(season: xr.Dataset, layer: Layer) -> xr.Dataset:
    """Return the season as a layer finds it."""
    for earlier in ORDER:
        if earlier is layer:
            break
        season = earlier.add_to(season)
    return season


@cache
def _after(count: int, made: tuple[tuple[str, object], ...]) -> xr.Dataset:
    if count == 0:
        return made_season(**dict(made))
    return ORDER[count - 1].add_to(_after(count - 1, made))


def made_before(layer: Layer, **made: object) -> xr.Dataset:
    """Return the made season as a layer finds it, computed once for all tests: a copy of it."""
    return _after(ORDER.index(layer), tuple(sorted(made.items()))).copy(deep=True)


def made_through(**made: object) -> xr.Dataset:
    """Return the made season after all layers, computed once for all tests: a copy of it."""
    return _after(len(ORDER), tuple(sorted(made.items()))).copy(deep=True)


def permuted(season: xr.Dataset, order: list[int]) -> xr.Dataset:
    """Return the same farm with its blocks written down in another order."""
    of_source = [*order, *range(BLOCK_COUNT, SOURCE_COUNT)]
    place = np.argsort(of_source)
    turned = season.isel(block=order, source=of_source)
    kinds = ("cover_block", "edge_source", "point_block", "spray_block", "act_block", "visit_block")
    return turned.assign(
        {
            name: (season[name].dims, place[season[name].values])
            for name in (*kinds, "portion_block")
        }
    )


def replaced(season: xr.Dataset, **arrays: object) -> xr.Dataset:
    """Return the season with other values in some of its variables."""
    return season.assign(
        {name: (VOCABULARY[name].dims, np.asarray(array)) for name, array in arrays.items()}
    )
