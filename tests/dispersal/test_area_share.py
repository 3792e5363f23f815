"""Shares of spores landing in outlines: quadrature, additivity and symmetry."""

from math import atan, pi, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import dblquad

from geo.dispersal import area_share
from geo.dispersal.area_share import mean_over_points, share_landing
from geo.dispersal.kernels import Kernel, exponential_kernel, two_dt_kernel

TWO_DT, EXPONENTIAL = two_dt_kernel(scale=150.0, shape=2.0), exponential_kernel(scale=150.0)
Ring = list[tuple[float, float]]


def rectangle(west: float, south: float, east: float, north: float) -> Ring:
    return [(west, south), (east, south), (east, north), (west, north)]


def shares(points: Ring, outlines: list[list[Ring]], kernel: Kernel) -> np.ndarray:
    """Return the share of each point that lands in each outline, given as its rings."""
    start, end, owner = [], [], []
    for number, rings in enumerate(outlines):
        for ring in rings:
            start += ring
            end += ring[1:] + ring[:1]
            owner += [number] * len(ring)
    start_x, start_y = np.array(start, dtype=float).T
    end_x, end_y = np.array(end, dtype=float).T
    x, y = np.array(points, dtype=float).T
    return share_landing(
        x,
        y,
        edges=(start_x, start_y, end_x, end_y),
        edge_outline=np.array(owner),
        outline_count=len(outlines),
        kernel=kernel,
    )


def by_quadrature(outline: tuple[float, float, float, float], kernel: Kernel) -> float:
    west, south, east, north = outline
    return dblquad(
        lambda y, x: float(kernel.density(np.array(np.hypot(x, y)))),
        west,
        east,
        south,
        north,
        epsabs=1e-11,
        epsrel=1e-11,
    )[0]


@pytest.mark.published("clark1999", "2Dt over a square; closed form and quadrature, computed")
def test_two_dt_share_of_a_square_beside_the_source() -> None:
    square = (100.0, 50.0, 300.0, 250.0)
    found = shares([(0.0, 0.0)], [[rectangle(*square)]], TWO_DT)[0, 0]
    assert found == pytest.approx(0.048260071334786, abs=1e-12)
    assert found == pytest.approx(by_quadrature(square, TWO_DT), abs=1e-9)
    corners = [corner(x, y) for x, y in ((300, 250), (100, 250), (300, 50), (100, 50))]
    assert found == pytest.approx(corners[0] - corners[1] - corners[2] + corners[3], abs=1e-12)


def corner(x: float, y: float, a: float = 150.0) -> float:
    """Return the share of the 2Dt kernel of shape 2 between the axes and a corner."""
    along, up = sqrt(x**2 + a**2), sqrt(y**2 + a**2)
    return (x / along * atan(y / along) + y / up * atan(x / up)) / (2.0 * pi)


@pytest.mark.published("nathan2012", "exponential over a square, computed by quadrature")
def test_exponential_share_of_a_square_beside_the_source() -> None:
    square = (100.0, 50.0, 300.0, 250.0)
    found = shares([(0.0, 0.0)], [[rectangle(*square)]], EXPONENTIAL)[0, 0]
    assert found == pytest.approx(0.05509187495, abs=1e-10)
    assert found == pytest.approx(by_quadrature(square, EXPONENTIAL), abs=1e-9)


@pytest.mark.published("clark1999", "2Dt over a square around the source, computed")
def test_self_share_of_a_square_around_its_source() -> None:
    found = shares([(0.0, 0.0)], [[rectangle(-100, -100, 100, 100)]], TWO_DT)[0, 0]
    assert found == pytest.approx(0.3576847, abs=5e-8)
    assert found == pytest.approx(4.0 * corner(100.0, 100.0), abs=1e-9)


def test_a_hole_is_taken_out_and_parts_are_put_together() -> None:
    outer, hole = rectangle(0, 0, 400, 300), rectangle(100, 100, 200, 200)
    apart = rectangle(600, -50, 700, 80)
    points = [(20.0, 20.0), (150.0, 150.0), (-200.0, 700.0)]
    whole, inside, other, with_hole, of_two_parts = shares(
        points, [[outer], [hole], [apart], [outer, hole[::-1]], [outer, apart]], TWO_DT
    ).T
    np.testing.assert_allclose(with_hole, whole - inside, atol=1e-9)
    np.testing.assert_allclose(of_two_parts, whole + other, atol=1e-12)


@settings(max_examples=40)
@given(
    cut=st.floats(10.0, 390.0),
    x=st.floats(-600.0, 900.0),
    y=st.floats(-600.0, 900.0),
    kernel=st.sampled_from([TWO_DT, EXPONENTIAL, exponential_kernel(scale=30.0)]),
)
def test_an_outline_cut_in_two_adds_up(cut: float, x: float, y: float, kernel: Kernel) -> None:
    outlines = [
        [rectangle(0, 0, 400, 250)],
        [rectangle(0, 0, cut, 250)],
        [rectangle(cut, 0, 400, 250)],
    ]
    whole, left, right = shares([(x, y)], outlines, kernel)[0]
    assert whole == pytest.approx(left + right, abs=2e-6)


@pytest.mark.parametrize(
    "kernel", [exponential_kernel(scale=50.0), two_dt_kernel(scale=50, shape=2)]
)
@pytest.mark.parametrize("place", [(50.0, 50.0), (-2.0, 100.0), (-20.0, 1000.0)])
def test_edges_far_longer_than_the_kernel_cost_no_digits(kernel: Kernel, place) -> None:
    square = rectangle(0, 0, 2000, 2000)
    finely = [
        (x0 + (x1 - x0) * part / 200, y0 + (y1 - y0) * part / 200)
        for (x0, y0), (x1, y1) in zip(square, square[1:] + square[:1], strict=True)
        for part in range(200)
    ]
    coarse, fine = shares([place], [[square], [finely]], kernel)[0]
    assert coarse == pytest.approx(fine, rel=2e-6)


def sampled(west: float, south: float, east: float, north: float, *, side: int) -> Ring:
    across = west + (east - west) * (np.arange(side) + 0.5) / side
    up = south + (north - south) * (np.arange(side) + 0.5) / side
    return [(x, y) for x in across for y in up]


def mean_share(receiver: tuple, source: tuple, kernel: Kernel, *, side: int = 24) -> float:
    by_point = shares(sampled(*receiver, side=side), [[rectangle(*source)]], kernel)
    count = side**2
    block, weight = np.zeros(count, dtype=np.int64), np.full(count, 1.0 / count)
    return float(mean_over_points(by_point, block, weight, block_count=1)[0, 0])


@pytest.mark.parametrize("kernel", [TWO_DT, exponential_kernel(scale=50.0)])
def test_what_a_gives_b_over_areas_is_what_b_gives_a(kernel: Kernel) -> None:
    small, large = (0.0, 0.0, 100.0, 80.0), (160.0, -50.0, 460.0, 250.0)
    forth = 100.0 * 80.0 * mean_share(small, large, kernel, side=48)
    back = 300.0 * 300.0 * mean_share(large, small, kernel, side=48)
    assert forth == pytest.approx(back, rel=1e-3)


@pytest.mark.published("nathan2012", "exponential, 50 m, between 1 ha squares; computed")
@pytest.mark.parametrize(("gap", "share"), [(0.0, 0.0966), (50.0, 0.0385)])
def test_squares_of_a_hectare_side_by_side(gap: float, share: float) -> None:
    kernel = exponential_kernel(scale=50.0)
    found = mean_share((0, 0, 100, 100), (100 + gap, 0, 200 + gap, 100), kernel)
    assert found == pytest.approx(share, abs=5e-5)


@settings(max_examples=30)
@given(turn=st.floats(0.0, 2 * pi), x=st.floats(-900.0, 900.0), y=st.floats(-900.0, 900.0))
def test_turning_and_moving_everything_changes_nothing(turn: float, x: float, y: float) -> None:
    def moved(place: tuple[float, float]) -> tuple[float, float]:
        east, north = place
        return (
            x + east * np.cos(turn) - north * np.sin(turn),
            y + east * np.sin(turn) + north * np.cos(turn),
        )

    square = rectangle(0, 0, 200, 200)
    here = shares([(250.0, 90.0)], [[square]], TWO_DT)[0, 0]
    there = shares([moved((250.0, 90.0))], [[list(map(moved, square))]], TWO_DT)[0, 0]
    assert there == pytest.approx(here, abs=1e-9)


def test_a_source_on_a_corner_is_finite_and_a_quarter_of_its_surroundings() -> None:
    square = [[rectangle(0, 0, 200, 200)]]
    on_corner = shares([(0.0, 0.0)], square, TWO_DT)[0, 0]
    around = shares([(0.0, 0.0)], [[rectangle(-200, -200, 200, 200)]], TWO_DT)[0, 0]
    assert on_corner == pytest.approx(around / 4.0, rel=1e-9)


def test_many_points_are_worked_off_in_portions(monkeypatch: pytest.MonkeyPatch) -> None:
    points = sampled(0, 0, 300, 300, side=5)
    outlines = [[rectangle(0, 0, 100, 100)], [rectangle(150, 0, 300, 200)]]
    at_once = shares(points, outlines, TWO_DT)
    monkeypatch.setattr(area_share, "PAIRS_AT_ONCE", 20)
    np.testing.assert_array_equal(shares(points, outlines, TWO_DT), at_once)
