"""How far is a cell between knots from a cell computed by itself, and how much faster is it?"""

import tracemalloc
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path
from time import perf_counter

import numpy as np
import xarray as xr

from geo.arrays import AnyArray
from geo.bench.brute_force import brute_force, share_of_range
from geo.infection.layer import INFECTION
from geo.pipeline import run
from geo.season.pixels import CELLS_AT_ONCE
from geo.weather.layer import WEATHER

SEED = 20260218
SIDE, FULL_SIDE = 1000, 4000
SAMPLE = 4000
GRIDS = ("season_favourability_grid", "last_night_temperature_grid")


def lines(*, full: bool = False) -> Iterator[str]:
    """
    Compare both grids with brute force on a sample of cells.

    Parameters
    ----------
    full : bool
        A grid of 4000 × 4000 cells instead of 1000 × 1000.

    Yields
    ------
    str
        What was found, a line each.
    """
    side = FULL_SIDE if full else SIDE
    season = _wide(run(Path(str(files("layers_demo") / "valley_farm"))).season, side)
    started = perf_counter()
    mapped = _mapped(season)
    cells_per_second = side * side / (perf_counter() - started)
    cell = np.random.default_rng(SEED).choice(side * side, SAMPLE, replace=False)
    started = perf_counter()
    exact = brute_force(mapped, cell)
    ratio = cells_per_second * (perf_counter() - started) / SAMPLE
    heights = float(np.ptp(season.elevation_grid.values))
    deepest = float(season.pool_depth_grid.values.max())
    yield (
        f"season and last night at {side} x {side} cells, {season.sizes['hour']} hours, ground "
        f"over {heights:.0f} m, pools to {deepest:.0f} m : each cell by itself = {ratio:.3g} x "
        "the rate"
    )
    for name, answer in zip(GRIDS, exact, strict=True):
        error = share_of_range(mapped[name].values.ravel()[cell], answer)
        yield (
            f"    {name}: error of {SAMPLE} cells, share of the range: p99 "
            f"{np.quantile(error, 0.99):.1e}, largest {error.max():.1e}"
        )
    yield f"    {_peak(season)}"


def _wide(season: xr.Dataset, side: int) -> xr.Dataset:
    """Return the demo's season on made ground of rolling hills as large as wished."""
    x, y = np.meshgrid(np.arange(side) * 0.008, np.arange(side) * 0.008)
    hills = np.sin(x) * np.cos(0.7 * y) + 0.4 * np.sin(2.3 * x + y)
    ground: dict[str, tuple[tuple[str, str], AnyArray]] = {
        "elevation_grid": (("row", "column"), 450.0 + 60.0 * hills),
        "pool_depth_grid": (("row", "column"), np.maximum(-18.0 * hills, 0.0)),
    }
    given = {variable.name for layer in (WEATHER, INFECTION) for variable in layer.gives}
    bare = season.drop_vars([name for name in given if name in season])
    return bare.drop_dims(["row", "column"]).assign(ground)


def _mapped(season: xr.Dataset) -> xr.Dataset:
    # The layers themselves: their blocks are a handful and cost next to nothing.
    weather = WEATHER.compute(season)
    both = season.assign(dict(weather.data_vars))
    return both.assign(dict(INFECTION.compute(both).data_vars))


def _peak(season: xr.Dataset) -> str:
    tracemalloc.start()
    _mapped(season)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    cells = season.elevation_grid.size
    return (
        f"peak memory beyond the {cells / 1e6:.0f} million cells of height and pool depth: "
        f"{peak / 2**20:.0f} MiB, of which both grids {2 * 4 * cells / 2**20:.0f} MiB; windows of "
        f"{CELLS_AT_ONCE / 1e6:.0f} million cells"
    )
