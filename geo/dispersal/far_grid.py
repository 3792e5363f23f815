"""What arrives from far away? Spores laid on a coarse grid, sent by one convolution a day."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy import fft
from scipy.sparse import csr_array

from geo.arrays import AnyArray, FloatArray
from geo.dispersal.kernels import Kernel
from geo.season.sectors import FULL_CIRCLE_DEGREES, sector_of

# The grid's cells, as a share of the softening distance (our choice, measured in geo/bench):
# the softened kernel has no shape finer than that distance.
CELLS_A_DISTANCE = 6.0
# Relative step of the numerical derivatives of the kernel in squared distance.
DERIVATIVE_STEP = 1e-3
SectorArray = NDArray[np.uint8]
STENCIL = np.arange(-1, 3)  # cubic interpolation takes four knots a side
CORES = 2  # of the least machine we know; the result does not depend on it


@dataclass(frozen=True)
class SoftKernel:
    """
    A kernel without its peak: the kernel itself from a distance on, and a parabola within.

    Attributes
    ----------
    kernel : Kernel
        The kernel.
    distance : float
        [m] Where the parabola in squared distance meets the kernel, with two derivatives.
    """

    kernel: Kernel
    distance: float

    def density(self, distance: FloatArray) -> FloatArray:
        """
        Return the softened density.

        Parameters
        ----------
        distance : [m]
            Any shape.

        Returns
        -------
        [m-2]
            Never above the kernel.
        """
        value, slope, bend = self._derivatives
        beyond = np.minimum(distance**2 - self.distance**2, 0.0)
        inside = value + beyond * (slope + 0.5 * bend * beyond)
        soft: FloatArray = np.where(distance < self.distance, inside, self.kernel.density(distance))
        return soft

    @cached_property
    def _derivatives(self) -> tuple[float, float, float]:
        squared = self.distance**2
        step = DERIVATIVE_STEP * squared
        low, mid, high = self.kernel.density(np.sqrt(squared + step * np.array([-1.0, 0.0, 1.0])))
        return float(mid), float((high - low) / (2 * step)), float((high - 2 * mid + low) / step**2)

    def turning(self, distance: FloatArray) -> FloatArray:
        """
        Return how much of the softened density follows the wind.

        Parameters
        ----------
        distance : [m]
            Any shape.

        Returns
        -------
        [1]
            From 0 at half the softening distance smoothly to 1 at all of it.
        """
        # Near offset 0 a compass has no direction that knots of a grid could carry.
        ratio = np.clip(2.0 * distance / self.distance - 1.0, 0.0, 1.0)
        # The cubic that is level at both ends.
        turning: FloatArray = ratio**2 * (3.0 - 2.0 * ratio)
        return turning


@dataclass(frozen=True)
class FarGrid:
    """
    The far part of an exchange.

    Attributes
    ----------
    laid : scipy.sparse.csr_array
        Shape (source, cell): each source's area on the grid, m2.
    read : scipy.sparse.csr_array
        Shape (block, cell): weights that read a block's density off the grid.
    shape : tuple of int
        Rows and columns of the grid.
    cell : float
        [m] Side of a cell.
    soft : SoftKernel
        What is sent.
    sector_weight : numpy.ndarray or None
        Weight of spores that fly with the wind from each sector, mean 1; None for no direction.
    """

    laid: csr_array
    read: csr_array
    shape: tuple[int, int]
    cell: float
    soft: SoftKernel
    sector_weight: FloatArray | None = None

    @cached_property
    def _transformed(self) -> AnyArray:
        rows, columns = (
            np.fft.fftfreq(size, 1.0 / size).astype(np.float64) * self.cell for size in self._padded
        )
        distance = np.hypot(rows[:, None], columns)
        density = self.soft.density(distance)
        if self.sector_weight is not None:
            weight = self.sector_weight[sector_from(columns[None, :], rows[:, None])]
            density = density * (1.0 + (weight - 1.0) * self.soft.turning(distance))
        transformed: AnyArray = fft.rfft2(density)
        return transformed

    @property
    def _padded(self) -> tuple[int, int]:
        return tuple(fft.next_fast_len(2 * size, real=True) for size in self.shape)

    def received(self, sporulating: FloatArray) -> FloatArray:
        """
        Return what each block receives.

        Parameters
        ----------
        sporulating : [1]
            Shape (source,).

        Returns
        -------
        [1]
            Shape (block,).
        """
        received: FloatArray = self.read @ self._sent(self.laid.T @ sporulating, self._transformed)
        return received

    def given_back(self, weight: FloatArray) -> FloatArray:
        """
        Return the weighted sum over blocks of what each source gives: the transpose.

        Parameters
        ----------
        weight : [1]
            Shape (block,).

        Returns
        -------
        [1]
            Shape (source,).
        """
        given: FloatArray = self.laid @ self._sent(self.read.T @ weight, np.conj(self._transformed))
        return given

    def _sent(self, laid: FloatArray, transformed: AnyArray) -> FloatArray:
        spectrum = fft.rfft2(laid.reshape(self.shape), self._padded, workers=CORES) * transformed
        sent: FloatArray = fft.irfft2(spectrum, self._padded, workers=CORES)
        return sent[: self.shape[0], : self.shape[1]].ravel()


def sector_from(east: FloatArray, north: FloatArray) -> SectorArray:
    """
    Return the sector of the wind that carries spores along an offset.

    Parameters
    ----------
    east, north : [m]
        From source to block.

    Returns
    -------
    [1]
        Index of the sector the wind comes from.
    """
    towards = np.degrees(np.arctan2(east, north))
    return sector_of(towards + FULL_CIRCLE_DEGREES / 2.0).astype(np.uint8)


def interpolation(
    points: FloatArray, *, west: float, south: float, cell: float, shape: tuple[int, int]
) -> csr_array:
    """
    Return the weights that read outlines off a grid: the mean of cubic interpolation.

    Parameters
    ----------
    points : [m]
        Shape (outline, point, 2); two cells or more inside the grid.
    west, south : [m]
        First knot of the grid.
    cell : [m]
        Distance between knots.
    shape : [1]
        Rows and columns.

    Returns
    -------
    scipy.sparse.csr_array
        Shape (outline, cell).
    """
    place = (points - np.array([west, south])) / cell
    knot = np.floor(place).astype(np.int64)
    weight = _cubic(place - knot)
    column, row = (knot[..., k, None] + STENCIL for k in (0, 1))
    cells = (row[..., :, None] * shape[1] + column[..., None, :]).ravel()
    value = (weight[..., 1, :, None] * weight[..., 0, None, :] / points.shape[1]).ravel()
    outline = np.repeat(np.arange(points.shape[0]), cells.size // points.shape[0])
    size = (points.shape[0], shape[0] * shape[1])
    read = csr_array((value, (outline, cells)), shape=size)
    read.sum_duplicates()
    return read


def _cubic(part: FloatArray) -> FloatArray:
    """Return Lagrange's weights of four knots at -1, 0, 1 and 2."""
    p = part
    # Each is 1 at its own knot and 0 at the other three.
    return np.stack(
        [
            -p * (p - 1.0) * (p - 2.0) / 6.0,
            (p + 1.0) * (p - 1.0) * (p - 2.0) / 2.0,
            -(p + 1.0) * p * (p - 2.0) / 2.0,
            (p + 1.0) * p * (p - 1.0) / 6.0,
        ],
        axis=-1,
    )
