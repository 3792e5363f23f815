"""How far spores go: density on the ground and share within a distance, in the plane."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray


@dataclass(frozen=True, slots=True)
class Kernel:
    """
    A radial dispersal kernel.

    Attributes
    ----------
    name : str
        As in the settings.
    scale : float
        [m] Its length.
    density : callable
        Distance [m] to share per square metre [m-2]; integrates to 1 over the plane.
    mass_within : callable
        Distance [m] to the share that lands within it.
    """

    name: str
    scale: float
    density: Callable[[FloatArray], FloatArray]
    mass_within: Callable[[FloatArray], FloatArray]


def exponential_kernel(*, scale: float) -> Kernel:
    r"""
    Return the thin-tailed kernel of strong convection.

    Parameters
    ----------
    scale : [m]
        The mean distance is twice it.

    Returns
    -------
    Kernel
        :math:`k = e^{-r/a} / (2 \pi a^2)`, :math:`F = 1 - (1 + r/a) e^{-r/a}` (nathan2012).
    """

    def density(distance: FloatArray) -> FloatArray:
        share: FloatArray = np.exp(-distance / scale) / (2.0 * np.pi * scale**2)
        return share

    def mass_within(distance: FloatArray) -> FloatArray:
        ratio = distance / scale
        share: FloatArray = 1.0 - (1.0 + ratio) * np.exp(-ratio)
        return share

    return Kernel("exponential", scale, density, mass_within)


def two_dt_kernel(*, scale: float, shape: float) -> Kernel:
    r"""
    Return the fat-tailed kernel: most spores fall near, a few go far.

    Parameters
    ----------
    scale : [m]
        With shape 2, half of all lands within it.
    shape : [1]
        Above 1; the smaller, the fatter the tail.

    Returns
    -------
    Kernel
        :math:`k = \frac{b-1}{\pi a^2} (1 + r^2/a^2)^{-b}`,
        :math:`F = 1 - (1 + r^2/a^2)^{1-b}` (clark1999).
    """

    def density(distance: FloatArray) -> FloatArray:
        share: FloatArray = (
            (shape - 1.0) / (np.pi * scale**2) * (1.0 + (distance / scale) ** 2) ** -shape
        )
        return share

    def mass_within(distance: FloatArray) -> FloatArray:
        share: FloatArray = 1.0 - (1.0 + (distance / scale) ** 2) ** (1.0 - shape)
        return share

    return Kernel("two_dt", scale, density, mass_within)


def power_law_kernel(*, scale: float, shape: float) -> Kernel:
    r"""
    Return the kernel of a power law: a sharp peak and the fattest tail of the three.

    Parameters
    ----------
    scale : [m]
        With shape 3.5 the mean distance is four times it.
    shape : [1]
        Above 2; the smaller, the fatter the tail.

    Returns
    -------
    Kernel
        :math:`k = \frac{(b-1)(b-2)}{2 \pi c^2} (1 + r/c)^{-b}`,
        :math:`F = 1 - (1 + r/c)^{1-b} (1 + (b-1) r/c)` (nathan2012).
    """

    def density(distance: FloatArray) -> FloatArray:
        peak = (shape - 1.0) * (shape - 2.0) / (2.0 * np.pi * scale**2)
        share: FloatArray = peak * (1.0 + distance / scale) ** -shape
        return share

    def mass_within(distance: FloatArray) -> FloatArray:
        ratio = distance / scale
        share: FloatArray = 1.0 - (1.0 + ratio) ** (1.0 - shape) * (1.0 + (shape - 1.0) * ratio)
        return share

    return Kernel("power_law", scale, density, mass_within)
