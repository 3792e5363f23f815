"""The dispersal layer of the season."""

from collections.abc import Callable

import numpy as np
import xarray as xr

from geo.arrays import FloatArray
from geo.dispersal.area_share import mean_over_points, share_landing
from geo.dispersal.kernels import Kernel, exponential_kernel, two_dt_kernel
from geo.dispersal.sporulation import infected_share, sporulating_share
from geo.reference.number import values
from geo.season import variables as v
from geo.season.layer import Layer
from geo.season.today import today_index
from geo.season.visits import looks

KERNELS: dict[str, Callable[..., Kernel]] = {
    "two_dt": two_dt_kernel,
    "exponential": exponential_kernel,
}


def kernel_named(name: str) -> Kernel:
    """
    Return a kernel with the reference table's sizes.

    Parameters
    ----------
    name : str
        One of `KERNELS`.

    Returns
    -------
    Kernel
        Ready to use.
    """
    return KERNELS[name](**values("dispersal", name))


def _compute(season: xr.Dataset) -> xr.Dataset:
    mildew = values("mildew", "panicle mildew")
    background = mildew["background_inoculum"]
    block_count = season.sizes["block"]
    exchange = _exchange(season)
    sporulating = _sporulating(season, mildew)
    # Spores need a night to arrive and to show: yesterday's sources feed today.
    yesterday = np.concatenate([sporulating[:, :1], sporulating[:, :-1]], axis=1)
    own = np.arange(block_count)
    home = exchange[own, own][:, None] * yesterday[:block_count]
    incoming = exchange @ yesterday - home
    today = today_index(season)
    received = exchange * yesterday[None, :, today]
    total = received.sum(axis=1, keepdims=True) + background
    return xr.Dataset(
        {
            v.SPORULATING.name: (v.SPORULATING.dims, sporulating),
            v.ARRIVAL_SHARE.name: (v.ARRIVAL_SHARE.dims, received / total),
            v.HOME_INOCULUM.name: (
                v.HOME_INOCULUM.dims,
                1.0 + home / background,
            ),
            v.INCOMING_INOCULUM.name: (
                v.INCOMING_INOCULUM.dims,
                np.maximum(incoming, 0.0) / background,
            ),
        }
    )


def _exchange(season: xr.Dataset) -> FloatArray:
    """Return what a block receives from each fully sporulating source, shape (block, source)."""
    names = (v.EDGE_START_X, v.EDGE_START_Y, v.EDGE_END_X, v.EDGE_END_Y)
    start_x, start_y, end_x, end_y = (season[edge.name].values for edge in names)
    by_point = share_landing(
        season.point_x.values,
        season.point_y.values,
        edges=(start_x, start_y, end_x, end_y),
        edge_outline=season.edge_source.values,
        outline_count=season.sizes["source"],
        kernel=kernel_named(season.attrs["kernel"]),
    )
    return mean_over_points(
        by_point,
        season.point_block.values,
        season.point_share.values,
        block_count=season.sizes["block"],
    )


def _sporulating(season: xr.Dataset, mildew: dict[str, float]) -> FloatArray:
    order = np.lexsort((season.visit_day.values, season.visit_block.values))
    source = season.visit_block.values[order].astype(np.int64)
    inspected = season.visit_inspected.values[order].astype(float)
    infected = season.visit_infected.values[order].astype(float)
    seen = looks(
        source,
        season.visit_day.values[order].astype(np.int64),
        subject_count=season.sizes["source"],
        day_count=season.sizes["day"],
    )
    is_own = source < season.sizes["block"]
    unseen_by_status = {
        "scouted": _mean_of_scouted(
            infected[is_own], inspected[is_own], otherwise=mildew["status_unknown"]
        ),
        "unknown": mildew["status_unknown"],
        "suspected": mildew["status_suspected"],
        "known": mildew["status_known"],
    }
    unseen = np.array([unseen_by_status[status] for status in season.source_status.values.tolist()])
    # Mildew of last season stands for panicles nobody has counted yet; a count replaces it.
    unseen[: season.sizes["block"]] += (
        mildew["carry_over_inoculum"] * season.had_mildew_last_season.values
    )
    return sporulating_share(seen, infected_share(infected, inspected), unseen)


def _mean_of_scouted(infected: FloatArray, inspected: FloatArray, *, otherwise: float) -> float:
    """Return the mean of the farm's own counts, which a block without one is taken to have."""
    if inspected.size == 0:
        return otherwise
    return float(infected_share(infected.sum(), inspected.sum()))


DISPERSAL = Layer(
    name="dispersal",
    question="whose spores arrive",
    needs=(
        v.EDGE_SOURCE,
        v.EDGE_START_X,
        v.EDGE_START_Y,
        v.EDGE_END_X,
        v.EDGE_END_Y,
        v.POINT_BLOCK,
        v.POINT_X,
        v.POINT_Y,
        v.POINT_SHARE,
        v.VISIT_BLOCK,
        v.VISIT_DAY,
        v.VISIT_INSPECTED,
        v.VISIT_INFECTED,
        v.SOURCE_STATUS,
        v.HAD_MILDEW_LAST_SEASON,
        v.HOUR_DAY,
        v.IS_FORECAST,
    ),
    gives=(v.SPORULATING, v.ARRIVAL_SHARE, v.HOME_INOCULUM, v.INCOMING_INOCULUM),
    compute=_compute,
)
