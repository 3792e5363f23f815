"""Small made epidemics: some blocks on a line, some days, two neighbours."""

from dataclasses import dataclass, fields, replace

import numpy as np

from geo.arrays import FloatArray
from geo.epidemic.counts import Counts
from geo.epidemic.course import Course, State, first_state, over_days
from geo.epidemic.drivers import Drivers
from geo.epidemic.parameters import Epidemic, epidemic_parameters
from geo.epidemic.tissue import Tissue
from geo.infection.latency import shortest_latency

MILDEW = epidemic_parameters("panicle_mildew")
LATENT_DAYS = shortest_latency("panicle_mildew")
BLOCKS, DAYS, NEIGHBOURS = 5, 30, 2
BY_DAY = [field.name for field in fields(Drivers) if field.name not in {"neighbours", "counts"}]


@dataclass(frozen=True)
class DenseExchange:
    """What a block receives from each fully sporulating source, shape (block, source)."""

    share: FloatArray

    def received(self, sporulating: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return what blocks receive from themselves and from others."""
        own = np.arange(self.share.shape[0])
        home = self.share[own, own] * sporulating[: own.size]
        return home, np.maximum(self.share @ sporulating - home, 0.0)


def made_drivers(seed: int, *, blocks: int = BLOCKS, days: int = DAYS) -> Drivers:
    """Return drivers with everything in them, drawn by chance."""
    chance = np.random.default_rng(seed)

    def drawn(low: float, high: float) -> FloatArray:
        return chance.uniform(low, high, (blocks, days))

    inspected = chance.integers(1, 60, 8)
    return Drivers(
        favourability=drawn(0.2, 1.0),
        susceptibility=drawn(0.3, 1.0),
        protection=drawn(0.0, 0.9),
        latency_rate=drawn(0.0, 0.2),
        old_share=drawn(0.9, 1.0),
        cured=drawn(-1.0, 0.5).clip(0.0),
        reach=drawn(0.0, 0.4),
        removed=drawn(-1.0, 0.3).clip(0.0),
        release=drawn(0.5, 1.0),
        neighbours=chance.uniform(0.0, 0.3, (NEIGHBOURS, days)),
        counts=Counts(
            block=chance.integers(0, blocks, 8),
            day=chance.integers(0, days, 8),
            inspected=inspected.astype(float),
            infected=np.floor(inspected * chance.random(8) * 0.5),
        ),
    )


def calm_drivers(*, blocks: int = BLOCKS, days: int = DAYS) -> Drivers:
    """Return drivers of a season without growth, sprays, acts, neighbours and counts."""
    ones = np.ones((blocks, days))
    return Drivers(
        favourability=0.6 * ones,
        susceptibility=0.8 * ones,
        protection=0.0 * ones,
        latency_rate=ones / LATENT_DAYS,
    )


def on_a_line(blocks: int = BLOCKS, neighbours: int = NEIGHBOURS) -> DenseExchange:
    """Return an exchange that halves with each step between blocks; neighbours come last."""
    block, source = np.arange(blocks)[:, None], np.arange(blocks + neighbours)[None, :]
    return DenseExchange(0.4 * 0.5 ** np.abs(block - source))


def run(
    drivers: Drivers,
    *,
    exchange: DenseExchange | None = None,
    visible: FloatArray | float = 0.04,
    epidemic: Epidemic = MILDEW,
) -> tuple[State, Course]:
    """Return state and course from a start with some visible share."""
    blocks = drivers.favourability.shape[0]
    neighbours = drivers.neighbours[:, 0] if drivers.neighbours is not None else np.zeros(0)
    start = first_state(np.broadcast_to(visible, blocks) + np.zeros(blocks), neighbours, epidemic)
    return over_days(start, drivers, epidemic, exchange or on_a_line(blocks, neighbours.size))


def of_blocks(drivers: Drivers, order: FloatArray) -> Drivers:
    """Return the drivers with the blocks in another order."""
    place = np.argsort(order)
    counts = drivers.counts
    return replace(
        drivers,
        **{name: array[order] for name in BY_DAY if (array := getattr(drivers, name)).ndim},
        counts=replace(counts, block=place[counts.block]),
    )


def of_days(drivers: Drivers, first: int, last: int) -> Drivers:
    """Return the drivers of some of the days."""
    counts = drivers.counts
    assert drivers.neighbours is not None
    return replace(
        drivers,
        **{name: getattr(drivers, name)[:, first:last] for name in BY_DAY},
        neighbours=drivers.neighbours[:, first:last],
        counts=replace(counts, day=counts.day - first),
    )


def arrays(course: Course) -> dict[str, FloatArray]:
    """Return the arrays of a course by name."""
    return {field.name: getattr(course, field.name) for field in fields(course)}


def total(tissue: Tissue) -> FloatArray:
    """Return the sum of all shares."""
    return tissue.healthy + tissue.hidden.sum(axis=0) + tissue.sporulating + tissue.spent


def made_tissue(seed: int, *, blocks: int = BLOCKS, stages: int = 6) -> Tissue:
    """Return tissue with some of everything."""
    share = np.random.default_rng(seed).dirichlet(np.ones(stages + 3), blocks).T
    return Tissue(share[0], share[3:], share[1], share[2])
