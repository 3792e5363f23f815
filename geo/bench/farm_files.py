"""How long does it take to read and check the files of a large cooperative?"""

from collections.abc import Iterator
from pathlib import Path

import geopandas as gpd
import numpy as np
import pandas as pd
import rasterio
import shapely

from geo.bench.alone import alone

SEED = 20260218
SYSTEM, EAST, NORTH = "EPSG:32651", 288_500.0, 1_614_500.0
SIDE_M, CELL_M, HALO_M = 100.0, 30.0, 1500.0
DAY, STATIONS = "2026-02-18", 5
PREPARE = """
from pathlib import Path
from tempfile import mkdtemp
from geo.bench.farm_files import make_farm
from geo.pipeline.check import check
folder = Path(mkdtemp())
make_farm(folder, blocks={blocks}, sprays={sprays}, days={days}, bad={bad})
"""
STATION = """
[[stations]]
name = "S{number}"
weather = "s{number}.csv"
longitude = {longitude}
latitude = {latitude}
elevation = 100
wind_height = 2.0
"""


def lines(*, full: bool) -> Iterator[str]:
    """
    Time the check of a cooperative's files, with and without many bad rows.

    Parameters
    ----------
    full : bool
        With 20 000 outlines, 200 000 rows of diary and five stations for three years, instead of
        a tenth of each.

    Yields
    ------
    str
        What was found, a line each.
    """
    blocks, sprays, days = (20_000, 200_000, 1095) if full else (2000, 20_000, 110)
    for bad in (0, sprays // 4):
        prepare = PREPARE.format(blocks=blocks, sprays=sprays, days=days, bad=bad)
        seconds, peak, _ = alone(prepare=prepare, work="found = check(folder)")
        yield (
            f"check of {blocks} outlines, {sprays} rows of diary ({bad} of them bad), "
            f"{STATIONS} stations × {days} days : {seconds:.1f} s, peak memory {peak:.2f} GiB"
        )


def make_farm(folder: Path, *, blocks: int, sprays: int, days: int, bad: int) -> None:
    """
    Write the files of a made cooperative.

    Parameters
    ----------
    folder : pathlib.Path
        Where to.
    blocks, sprays, days : int
        How many.
    bad : int
        Rows of the diary with a fault.
    """
    random = np.random.default_rng(SEED)
    across = int(np.ceil(np.sqrt(blocks)))
    place = np.arange(blocks)
    west, south = EAST + 120.0 * (place % across), NORTH + 120.0 * (place // across)
    ids = np.array([f"B{number:05d}" for number in place])
    gpd.GeoDataFrame(
        {"block_id": ids, "cultivar": "Kent"},
        geometry=shapely.box(west, south, west + SIDE_M, south + SIDE_M),
        crs=SYSTEM,
    ).to_file(folder / "blocks.gpkg", driver="GPKG")
    _write_ground(folder, across)
    middle = gpd.GeoSeries([shapely.Point(west.mean(), south.mean())], crs=SYSTEM).to_crs(4326)
    longitude, latitude = middle.x[0], middle.y[0]
    hours = pd.date_range(end=f"{DAY}T05:00", periods=24 * days + 6, freq="h")
    for number in range(STATIONS):
        _hours(hours, random).to_csv(folder / f"s{number}.csv", index=False)
    ahead = pd.date_range(start=f"{DAY}T06:00", periods=66, freq="h")
    _hours(ahead, random).to_csv(folder / "forecast.csv", index=False)
    _write_diary(folder, ids[random.integers(0, blocks, sprays)], random, bad=bad)
    settings = 'name = "Made cooperative"\nmade = true\nzone = "Asia/Manila"\n[files]\n'
    settings += 'outlines = "blocks.gpkg"\nelevation = "ground.tif"\nforecast = "forecast.csv"\n'
    settings += 'diary = "diary.csv"\n[forecast]\nwind_height = 10.0\n'
    for number in range(STATIONS):
        settings += STATION.format(
            number=number, longitude=longitude + 0.01 * number, latitude=latitude
        )
    (folder / "farm.toml").write_text(settings, "utf-8")


def _write_ground(folder: Path, across: int) -> None:
    cells = int((120.0 * across + 2.0 * HALO_M) / CELL_M)
    with rasterio.open(
        folder / "ground.tif",
        "w",
        driver="GTiff",
        height=cells,
        width=cells,
        count=1,
        dtype="float32",
        crs=SYSTEM,
        transform=rasterio.Affine(
            CELL_M, 0.0, EAST - HALO_M, 0.0, -CELL_M, NORTH - HALO_M + CELL_M * cells
        ),
    ) as raster:
        raster.write(np.full((cells, cells), 100.0, dtype="float32"), 1)
        raster.set_band_unit(1, "m")


def _hours(hours: pd.DatetimeIndex, random: np.random.Generator) -> pd.DataFrame:
    swing = np.cos(2.0 * np.pi * (hours.hour.to_numpy() - 14) / 24.0)
    return pd.DataFrame(
        {
            "time": hours.strftime("%Y-%m-%dT%H:%M"),
            "air_temperature_degC": (25.0 + 6.0 * swing + random.normal(0, 0.3, len(hours))).round(
                1
            ),
            "relative_humidity_percent": (75.0 - 15.0 * swing).round(1),
            "wind_speed_m_s": (1.5 + swing).round(2),
            "precipitation_mm": 0.0,
        }
    )


def _write_diary(
    folder: Path, blocks: np.ndarray, random: np.random.Generator, *, bad: int
) -> None:
    count = len(blocks)
    days = pd.Timestamp(DAY) - pd.to_timedelta(random.integers(1, 300, count), unit="D")
    minutes = random.integers(300, 600, count)
    rows = pd.DataFrame(
        {
            "date": days.strftime("%Y-%m-%d"),
            "time": [f"{minute // 60:02d}:{minute % 60:02d}" for minute in minutes],
            "block_id": blocks,
            "material": random.choice(["sulfur", "copper"], count),
        }
    )
    rows.loc[: bad - 1, "material"] = [f"elixir {number % 997}" for number in range(bad)]
    rows.to_csv(folder / "diary.csv", index=False)
