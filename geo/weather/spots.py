"""At which few spots is hourly weather computed, and which of them does a block lie between?"""

from dataclasses import dataclass, replace

import numpy as np

from geo.arrays import FloatArray, IntArray

# Up to here each block is its own spot, which is exact; beyond, a grid of spots is cheaper.
EXACT_UP_TO_BLOCKS = 400
POOL_KNOTS, HEIGHT_KNOTS = 33, 17  # our own choice: below the doubt of the pool itself
# Pixels lie between knots of their own, so close that they differ from the brute-force answer by
# less than 1e-4 of the range (see `python -m geo.bench`).
PIXEL_POOL_KNOTS = 65  # our own choice, measured
PIXEL_HEIGHT_STEP_M = 10.0  # our own choice, measured
PIXEL_HEIGHT_KNOTS = (33, 97)  # our own choice: fewest and most


@dataclass(frozen=True, slots=True)
class Spots:
    """
    Spots, and the blocks between them.

    Attributes
    ----------
    pool_depth, elevation : numpy.ndarray
        [m] Shape (spot,).
    spot_of_block, spot_of_site : numpy.ndarray
        [1] Shape (block, corner): as the block is, and as if it lay as deep as the station.
    weight, site_weight : numpy.ndarray
        [1] Shape (block, corner), rows summing to 1.
    """

    pool_depth: FloatArray
    elevation: FloatArray
    spot_of_block: IntArray
    weight: FloatArray
    spot_of_site: IntArray
    site_weight: FloatArray


@dataclass(frozen=True, slots=True)
class Knots:
    """
    Pool depths and heights that the cells of the elevation grid lie between.

    Attributes
    ----------
    pool_depth : numpy.ndarray
        [m] Shape (pool_knot,), rising from 0; closer where the ground is level, since the pool
        formula bends there.
    elevation : numpy.ndarray
        [m] Shape (height_knot,), rising.
    """

    pool_depth: FloatArray
    elevation: FloatArray


def choose_knots(pool_depth_grid: FloatArray, elevation_grid: FloatArray) -> Knots:
    """
    Return knots wide enough for every cell.

    Parameters
    ----------
    pool_depth_grid, elevation_grid : [m]
        Shape (row, column). NaN where unknown.

    Returns
    -------
    Knots
        Some even where no ground is known at all.
    """
    deepest = np.fmax.reduce(pool_depth_grid, axis=None, initial=0.0)
    lowest = np.fmin.reduce(elevation_grid, axis=None, initial=np.inf)
    highest = np.fmax.reduce(elevation_grid, axis=None, initial=-np.inf)
    if not lowest <= highest:
        lowest = highest = 0.0
    fewest, most = PIXEL_HEIGHT_KNOTS
    count = int(np.clip(np.ceil((highest - lowest) / PIXEL_HEIGHT_STEP_M) + 1, fewest, most))
    return Knots(
        pool_depth=max(deepest, 1.0) * np.linspace(0.0, 1.0, PIXEL_POOL_KNOTS) ** 2,
        elevation=np.linspace(lowest, max(highest, lowest + 1.0), count),
    )


def with_knots(spots: Spots, knots: Knots) -> tuple[Spots, IntArray]:
    """
    Return the spots with one more for each pair of knots, at the end.

    Parameters
    ----------
    spots : Spots
        Those of the blocks; they keep their places.
    knots : Knots
        Those of the pixels.

    Returns
    -------
    Spots
        All of them.
    [1]
        Shape (pool_knot, height_knot): the spot of each pair.
    """
    depth, height = np.meshgrid(knots.pool_depth, knots.elevation, indexing="ij")
    both = replace(
        spots,
        pool_depth=np.append(spots.pool_depth, depth),
        elevation=np.append(spots.elevation, height),
    )
    return both, spots.pool_depth.size + np.arange(depth.size).reshape(depth.shape)


def choose_spots(
    pool_depth: FloatArray,
    elevation: FloatArray,
    *,
    station_pool_depth: float,
    exact_up_to_blocks: int = EXACT_UP_TO_BLOCKS,
) -> Spots:
    """
    Return the spots that stand for the blocks.

    Parameters
    ----------
    pool_depth : [m]
        Shape (block,). NaN for a block without terrain.
    elevation : [m]
        Shape (block,).
    station_pool_depth : [m]
        Pool depth that "without the cool pool" means.
    exact_up_to_blocks : [1]
        More blocks than this share a grid of spots.

    Returns
    -------
    Spots
        A block of unknown terrain leans on spots of unknown terrain.
    """
    if pool_depth.size <= exact_up_to_blocks:
        return _one_spot_each(pool_depth, elevation, station_pool_depth)
    return _grid_of_spots(pool_depth, elevation, station_pool_depth)


def _one_spot_each(
    pool_depth: FloatArray, elevation: FloatArray, station_pool_depth: float
) -> Spots:
    count = pool_depth.size
    own = np.arange(count)[:, None]
    alone = np.ones((count, 1))
    return Spots(
        pool_depth=np.concatenate([pool_depth, np.full(count, station_pool_depth)]),
        elevation=np.concatenate([elevation, elevation]),
        spot_of_block=own,
        weight=alone,
        spot_of_site=own + count,
        site_weight=alone,
    )


def _grid_of_spots(
    pool_depth: FloatArray, elevation: FloatArray, station_pool_depth: float
) -> Spots:
    # Blocks without terrain stretch no grid; where no block has any, the smallest grid will do.
    deepest = np.nanmax(np.append(pool_depth, station_pool_depth))
    known = elevation[~np.isnan(elevation)]
    low, high = (known.min(), known.max()) if known.size else (0.0, 0.0)
    pool_knots = np.linspace(0.0, max(deepest, 1.0), POOL_KNOTS)
    height_knots = np.linspace(low, max(high, low + 1.0), HEIGHT_KNOTS)
    # One more spot, of unknown terrain, for blocks without any.
    spot_pool, spot_height = (
        np.append(knots.ravel(), np.nan)
        for knots in np.meshgrid(pool_knots, height_knots, indexing="ij")
    )
    spot, weight = _between(pool_depth, elevation, pool_knots, height_knots)
    as_station = np.full_like(pool_depth, station_pool_depth)
    site, site_weight = _between(as_station, elevation, pool_knots, height_knots)
    return Spots(spot_pool, spot_height, spot, weight, site, site_weight)


def _between(
    pool_depth: FloatArray,
    elevation: FloatArray,
    pool_knots: FloatArray,
    height_knots: FloatArray,
) -> tuple[IntArray, FloatArray]:
    pool, pool_part = _place(pool_depth, pool_knots)
    height, height_part = _place(elevation, height_knots)
    corner = np.stack(
        [(pool + up) * height_knots.size + height + right for up in (0, 1) for right in (0, 1)],
        axis=1,
    )
    weight = np.stack(
        [
            (pool_part if up else 1.0 - pool_part) * (height_part if right else 1.0 - height_part)
            for up in (0, 1)
            for right in (0, 1)
        ],
        axis=1,
    )
    unknown = np.isnan(weight).any(axis=1)
    corner[unknown] = pool_knots.size * height_knots.size
    weight[unknown] = (1.0, 0.0, 0.0, 0.0)
    return corner, weight


def _place(value: FloatArray, knots: FloatArray) -> tuple[IntArray, FloatArray]:
    steps = (value - knots[0]) / (knots[1] - knots[0])
    lower = np.clip(np.nan_to_num(np.floor(steps)), 0, knots.size - 2).astype(np.int64)
    # The last knot may be off by a last digit: a block on it lies between knots all the same.
    return lower, np.clip(steps - lower, 0.0, 1.0)
