"""How long does a district of blocks take: spores between them, and four diseases for a year?"""

from collections.abc import Iterator
from itertools import pairwise

import numpy as np
import xarray as xr

from geo.arrays import FloatArray
from geo.bench.alone import alone
from geo.bench.orchards import SEED, clustered, outlines
from geo.bench.pairs import ratio
from geo.dispersal.exchange import Exchange
from geo.dispersal.layer import DISPERSAL
from geo.dispersal.named import KERNELS, kernel_named
from geo.dispersal.pairing import exchange_between
from geo.pipeline.order import OF_A_DISEASE
from geo.reference.diseases import DISEASES
from geo.season.disease import season_of_disease

BUILT = """
from geo.bench.district import exchange_of
"""
YEAR = """
from geo.bench.district import through_all
from geo.bench.orchards import made_season
season = made_season({count}, {days})
"""
DENSE_BLOCKS = 600  # the whole table of all with all takes seconds; it grows with the square


def lines(*, full: bool) -> Iterator[str]:
    """
    Time the exchange of spores and the layers of all diseases, each in a process of its own.

    Parameters
    ----------
    full : bool
        With 5000 to 40 000 blocks, and 20 000 blocks for a year, instead of a tenth of each.

    Yields
    ------
    str
        What was found, a line each.
    """
    sizes = (5000, 10_000, 20_000, 40_000) if full else (500, 1000, 2000)
    taken = []
    for count in sizes:
        seconds, peak, _ = alone(prepare=BUILT, work=f"exchange_of({count})")
        taken.append(seconds)
        yield f"exchange of {count} blocks built : {seconds:.1f} s, peak memory {peak:.2f} GiB"
    growth = ", ".join(f"{after / before:.2g}" for before, after in pairwise(taken))
    yield f"    each doubling of the blocks multiplies the time by {growth}"
    for name in KERNELS:
        yield from _against_table(name)
    count, days = (20_000, 365) if full else (2000, 60)
    seconds, peak, before = alone(
        prepare=YEAR.format(count=count, days=days), work="through_all(season)"
    )
    yield (
        f"{count} blocks, {days} days, {len(DISEASES)} diseases with their neighbours : "
        f"{seconds:.1f} s, peak memory {peak:.2f} GiB, {before:.2f} GiB of it the season as read"
    )


def exchange_of(
    count: int, *, kernel: str = "two_dt", seed: int = SEED, all_near_pairs: int | None = None
) -> Exchange:
    """
    Return the exchange of spores between clustered blocks.

    Parameters
    ----------
    count : int
        Blocks.
    kernel : str
        Its name.
    seed : int
        Of the blocks.
    all_near_pairs : int or None
        Up to so many pairs all are worked one by one; None for the usual number.

    Returns
    -------
    Exchange
        All of them shed and receive.
    """
    lie = outlines(*clustered(count, seed=seed))
    sides = ("edge_start_x", "edge_start_y", "edge_end_x", "edge_end_y")
    options = {} if all_near_pairs is None else {"all_near_pairs": all_near_pairs}
    return exchange_between(
        (lie["point_x"], lie["point_y"]),
        point_block=lie["point_block"],
        point_share=lie["point_share"],
        edges=(lie[sides[0]], lie[sides[1]], lie[sides[2]], lie[sides[3]]),
        edge_source=lie["edge_source"],
        counts=(count, count),
        kernel=kernel_named(kernel),
        **options,
    )


def through_all(season: xr.Dataset) -> list[FloatArray]:
    """
    Run the layers of every disease, and keep the hazard to come only.

    Parameters
    ----------
    season : xarray.Dataset
        As `geo.bench.orchards.made_season` gives it.

    Returns
    -------
    list of ndarray
        [1] Hazard ahead of each disease, shape (block,).
    """
    season = DISPERSAL.add_to(season)
    found = []
    for disease in DISEASES:
        of_it = season_of_disease(season, disease.key)
        for layer in OF_A_DISEASE:
            of_it = layer.add_to(of_it)
        found.append(of_it.hazard_ahead.values)
    return found


def _against_table(kernel: str) -> Iterator[str]:
    """Hold near pairs and grid against the table of all with all, for two districts."""
    errors = []
    for seed in (SEED, SEED + 1):
        shed = np.random.default_rng(seed).beta(0.3, 2.0, DENSE_BLOCKS)
        table, grid = (
            exchange_of(DENSE_BLOCKS, kernel=kernel, seed=seed, all_near_pairs=pairs)
            for pairs in (DENSE_BLOCKS**2, 0)
        )
        (home, exact), (_, found) = table.received(shed), grid.received(shed)
        errors.append(np.abs((home + found) / (home + exact) - 1.0))
    error = np.concatenate(errors)
    found_ratio = ratio(
        lambda: exchange_of(DENSE_BLOCKS, kernel=kernel, all_near_pairs=0),
        lambda: exchange_of(DENSE_BLOCKS, kernel=kernel, all_near_pairs=DENSE_BLOCKS**2),
        pairs=2,
    )
    yield f"{kernel}, {DENSE_BLOCKS} blocks, near pairs and grid : table of all = {found_ratio}"
    yield (
        f"    relative error of what arrives: median {np.median(error):.1e}, "
        f"p99 {np.quantile(error, 0.99):.1e}, largest {error.max():.1e}"
    )
