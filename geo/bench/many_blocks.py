"""A made cooperative of any number of blocks, as a folder that the whole job can be run on."""

import shutil
from importlib.resources import files
from pathlib import Path

import geopandas as gpd
import numpy as np
import pandas as pd
import rasterio
import shapely

from geo.arrays import AnyArray, IntArray

SEED = 20260218
SYSTEM, WEST, SOUTH = "EPSG:32613", 417_440.0, 2_620_680.0  # where the demo's station stands
SPACING_M, CORNERS = 130.0, 12
# Five cells to a block and its share of the way between, so that pieces of the ground can be laid
# side by side.
CELL_M, HALO_M = 26.0, 1508.0
CULTIVARS = ("Keitt", "Kent", "Haden", "Tommy Atkins", "Ataulfo")
STAGES = ("513", "514", "515", "611", "615", "619")
# Shares of the blocks with a note in the diary, and with a count in the scouting table.
SPRAYED, LOOKED_AT = 0.8, 0.4
TODAY = pd.Timestamp("2026-02-18")


def make_many_blocks(folder: Path, count: int) -> None:
    """
    Write a farm folder: the demo's weather and labels, made outlines, ground, diary and counts.

    Parameters
    ----------
    folder : pathlib.Path
        Where to; it must be there.
    count : int
        Blocks, each with twelve corners and a name of its own.
    """
    chance = np.random.default_rng(SEED)
    demo = Path(str(files("layers_demo") / "valley_farm"))
    for name in ("station.csv", "forecast.csv", "labels.csv"):
        shutil.copy(demo / name, folder / name)
    ids = np.array([f"B{number:05d}" for number in range(count)])
    across = int(np.ceil(np.sqrt(count)))
    gpd.GeoDataFrame(
        {
            "block_id": ids,
            "name": [f"Member {place // 25 + 1}, plot {place % 25 + 1}" for place in range(count)],
            "cultivar": chance.choice(CULTIVARS, count),
            "planted": chance.integers(1985, 2018, count),
            "mildew_last_season": chance.integers(0, 2, count),
        },
        geometry=many_outlines(count),
        crs=SYSTEM,
    ).to_file(folder / "blocks.gpkg", driver="GPKG")
    _write_ground(folder, across)
    _write_notes(folder, ids, chance)
    settings = (demo / "farm.toml").read_text("utf-8")
    for line, ours in (
        ('outlines = "blocks.geojson"', 'outlines = "blocks.gpkg"'),
        ('neighbours = "neighbours.geojson"', ""),
        ('places = "places.geojson"', ""),
        ('name = "Made Valley Farm"', 'name = "Made cooperative"'),
    ):
        if line not in settings:
            raise ValueError(f"the demo's settings have no line {line!r} any more")
        settings = settings.replace(line, ours, 1)
    (folder / "farm.toml").write_text(settings, "utf-8")


def many_outlines(count: int) -> AnyArray:
    """
    Return outlines of twelve corners, side by side in a square.

    Parameters
    ----------
    count : int
        How many.

    Returns
    -------
    ndarray of shapely.Polygon
        [m] In `SYSTEM`.
    """
    chance = np.random.default_rng(SEED)
    across = int(np.ceil(np.sqrt(count)))
    row, column = np.divmod(np.arange(count), across)
    turn = 2.0 * np.pi * np.arange(CORNERS) / CORNERS
    reach = chance.uniform(0.32, 0.47, (count, CORNERS)) * SPACING_M
    east = (WEST + SPACING_M * (column + 0.5))[:, None] + reach * np.cos(turn)
    north = (SOUTH + SPACING_M * (row + 0.5))[:, None] + reach * np.sin(turn)
    corners = np.stack([east, north], axis=2)
    rings = np.concatenate([corners, corners[:, :1]], axis=1)
    return np.asarray(shapely.polygons(rings))


def _write_ground(folder: Path, across: int) -> None:
    cells = int((SPACING_M * across + 2.0 * HALO_M) / CELL_M)
    metres = CELL_M * np.arange(cells)
    ground = 430.0 + 35.0 * np.sin(metres / 700.0) + 25.0 * np.cos(metres[:, None] / 900.0)
    north = SOUTH - HALO_M + CELL_M * cells
    with rasterio.open(
        folder / "elevation.tif",
        "w",
        driver="GTiff",
        height=cells,
        width=cells,
        count=1,
        dtype="float32",
        crs=SYSTEM,
        transform=rasterio.Affine(CELL_M, 0.0, WEST - HALO_M, 0.0, -CELL_M, north),
    ) as raster:
        raster.write(ground.astype("float32"), 1)
        raster.set_band_unit(1, "m")


def _write_notes(folder: Path, ids: AnyArray, chance: np.random.Generator) -> None:
    """Write two sprays for most blocks, and a count with a stage for some."""
    sprayed = np.repeat(ids[chance.random(len(ids)) < SPRAYED], 2)
    pd.DataFrame(
        {
            "date": _days_before_today(chance.integers(1, 40, len(sprayed))),
            "block_id": sprayed,
            "material": chance.choice(["sulfur", "copper", "myclobutanil"], len(sprayed)),
        }
    ).to_csv(folder / "diary.csv", index=False)
    looked_at = ids[chance.random(len(ids)) < LOOKED_AT]
    pd.DataFrame(
        {
            "date": _days_before_today(chance.integers(1, 25, len(looked_at))),
            "block_id": looked_at,
            "inspected": 100,
            "infected": chance.integers(0, 20, len(looked_at)),
            "stage": chance.choice(STAGES, len(looked_at)),
        }
    ).to_csv(folder / "scouting.csv", index=False)


def _days_before_today(days: IntArray) -> AnyArray:
    return np.asarray((TODAY - pd.to_timedelta(days, unit="D")).strftime("%Y-%m-%d"))
