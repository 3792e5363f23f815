"""Which exchange does a season have, and how does the season hold it?"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import xarray as xr

from geo.arrays import AnyArray
from geo.dispersal.exchange import Exchange
from geo.dispersal.kernels import Kernel
from geo.dispersal.named import kernel_named, splash_kernel
from geo.dispersal.near import has_far_part
from geo.dispersal.outline_points import outlines_of
from geo.dispersal.pair_share import Edges
from geo.dispersal.pairing import (
    ALL_NEAR_PAIRS,
    exchange_between,
    exchange_from,
    far_grid,
)
from geo.dispersal.wind_rose import sector_weights
from geo.reference.diseases import disease_with
from geo.reference.number import values
from geo.season import variables as v
from geo.season.days import day_starts
from geo.season.disease import disease_key
from geo.season.variable import Variable

SIDES = (v.EDGE_START_X, v.EDGE_START_Y, v.EDGE_END_X, v.EDGE_END_Y)
OUTLINES = (v.EDGE_SOURCE, *SIDES)


@dataclass(frozen=True, slots=True)
class Way:
    """
    One way that spores travel, and the variables that hold its near pairs.

    Attributes
    ----------
    block, source, share : Variable
        Of each pair.
    soft : tuple of Variable
        What of it the grid carries, if any: the still and the turning part.
    """

    block: Variable
    source: Variable
    share: Variable
    soft: tuple[Variable, ...]

    @property
    def variables(self) -> tuple[Variable, ...]:
        """
        Return all of its variables.

        Returns
        -------
        tuple of Variable
            In the order of the attributes.
        """
        return (self.block, self.source, self.share, *self.soft)


WIND = Way(
    v.WIND_PAIR_BLOCK,
    v.WIND_PAIR_SOURCE,
    v.WIND_PAIR_SHARE,
    (v.WIND_PAIR_STILL, v.WIND_PAIR_TURNING),
)
# Splash ends within metres: no grid carries any of it.
SPLASH = Way(v.SPLASH_PAIR_BLOCK, v.SPLASH_PAIR_SOURCE, v.SPLASH_PAIR_SHARE, ())


def kernel_of(season: xr.Dataset, way: Way) -> Kernel:
    """
    Return the kernel of a way.

    Parameters
    ----------
    season : xarray.Dataset
        With the name of the wind's kernel among its attributes.
    way : Way
        On the wind, or in splashing rain.

    Returns
    -------
    Kernel
        Ready to use.
    """
    return splash_kernel() if way is SPLASH else kernel_named(season.attrs["kernel"])


def exchange_of(season: xr.Dataset, kernel: Kernel) -> Exchange:
    """
    Return how spores travel between the outlines of a season.

    Parameters
    ----------
    season : xarray.Dataset
        With the edges of sources and the points of blocks.
    kernel : Kernel
        Where spores of the disease go.

    Returns
    -------
    Exchange
        The same for all days.
    """
    return exchange_between(
        (season.point_x.values, season.point_y.values),
        point_block=season.point_block.values,
        point_share=season.point_share.values,
        edges=_edges(season),
        edge_source=season.edge_source.values,
        counts=(season.sizes["block"], season.sizes["source"]),
        kernel=kernel,
    )


def pairs_of(season: xr.Dataset, way: Way) -> dict[Variable, AnyArray]:
    """
    Return the near pairs of a way, as the season holds them.

    Parameters
    ----------
    season : xarray.Dataset
        As for `exchange_of`.
    way : Way
        On the wind, or in splashing rain.

    Returns
    -------
    dict of Variable to numpy.ndarray
        Pairs that give nothing are left out, but for a block with itself.
    """
    exchange = exchange_of(season, kernel_of(season, way))
    soft = (exchange.still, exchange.turning)[: len(way.soft)]
    kept = exchange.is_home | (exchange.share > 0) | np.any([part != 0 for part in soft], axis=0)
    parts = (exchange.pair_block, exchange.source, exchange.share, *soft)
    return {variable: part[kept] for variable, part in zip(way.variables, parts, strict=True)}


def exchange_in(season: xr.Dataset) -> Exchange:
    """
    Return how spores of the season's disease travel, from the pairs the season holds.

    Parameters
    ----------
    season : xarray.Dataset
        After the dispersal layer.

    Returns
    -------
    Exchange
        As `exchange_of` gives it. The integrals of near pairs are done; only the grid, which
        costs little, is laid anew.
    """
    is_splashed = disease_with(disease_key(season)).agent == "anthracnose"
    way = SPLASH if is_splashed else WIND
    counts = (season.sizes["block"], season.sizes["source"])
    outlines = outlines_of(
        _edges(season), season.edge_source.values, outline_count=season.sizes["source"]
    )
    kernel = kernel_of(season, way)
    has_far = counts[0] * counts[1] > ALL_NEAR_PAIRS and has_far_part(kernel)
    far = far_grid(outlines, block_count=counts[0], kernel=kernel) if has_far else None
    block, source, share, *soft = (season[variable.name].values for variable in way.variables)
    still_and_turning = (soft[0], soft[1]) if soft else None
    return exchange_from(outlines, (block, source), share, still_and_turning, counts, far)


def exchange_by_day(season: xr.Dataset) -> Callable[[int], Exchange]:
    """
    Return how spores of the season's disease travel on each day.

    Parameters
    ----------
    season : xarray.Dataset
        After the dispersal layer; with ``wind_rose`` among its attributes, if directions count.

    Returns
    -------
    callable
        Index of a day in, exchange out: always the same one, unless the wind of the hours in
        which spores fly turns it. Splashed conidia know no wind.
    """
    exchange = exchange_in(season)
    is_splashed = disease_with(disease_key(season)).agent == "anthracnose"
    if is_splashed or not season.attrs.get("wind_rose", False):
        return lambda _: exchange
    weights = sector_weights(
        season.wind_from_direction.values,
        season.precipitation.values,
        starts=day_starts(season.hour_day.values),
        **values("dispersal", "release"),
    )
    return lambda day: exchange.turned(weights[day])


def _edges(season: xr.Dataset) -> Edges:
    start_x, start_y, end_x, end_y = (season[edge.name].values for edge in SIDES)
    return start_x, start_y, end_x, end_y
