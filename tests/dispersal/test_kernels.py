"""Kernels: printed shares, and the density integrated by quadrature."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from geo.dispersal.kernels import (
    Kernel,
    exponential_kernel,
    power_law_kernel,
    two_dt_kernel,
)

KERNELS = [
    exponential_kernel(scale=150.0),
    two_dt_kernel(scale=150.0, shape=2.0),
    two_dt_kernel(scale=150.0, shape=1.5),
    power_law_kernel(scale=50.0, shape=3.5),
]
each_kernel = pytest.mark.parametrize(
    "kernel", KERNELS, ids=["exp", "2Dt b=2", "2Dt b=1.5", "power law"]
)
DISTANCES = np.array([150.0, 500.0, 1000.0])


def mass_by_quadrature(kernel: Kernel, distance: float) -> float:
    """Return the share within a distance from the density alone."""
    ring = lambda r: 2.0 * np.pi * r * float(kernel.density(np.array(r)))  # noqa: E731
    return quad(ring, 0.0, distance, epsabs=1e-13, limit=200)[0]


@pytest.mark.published("nathan2012", "exponential, formula from memory; values computed")
def test_exponential_shares_within_150_500_and_1000_metres() -> None:
    expected = [0.264241, 0.845413, 0.990243]
    np.testing.assert_allclose(KERNELS[0].mass_within(DISTANCES), expected, atol=5e-7)


@pytest.mark.published("clark1999", "2Dt, formula from memory; values computed")
def test_two_dt_shares_within_150_500_and_1000_metres() -> None:
    thin, fat = KERNELS[1].mass_within(DISTANCES), KERNELS[2].mass_within(DISTANCES)
    np.testing.assert_allclose(thin, [0.5, 0.917431, 0.977995], atol=5e-7)
    np.testing.assert_allclose(fat, [0.292893, 0.712652, 0.851660], atol=5e-7)


@pytest.mark.published("nathan2012", "inverse power, formula from memory; values computed")
def test_power_law_peak_and_shares_beyond_100_and_500_metres_and_2_km() -> None:
    kernel = power_law_kernel(scale=50.0, shape=3.5)
    beyond = 1.0 - kernel.mass_within(np.array([100.0, 500.0, 2000.0]))
    np.testing.assert_allclose(beyond, [0.38490, 0.06479, 0.00938], atol=5e-6)
    assert kernel.density(np.array(0.0)) == pytest.approx(2.38732e-4, rel=3e-6)
    fat = power_law_kernel(scale=20.0, shape=2.5)
    assert 1.0 - fat.mass_within(np.array(500.0)) == pytest.approx(0.2904, abs=5e-5)


@pytest.mark.published("nathan2012", "exponential with a = 0.02 /m, from memory; values computed")
def test_exponential_shares_beyond_100_and_500_metres() -> None:
    beyond = 1.0 - exponential_kernel(scale=50.0).mass_within(np.array([100.0, 500.0]))
    np.testing.assert_allclose(beyond, [0.40601, 0.00050], atol=5e-6)


@each_kernel
@pytest.mark.parametrize("distance", [1.0, *DISTANCES, 5000.0])
def test_share_within_is_the_integral_of_the_density(kernel: Kernel, distance: float) -> None:
    found = float(kernel.mass_within(np.array(distance)))
    assert found == pytest.approx(mass_by_quadrature(kernel, distance), abs=1e-10)


@each_kernel
def test_all_spores_land_somewhere(kernel: Kernel) -> None:
    assert kernel.mass_within(np.array(1e15)) == pytest.approx(1.0, abs=1e-6)


@pytest.mark.published("nathan2012", "mean distance 2a, median 1.6783 a; from memory")
def test_mean_and_median_of_the_exponential_kernel() -> None:
    kernel = exponential_kernel(scale=50.0)
    density = lambda r: 2.0 * np.pi * r**2 * float(kernel.density(np.array(r)))  # noqa: E731
    assert quad(density, 0.0, 5000.0)[0] == pytest.approx(100.0, rel=1e-6)
    assert kernel.mass_within(np.array(1.678347 * 50.0)) == pytest.approx(0.5, abs=1e-6)


@each_kernel
@settings(max_examples=30)
@given(near=st.floats(0.0, 5000.0), further=st.floats(0.0, 5000.0))
def test_further_is_never_denser_and_never_less_in_all(
    kernel: Kernel, near: float, further: float
) -> None:
    distance = np.array([near, near + further])
    assert np.diff(kernel.density(distance))[0] <= 0.0
    assert np.diff(kernel.mass_within(distance))[0] >= -1e-15


@each_kernel
def test_each_kind_of_array_is_taken(kernel: Kernel, as_array) -> None:
    found = kernel.mass_within(as_array(DISTANCES))
    np.testing.assert_allclose(found, kernel.mass_within(DISTANCES), rtol=1e-6)
    assert (kernel.density(as_array([0.0, 100.0])) > 0.0).all()
