"""Two blocks: the worked example, and ratios that multiply out."""

from math import log, prod

import numpy as np
import pytest
import xarray as xr
from hypothesis import given
from hypothesis import strategies as st

from geo.ranking.comparison import compare
from geo.ranking.factors import FACTORS, factor_table

NAMES = [factor.name for factor in FACTORS]
# Site weather, cool pool, cultivar, stage, age, home inoculum, neighbours, unprotected share.
BLOCK_7 = (0.50, 1.30, 1.0, 1.0, 1.0, 0.04, 1.25, 0.80)
BLOCK_3 = (0.50, 1.00, 0.6, 0.7, 0.9, 0.03, 1.05, 0.35)


def ranked(rows: np.ndarray, hazard: np.ndarray | None = None) -> xr.Dataset:
    blocks = [f"B{number}" for number in range(len(rows))]
    return xr.Dataset(
        {
            "factors": (("block", "factor"), rows),
            "hazard_ahead": ("block", rows.prod(axis=1) if hazard is None else hazard),
            "days_since_look": ("block", np.arange(float(len(rows)))),
        },
        coords={"block": blocks, "factor": NAMES},
    )


def of_three_days(factors: tuple[float, ...]) -> dict[str, np.ndarray]:
    """Return arrays over three unequal days that have the given factors."""
    site, pool, _, stage, _, home, neighbours, unprotected = factors
    swing = np.array([[0.8, 1.0, 1.2]])
    return {
        "site_favourability": site * swing,
        "favourability": site * pool * swing,
        "stage": np.full((1, 3), stage),
        "home": np.full((1, 3), home),
        "incoming": np.full((1, 3), home * (neighbours - 1.0)),
        "protection": np.full((1, 3), 1.0 - unprotected),
    }


def worked() -> xr.Dataset:
    rows = [
        factor_table(
            **of_three_days(factors),
            constant_susceptibility=(np.array([factors[2]]), np.array([factors[4]])),
        )
        for factors in (BLOCK_7, BLOCK_3)
    ]
    return ranked(np.concatenate(rows))


@pytest.mark.frozen(
    "our own numbers, not an outside check: worked example of two blocks, computed by hand: 12.48"
)
def test_the_worked_example_of_two_blocks() -> None:
    season = worked()
    np.testing.assert_allclose(season.factors.values, [BLOCK_7, BLOCK_3], rtol=1e-12)
    found = compare(season, "B0", "B1")
    assert found.ratio == pytest.approx(12.48, abs=5e-3)
    # The hazard of three days at 0.8 a day in perfect conditions, as a sum.
    assert 3 * 0.8 * found.hazard == pytest.approx(0.0624, abs=5e-5)
    assert 3 * 0.8 * found.against_hazard == pytest.approx(0.0050, abs=5e-5)
    ratios = [1.00, 1.30, 1.67, 1.43, 1.11, 1.33, 1.19, 2.29]
    shares = [0.0, 10.4, 20.2, 14.1, 4.2, 11.4, 6.9, 32.8]
    np.testing.assert_allclose([row.ratio for row in found.rows], ratios, atol=5e-3)
    np.testing.assert_allclose([100 * row.share for row in found.rows], shares, atol=0.05)


positive = st.lists(st.floats(1e-3, 50.0), min_size=8, max_size=8)


@given(first=positive, second=positive)
def test_the_ratios_multiply_to_the_ratio_of_the_hazards(first, second) -> None:
    found = compare(ranked(np.array([first, second])), "B0", "B1")
    assert prod(row.ratio for row in found.rows) == pytest.approx(found.ratio, rel=1e-12)
    back = compare(ranked(np.array([first, second])), "B1", "B0")
    assert back.ratio == pytest.approx(1.0 / found.ratio, rel=1e-12)
    if abs(log(found.ratio)) > 1e-6:
        assert sum(row.share for row in found.rows) == pytest.approx(1.0, rel=1e-6)


def test_a_block_against_itself_is_one_without_shares() -> None:
    found = compare(ranked(np.array([BLOCK_7])), "B0", "B0")
    assert found.ratio == 1.0
    assert all(row.ratio == 1.0 and np.isnan(row.share) for row in found.rows)


@pytest.mark.parametrize("hazard", [0.0, np.nan])
def test_against_a_block_of_no_or_unknown_hazard_there_is_no_ratio(hazard: float) -> None:
    rows = np.array([BLOCK_7, (hazard, *BLOCK_3[1:])])
    found = compare(ranked(rows), "B0", "B1")
    assert np.isnan(found.ratio)
    assert np.isnan(found.rows[0].ratio)
    assert found.rows[1].ratio == pytest.approx(1.3)


def test_a_block_of_no_hazard_is_nought_times_another() -> None:
    rows = np.array([(*BLOCK_7[:3], 0.0, *BLOCK_7[4:]), BLOCK_3])
    found = compare(ranked(rows), "B0", "B1")
    assert found.ratio == 0.0
    assert found.rows[3].ratio == 0.0
    assert all(np.isnan(row.share) for row in found.rows)


def test_a_count_is_measured_only_where_both_blocks_were_counted() -> None:
    season = ranked(np.array([BLOCK_7, BLOCK_3]))
    home = NAMES.index("home inoculum")
    assert compare(season, "B0", "B1").rows[home].standing == "measured"
    season["days_since_look"] = ("block", [2.0, np.nan])
    found = compare(season, "B0", "B1")
    assert found.rows[home].standing == "assumed"
    assert [row.standing for row in found.rows[:2]] == ["published", "assumed"]
