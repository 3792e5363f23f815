"""Which hours the field rule counts."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.rules.field_rule import field_rule_hours, field_rule_parameters

DAY = np.array([0])
RULE = field_rule_parameters()


def hours(temperature: object, humidity: object, rain: object) -> float:
    arrays = np.broadcast_arrays(
        *(np.atleast_1d(np.asarray(one, dtype=float)) for one in (temperature, humidity, rain))
    )
    air, damp, water = arrays
    return float(field_rule_hours(air[None], damp[None], water, RULE, starts=DAY)[0, 0])


@pytest.mark.common_practice("15-21 degC (60s to low 70s degF), 80-90 % humidity, no rain")
@pytest.mark.parametrize(
    ("temperature", "humidity", "rain", "counts"),
    [
        (15.0, 80.0, 0.0, 1.0),
        (21.0, 90.0, 0.0, 1.0),
        (14.9, 85.0, 0.0, 0.0),
        (22.5, 85.0, 0.0, 0.0),
        (18.0, 79.0, 0.0, 0.0),
        (18.0, 91.0, 0.0, 0.0),
        (18.0, 85.0, 0.2, 0.0),
    ],
)
def test_an_hour_counts_within_the_window_and_without_rain(
    temperature: float, humidity: float, rain: float, counts: float
) -> None:
    assert hours(temperature, humidity, rain) == counts


def test_an_unknown_hour_matters_only_where_it_could_have_counted() -> None:
    assert np.isnan(hours([18.0, 18.0], [85.0, np.nan], 0.0))
    assert np.isnan(hours([18.0, 18.0], 85.0, [0.0, np.nan]))
    assert hours([18.0, 30.0], [85.0, np.nan], 0.0) == 1.0
    assert hours([18.0, np.nan], 85.0, [0.0, 3.0]) == 1.0


@given(
    st.lists(
        st.tuples(st.floats(0, 40), st.floats(0, 100), st.sampled_from([0.0, 1.0])), min_size=1
    )
)
def test_hours_lie_between_none_and_all_and_rain_never_adds_any(
    day: list[tuple[float, float, float]],
) -> None:
    temperature, humidity, rain = np.array(day).T
    found = hours(temperature, humidity, rain)
    assert 0.0 <= found <= len(day)
    assert hours(temperature, humidity, 0.0) >= found
