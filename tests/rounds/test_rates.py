"""Rates: only those of the label, in their own unit, and none that is not understood."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.rounds.rates import Rate, amount_of, rate_of
from geo.season.label import Label

POSITIVE = st.floats(0.1, 1e4)


@pytest.mark.parametrize(
    ("written", "rate"),
    [
        ("kg/ha", Rate(2.0, "kg", 1.0, None)),
        (" L / ha", Rate(2.0, "L", 1.0, None)),
        ("g/100 L", Rate(2.0, "g", None, 100.0)),
        ("mL per 100L", Rate(2.0, "mL", None, 100.0)),
        ("g/hL", Rate(2.0, "g", None, 100.0)),
        ("fl oz/acre", Rate(2.0, "fl oz", 0.40468564224, None)),
        ("lb/100 gal", Rate(2.0, "lb", None, 378.5411784)),
    ],
)
def test_a_rate_is_for_an_area_or_for_a_volume(written, rate) -> None:
    assert rate_of(Label("sulfur", rate=2.0, rate_unit=written)) == rate


@pytest.mark.parametrize("written", ["", "kg", "%", "spoons/ha", "kg/tree", "g/0 L", "g/100 L/ha"])
def test_a_unit_that_is_not_understood_makes_no_rate(written) -> None:
    assert rate_of(Label("sulfur", rate=2.0, rate_unit=written)) is None


def test_without_a_label_or_its_rate_there_is_none() -> None:
    assert rate_of(None) is None
    assert rate_of(Label("sulfur", rate_unit="kg/ha")) is None


def test_a_part_load_takes_its_part() -> None:
    of_area = rate_of(Label("sulfur", rate=6.0, rate_unit="kg/ha"))
    of_volume = rate_of(Label("sulfur", rate=300.0, rate_unit="g/100 L"))
    assert of_area is not None
    assert of_volume is not None
    assert amount_of(of_area, hectares=1.44, litres=1440.0) == pytest.approx(8.64)
    assert amount_of(of_volume, hectares=1.44, litres=1440.0) == pytest.approx(4320.0)


@given(POSITIVE, POSITIVE, POSITIVE, st.sampled_from(("kg/ha", "g/100 L", "lb/acre")))
def test_two_loads_take_as_much_as_one_of_both(amount, first, second, written) -> None:
    rate = rate_of(Label("sulfur", rate=amount, rate_unit=written))
    assert rate is not None
    apart = sum(amount_of(rate, hectares=one / 1000, litres=one) for one in (first, second))
    both = first + second
    assert amount_of(rate, hectares=both / 1000, litres=both) == pytest.approx(apart)
