"""From which side spores fly, and what that changes."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.dispersal.wind_rose import sector_weights
from geo.reference.number import values
from geo.season.sectors import SECTORS
from tests.laws.made_season import made_season, replaced, through

RELEASE = values("dispersal", "release")
STARTS = np.array([0, 24])


def weights(direction: np.ndarray, rain: np.ndarray | None = None) -> np.ndarray:
    fallen = np.zeros(direction.size) if rain is None else rain
    return sector_weights(direction, fallen, starts=STARTS, **RELEASE)


@pytest.mark.published("schoeman1995", "conidia trapped mostly from 11:00 to 16:00, abstract")
def test_only_the_hours_of_flight_count() -> None:
    direction = np.full(48, 180.0)
    direction[11:16] = 90.0
    found = weights(direction)
    assert found[0].tolist() == [0.0] * 4 + [float(SECTORS)] + [0.0] * 11
    assert found[1, 8] == SECTORS


def test_wet_and_unknown_hours_do_not_count_and_without_any_it_is_all_round() -> None:
    direction = np.full(48, 0.0)
    direction[11:14] = 270.0
    direction[14] = np.nan
    rain = np.zeros(48)
    rain[11:14] = 0.2
    assert weights(direction, rain)[0, 0] == SECTORS
    rain[15] = 0.2
    assert (weights(direction, rain)[0] == 1.0).all()


@given(st.lists(st.floats(0.0, 360.0), min_size=48, max_size=48))
def test_the_mean_weight_of_a_day_is_one(directions: list[float]) -> None:
    np.testing.assert_allclose(weights(np.array(directions)).mean(axis=1), 1.0)


def test_without_a_known_direction_the_rose_changes_nothing() -> None:
    season = made_season()
    unknown = replaced(season, wind_from_direction=np.full(season.sizes["hour"], np.nan))
    plain, rose = (through(unknown.assign_attrs(wind_rose=on)) for on in (False, True))
    np.testing.assert_allclose(rose.incoming_inoculum.values, plain.incoming_inoculum.values)
    np.testing.assert_array_equal(rose.hazard_ahead.values, plain.hazard_ahead.values)


def test_wind_from_a_neighbour_brings_its_spores_and_wind_to_it_does_not() -> None:
    season = made_season()
    # The neighbour stands up in the east of the map, blocks lie west and south-west of it.
    hours = season.sizes["hour"]
    incoming = {
        side: through(
            replaced(season, wind_from_direction=np.full(hours, side)).assign_attrs(wind_rose=True)
        ).incoming_inoculum.values[4, 0]
        for side in (90.0, 270.0)
    }
    still = through(season).incoming_inoculum.values[4, 0]
    assert incoming[90.0] > still > incoming[270.0]


def test_splashed_conidia_know_no_wind() -> None:
    season = made_season().assign_coords(disease="blossom_anthracnose")
    plain, rose = (through(season.assign_attrs(wind_rose=on)) for on in (False, True))
    np.testing.assert_array_equal(rose.incoming_inoculum.values, plain.incoming_inoculum.values)
