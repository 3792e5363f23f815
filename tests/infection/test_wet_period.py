"""What wets, how a wet period goes on over short gaps, and what an unknown hour does."""

import numpy as np

from geo.infection.anthracnose_parameters import anthracnose_parameters
from geo.infection.wet_period import SUMS, hourly_sums, running_sums, wet_share

STRICT, LIBERAL = anthracnose_parameters(), anthracnose_parameters("liberal")


def sums(wet: list[float], temperature: float = 25.0) -> np.ndarray:
    """Return the running sums of one spot, shape (hour, sum)."""
    hours = np.array([wet], dtype=float)
    running, _ = running_sums(
        hourly_sums(np.full(hours.shape, temperature), hours, STRICT),
        (hours == 0.0).T.astype(float),
        STRICT,
        sums=np.zeros((len(SUMS), 1)),
        dry_hours=np.zeros(1),
    )
    return running[:, :, 0]


def test_rain_wets_and_damp_air_wets_under_its_rule() -> None:
    humidity = np.array([[50.0, 89.0, 90.0, 94.0, 95.0, np.nan, np.nan]])
    rain = np.array([0.1, 0.0, 0.0, 0.0, 0.0, 0.0, 0.1])
    np.testing.assert_array_equal(wet_share(humidity, rain, STRICT), [[1, 0, 0, 0, 1, np.nan, 1]])
    np.testing.assert_array_equal(wet_share(humidity, rain, LIBERAL), [[1, 0, 1, 1, 1, np.nan, 1]])


def test_a_dry_gap_of_8_hours_holds_a_wet_period_and_one_of_9_ends_it() -> None:
    assert sums([1, 1, *[0] * 8, 1])[-1, 0] == 3.0
    assert sums([1, 1, *[0] * 9])[-1, 0] == 0.0
    assert sums([1, 1, *[0] * 9, 1])[-1, 0] == 1.0


def test_wet_hours_weigh_by_their_warmth() -> None:
    weighted, hours, warmth = sums([1] * 10, temperature=20.0)[-1]
    np.testing.assert_allclose([weighted, hours, warmth], [8.165, 10.0, 200.0], atol=5e-4)


def test_an_unknown_hour_is_forgotten_only_after_a_long_dry_gap() -> None:
    found = sums([1, np.nan, 1, *[0] * 9, 1])[:, 0]
    np.testing.assert_array_equal(found, [1, *[np.nan] * 10, 0, 1])


def test_the_temperature_of_a_dry_hour_need_not_be_known() -> None:
    added = hourly_sums(np.array([[np.nan, 25.0]]), np.array([[0.0, 1.0]]), STRICT)
    assert added[:, :, 0].tolist() == [[0.0, 0.0, 0.0], [1.0, 1.0, 25.0]]
