"""How much rain or how many dry days are left to the reapply line."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.protection.reapply import until_line
from geo.protection.weathering import spray_left

FRESH, HALF_LIFE, HALVING_RAIN, LINE = 0.85 * 0.9, 14.0, 25.0, 0.3


def left(age: float, rain: float) -> float:
    found = spray_left(
        fresh=np.array(FRESH),
        age=np.array(age),
        rain=np.array(rain),
        new_tissue=np.array(0.0),
        half_life=np.array(HALF_LIFE),
        halving_rain=np.array(HALVING_RAIN),
    )
    return float(found)


def until(left_now: object, halving: object, *, line: float = LINE) -> float:
    sprays = np.atleast_1d(np.asarray(left_now, dtype=float))
    found = until_line(
        sprays,
        np.broadcast_to(np.asarray(halving, dtype=float), sprays.shape),
        np.zeros(sprays.size, dtype=int),
        block_count=1,
        line=line,
    )
    return float(found[0])


@pytest.mark.published("ontario2020", "25 mm removes about half; half-life and line ours; computed")
def test_17_millimetres_or_9_dry_days_are_left_after_5_days_and_8_millimetres() -> None:
    now = left(5.0, 8.0)
    assert now == pytest.approx(0.478, abs=5e-4)
    assert until(now, HALVING_RAIN) == pytest.approx(16.8, abs=0.05)
    assert until(now, HALF_LIFE) == pytest.approx(9.4, abs=0.05)


@pytest.mark.published("ontario2020", "25 mm removes about half; half-life and line ours; computed")
def test_20_millimetres_tonight_take_it_from_48_to_27_percent_past_the_line() -> None:
    tonight = left(5.0, 28.0)
    assert tonight == pytest.approx(0.275, abs=5e-4)
    assert tonight == pytest.approx(left(5.0, 8.0) * 2.0 ** (-20.0 / 25.0))
    assert until(tonight, HALVING_RAIN) == until(tonight, HALF_LIFE) == 0.0


amounts = st.floats(0.0, 60.0)


@given(age=amounts, rain=amounts)
def test_what_is_left_to_the_line_leads_exactly_to_it(age: float, rain: float) -> None:
    now = left(age, rain)
    if now > LINE:
        assert left(age, rain + until(now, HALVING_RAIN)) == pytest.approx(LINE)
        assert left(age + until(now, HALF_LIFE), rain) == pytest.approx(LINE)
    else:
        assert until(now, HALVING_RAIN) == 0.0


sprays = st.lists(st.tuples(st.floats(0.0, 0.95), st.floats(1.0, 100.0)), min_size=1, max_size=6)


@given(sprays=sprays, line=st.floats(0.05, 0.9))
def test_several_sprays_meet_the_line_together(sprays, line) -> None:
    share, halving = np.array(sprays).T

    def together(amount: float) -> float:
        return 1.0 - float(np.prod(1.0 - share * 2.0 ** (-amount / halving)))

    found = until(share, halving, line=line)
    if together(0.0) > line:
        assert together(found) == pytest.approx(line, abs=1e-6)
    else:
        assert found == pytest.approx(0.0, abs=1e-6)
    more = until([*share, 0.4], [*halving, 20.0], line=line)
    assert more >= found - 1e-6


def test_a_block_without_a_spray_has_no_line_to_reach() -> None:
    found = until_line(
        np.array([0.5, 0.0]),
        np.array([25.0, 25.0]),
        np.array([2, 1]),
        block_count=3,
        line=0.3,
    )
    assert np.isnan(found[0])
    np.testing.assert_allclose(found[1:], [0.0, 25.0 * np.log2(0.5 / 0.3)], atol=1e-9)


def test_the_whole_diary_may_be_empty() -> None:
    nothing = np.zeros(0)
    found = until_line(nothing, nothing, np.zeros(0, dtype=int), block_count=2, line=0.3)
    assert np.isnan(found).all()
