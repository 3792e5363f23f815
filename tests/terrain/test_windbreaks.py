"""Windbreaks: the published reductions behind a belt, and what hides behind it."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.reference.number import values
from geo.season.sectors import sector_directions
from geo.terrain import TERRAIN
from geo.terrain.windbreaks import WindbreakLaw, Windbreaks, wind_reduction, windbreak_factor
from tests.laws.made_season import made_season, replaced

HEIGHT = 16.5  # m: the middle of the belts of 15 to 18 m
NORTH, EAST, SOUTH = 0, 4, 8


def law() -> WindbreakLaw:
    table = values("microclimate", "windbreak")
    return WindbreakLaw(**{name: table[name] for name in WindbreakLaw.__dataclass_fields__})


def belt(*, height: float = HEIGHT, porosity: float = 0.1) -> Windbreaks:
    """Return a belt from west to east through the origin."""
    start, end = np.array([[-400.0, 0.0]]), np.array([[400.0, 0.0]])
    return Windbreaks(start, end, np.array([height]), np.array([porosity]))


def factor_at(breaks: Windbreaks, x: float, y: float) -> np.ndarray:
    return windbreak_factor(
        breaks,
        law(),
        point_block=np.array([0]),
        point_x=np.array([x]),
        point_y=np.array([y]),
        point_share=np.array([1.0]),
        block_count=1,
        wind_from_direction=sector_directions(),
    )[0]


# Contributions to Geophysics and Geodesy, windbreaks by optical porosity (abstract, moravia_belts):
# dense belts 60 % less wind at 50 m and 30 % at 150 m; leafless ones 20 % and 10 %, as read.
@pytest.mark.published("moravia_belts", "abstract")
@pytest.mark.parametrize(
    ("porosity", "distance", "printed"),
    [(0.1, 50.0, 0.60), (0.1, 150.0, 0.30), (0.5, 50.0, 0.20), (0.5, 150.0, 0.10)],
)
def test_the_law_is_near_the_printed_reductions(
    porosity: float, distance: float, printed: float
) -> None:
    found = float(wind_reduction(np.array([distance]), HEIGHT, porosity, law())[0])
    assert found == pytest.approx(printed, abs=0.051)


@pytest.mark.published("moravia_belts", "abstract")
def test_nothing_is_left_of_it_beyond_its_reach() -> None:
    assert wind_reduction(np.array([281.0]), HEIGHT, 0.1, law())[0] == 0.0


def test_wind_across_the_belt_is_weakened_behind_it_only() -> None:
    factor = factor_at(belt(), 0.0, -50.0)
    assert factor[NORTH] == pytest.approx(0.35)
    assert factor[SOUTH] == 1.0
    assert factor[EAST] == 1.0
    assert factor_at(belt(), 0.0, 50.0)[SOUTH] == pytest.approx(0.35)


def test_slanting_wind_is_weakened_less_and_mirrored() -> None:
    factor = factor_at(belt(), 0.0, -30.0)
    assert factor[NORTH] < factor[NORTH + 1] < factor[NORTH + 2] < 1.0
    np.testing.assert_allclose(factor[1:4], factor[:-4:-1])


def test_beside_the_end_of_a_belt_wind_is_whole() -> None:
    assert factor_at(belt(), 450.0, -50.0)[NORTH] == 1.0


@given(
    porosity=st.floats(0.0, 1.0),
    height=st.floats(0.1, 50.0),
    x=st.floats(-900, 900),
    y=st.floats(-900, 900),
)
def test_a_belt_takes_wind_and_never_adds_or_turns_it(
    porosity: float, height: float, x: float, y: float
) -> None:
    factor = factor_at(belt(height=height, porosity=porosity), x, y)
    assert ((factor >= 1.0 - law().dense_reduction) & (factor <= 1.0)).all()


def test_a_windbreak_multiplies_the_wind_of_the_block_behind_it() -> None:
    season = made_season()
    x, y = season.point_x.values[:4], season.point_y.values[:4]
    drawn = {
        "windbreak_start_x": [x.min() - 100.0],
        "windbreak_start_y": [y.max() + 20.0],
        "windbreak_end_x": [x.max() + 100.0],
        "windbreak_end_y": [y.max() + 20.0],
        "windbreak_height": [np.nan],
        "windbreak_porosity": [np.nan],
    }
    without = TERRAIN.compute(season).wind_share
    given_belt = TERRAIN.compute(replaced(season.drop_dims("windbreak"), **drawn)).wind_share
    assert given_belt[0, NORTH] < 0.95 * without[0, NORTH]
    assert given_belt[0, SOUTH] == without[0, SOUTH]
