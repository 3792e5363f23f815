"""The dispersal layer of the season: how spores travel between the outlines on the map."""

from collections.abc import Callable

import xarray as xr

from geo.arrays import FloatArray
from geo.dispersal.area_share import mean_over_points, share_landing
from geo.dispersal.kernels import Kernel, exponential_kernel, power_law_kernel, two_dt_kernel
from geo.reference.diseases import disease_with
from geo.reference.number import values
from geo.season import variables as v
from geo.season.disease import disease_key
from geo.season.layer import Layer

# Spores on the wind; the user may choose.
KERNELS: dict[str, Callable[..., Kernel]] = {
    "two_dt": two_dt_kernel,
    "exponential": exponential_kernel,
    "power_law": power_law_kernel,
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


def splash_kernel() -> Kernel:
    """
    Return how far rain splashes conidia, which no wind carries.

    Returns
    -------
    Kernel
        Thin-tailed, a few metres wide: only the next trees are within reach (fitzell1984).
    """
    return exponential_kernel(**values("dispersal", "splash"))


def _compute(season: xr.Dataset) -> xr.Dataset:
    is_splashed = disease_with(disease_key(season)).agent == "anthracnose"
    kernel = splash_kernel() if is_splashed else kernel_named(season.attrs["kernel"])
    return xr.Dataset({v.SPORE_EXCHANGE.name: (v.SPORE_EXCHANGE.dims, _exchange(season, kernel))})


def _exchange(season: xr.Dataset, kernel: Kernel) -> FloatArray:
    """Return what a block receives from each fully sporulating source, shape (block, source)."""
    names = (v.EDGE_START_X, v.EDGE_START_Y, v.EDGE_END_X, v.EDGE_END_Y)
    start_x, start_y, end_x, end_y = (season[edge.name].values for edge in names)
    by_point = share_landing(
        season.point_x.values,
        season.point_y.values,
        edges=(start_x, start_y, end_x, end_y),
        edge_outline=season.edge_source.values,
        outline_count=season.sizes["source"],
        kernel=kernel,
    )
    return mean_over_points(
        by_point,
        season.point_block.values,
        season.point_share.values,
        block_count=season.sizes["block"],
    )


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
    ),
    gives=(v.SPORE_EXCHANGE,),
    compute=_compute,
)
