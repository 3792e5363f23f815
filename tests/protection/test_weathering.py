"""What time, rain and growth leave of a spray."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.protection.weathering import spray_left, together

# These state their own parameters; those of the tables differ.
CONTACT = {"fresh": 0.85 * 0.9, "half_life": 14.0, "halving_rain": 25.0, "new_tissue": 0.0}
SYSTEMIC = CONTACT | {"fresh": 0.80 * 0.9, "halving_rain": 75.0}


def left(material: dict[str, float], **when: float) -> float:
    arrays = {name: np.array(value) for name, value in (material | when).items()}
    return float(spray_left(**arrays))


@pytest.mark.published("ontario2020", "25 mm removes about half; half-life ours; computed")
@pytest.mark.parametrize(
    ("material", "age", "rain", "expected"),
    [
        (CONTACT, 5.0, 8.0, 0.478),
        (CONTACT, 5.0, 28.0, 0.275),
        (CONTACT, 12.0, 31.0, 0.179),
        (SYSTEMIC, 12.0, 31.0, 0.298),
    ],
    ids=["5 d, 8 mm", "and 20 mm tonight", "12 d, 31 mm", "systemic"],
)
def test_what_is_left(material, age, rain, expected) -> None:
    assert left(material, age=age, rain=rain) == pytest.approx(expected, abs=5e-4)


@pytest.mark.published("ontario2020", "25 mm (an inch) removes about half")
def test_25_millimetres_leave_half() -> None:
    assert left(CONTACT, age=0.0, rain=25.0) == pytest.approx(CONTACT["fresh"] / 2.0)


@given(
    age=st.floats(0.0, 40.0),
    later=st.floats(0.0, 40.0),
    rain=st.floats(0.0, 100.0),
    more=st.floats(0.0, 100.0),
    grown=st.floats(0.0, 1.0),
)
def test_cover_never_grows_without_a_spray(age, later, rain, more, grown) -> None:
    before = left(CONTACT, age=age, rain=rain)
    after = left(CONTACT | {"new_tissue": grown}, age=age + later, rain=rain + more)
    assert 0.0 <= after <= before <= CONTACT["fresh"]


def test_nothing_protects_before_it_is_sprayed() -> None:
    assert left(CONTACT, age=-0.01, rain=0.0) == 0.0


def test_growth_carries_none_of_it() -> None:
    assert left(CONTACT | {"new_tissue": 1.0}, age=1.0, rain=0.0) == 0.0
    half = left(CONTACT | {"new_tissue": 0.5}, age=1.0, rain=0.0)
    assert half == pytest.approx(left(CONTACT, age=1.0, rain=0.0) / 2.0)


def test_sprays_together_leave_the_product_of_what_each_lets_through() -> None:
    cover = np.array([[0.5, 0.0], [0.4, 0.9], [0.9, 0.9]])
    found = together(cover, np.array([0, 0, 2]), block_count=3, cap=0.95)
    np.testing.assert_allclose(found, [[0.7, 0.9], [0.0, 0.0], [0.9, 0.9]])


@given(cover=st.lists(st.floats(0.0, 1.0), max_size=8))
def test_no_programme_passes_the_cap(cover: list[float]) -> None:
    columns = np.array(cover).reshape(-1, 1)
    found = together(columns, np.zeros(len(cover), dtype=int), block_count=1, cap=0.95)
    assert 0.0 <= found[0, 0] <= 0.95
    assert found[0, 0] >= min(max(cover, default=0.0), 0.95) - 1e-12


def test_each_kind_of_array_is_taken(as_array) -> None:
    found = spray_left(
        fresh=as_array([0.8, 0.8]),
        age=as_array([0.0, 10.0]),
        rain=as_array([0.0, 0.0]),
        new_tissue=as_array([0.0, 0.0]),
        half_life=as_array([10.0, 10.0]),
        halving_rain=as_array([25.0, 25.0]),
    )
    np.testing.assert_allclose(found, [0.8, 0.4], rtol=1e-6)
