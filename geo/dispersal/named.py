"""Which kernel carries the spores of a disease, with which size?"""

from collections.abc import Callable

from geo.dispersal.kernels import Kernel, exponential_kernel, power_law_kernel, two_dt_kernel
from geo.reference.number import values

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
