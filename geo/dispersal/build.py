"""Which exchange does a season have?"""

import xarray as xr

from geo.dispersal.exchange import Exchange
from geo.dispersal.kernels import Kernel
from geo.dispersal.pairing import exchange_between
from geo.season import variables as v

SIDES = (v.EDGE_START_X, v.EDGE_START_Y, v.EDGE_END_X, v.EDGE_END_Y)


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
    start_x, start_y, end_x, end_y = (season[edge.name].values for edge in SIDES)
    return exchange_between(
        (season.point_x.values, season.point_y.values),
        point_block=season.point_block.values,
        point_share=season.point_share.values,
        edges=(start_x, start_y, end_x, end_y),
        edge_source=season.edge_source.values,
        counts=(season.sizes["block"], season.sizes["source"]),
        kernel=kernel,
    )
