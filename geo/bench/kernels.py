"""How much faster are the two heavy kernels than plain loops, and how far from them?"""

from collections.abc import Iterator
from math import atan2, hypot, pi

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.bench.pairs import ratio
from geo.dispersal.area_share import share_landing
from geo.dispersal.kernels import two_dt_kernel
from geo.reference.number import values
from geo.season.between import at_blocks
from geo.weather.at_spots import air_temperature_at_spots
from geo.weather.layer import pool_parameters
from geo.weather.spots import choose_spots

SEED = 20260218
FIELDS, FIELD_M, ARC_STEPS = 30, 150.0, 200
BLOCKS, HOURS = 4000, 240


def lines() -> Iterator[str]:
    """
    Time the neighbour shares and the grid of weather spots against plain loops.

    Yields
    ------
    str
        What was found, a line each.
    """
    yield from _neighbours(np.random.default_rng(SEED))
    yield from _weather(np.random.default_rng(SEED))


def _neighbours(chance: np.random.Generator) -> Iterator[str]:
    corner = chance.uniform(0.0, 3000.0, (FIELDS, 2))
    square = np.array([(0.0, 0.0), (FIELD_M, 0.0), (FIELD_M, FIELD_M), (0.0, FIELD_M)])
    start = (corner[:, None, :] + square[None, :, :]).reshape(-1, 2)
    end = (corner[:, None, :] + np.roll(square, -1, axis=0)[None, :, :]).reshape(-1, 2)
    edges = (start[:, 0], start[:, 1], end[:, 0], end[:, 1])
    outline = np.repeat(np.arange(FIELDS), len(square))
    point = corner + FIELD_M / 2.0
    kernel = two_dt_kernel(**values("dispersal", "two_dt"))

    def vectors() -> FloatArray:
        return share_landing(
            point[:, 0],
            point[:, 1],
            edges=edges,
            edge_outline=outline,
            outline_count=FIELDS,
            kernel=kernel,
        )

    def loop() -> FloatArray:
        return _shares_by_loop(point, edges, outline, kernel.scale)

    error = np.abs(vectors() - loop()).max()
    found = ratio(vectors, loop, pairs=3)
    yield f"neighbour shares of {FIELDS} blocks : plain loop = {found}"
    yield f"    largest difference of a share {error:.1e}"


def _shares_by_loop(
    point: FloatArray, edges: tuple[FloatArray, ...], outline: IntArray, scale: float
) -> FloatArray:
    """Walk along each edge in small steps of angle: the same integral by the midpoint rule."""
    shares = np.zeros((len(point), FIELDS))
    shape = values("dispersal", "two_dt")["shape"]
    columns = [edge.tolist() for edge in edges]
    for row, (x, y) in enumerate(point.tolist()):
        for west, south, east, north, whose in zip(*columns, outline.tolist(), strict=True):
            for step in range(ARC_STEPS):
                near, far = step / ARC_STEPS, (step + 1) / ARC_STEPS
                ax, ay = west + near * (east - west) - x, south + near * (north - south) - y
                bx, by = west + far * (east - west) - x, south + far * (north - south) - y
                turn = atan2(ax * by - ay * bx, ax * bx + ay * by)
                distance = hypot((ax + bx) / 2.0, (ay + by) / 2.0)
                mass = 1.0 - (1.0 + (distance / scale) ** 2) ** (1.0 - shape)
                shares[row, whose] += mass * turn / (2.0 * pi)
    return shares


def _weather(chance: np.random.Generator) -> Iterator[str]:
    depth, elevation = chance.gamma(1.0, 8.0, BLOCKS), chance.uniform(400.0, 700.0, BLOCKS)
    temperature = 15.0 + 8.0 * np.sin(np.arange(HOURS) * 2.0 * pi / 24.0)
    strength = np.clip(-np.sin(np.arange(HOURS) * 2.0 * pi / 24.0), 0.0, 1.0)

    def hours_at(height: FloatArray, pool_depth: FloatArray) -> FloatArray:
        return air_temperature_at_spots(
            temperature,
            strength,
            height_above_station=height - 420.0,
            pool_depth=pool_depth,
            station_pool_depth=0.0,
            parameters=pool_parameters(),
        )

    def grid() -> FloatArray:
        spots = choose_spots(depth, elevation, station_pool_depth=0.0)
        days = hours_at(spots.elevation, spots.pool_depth).reshape(len(spots.elevation), -1, 24)
        return at_blocks(days.min(axis=2), spots.spot_of_block, spots.weight)

    def loop() -> FloatArray:
        return np.array(
            [
                hours_at(elevation[i : i + 1], depth[i : i + 1]).reshape(-1, 24).min(axis=1)
                for i in range(BLOCKS)
            ]
        )

    error = np.abs(grid() - loop()).max()
    found = ratio(grid, loop)
    yield f"night minima of {BLOCKS} blocks by a grid of spots : block by block = {found}"
    yield f"    largest difference {error:.1e} K"
