"""Numbers of a round: the user's own, what is assumed is said, and what is missing is named."""

from dataclasses import replace
from datetime import time

import numpy as np
import pytest

from geo.errors import InputError
from geo.rounds.ready import Assumed, ready_round
from geo.season import Farm
from geo.season.sprayers import RoundSettings, Sprayer
from tests.demo_run import demo_outcome

SET = RoundSettings(row_spacing=8.0, litres_per_hectare=1000.0)
TANK = Sprayer("A", tank_litres=2000.0)


def farm_with(*sprayers: Sprayer, day_round: RoundSettings = SET, **columns: object) -> Farm:
    """Return the demo farm with other sprayers, settings and columns of its blocks."""
    farm = demo_outcome().farm
    settings = replace(farm.settings, sprayers=sprayers, day_round=day_round)
    return replace(farm, settings=settings, blocks=farm.blocks.assign(**columns))


def refused(farm: Farm) -> str:
    """Return why a round cannot be reckoned."""
    with pytest.raises(InputError) as raised:
        ready_round(farm)
    return str(raised.value)


def test_what_was_not_given_is_assumed_and_said_with_its_unit() -> None:
    ready = ready_round(farm_with(TANK))
    sprayer = ready.sprayers[0]
    assert (sprayer.speed, sprayer.travel_speed, sprayer.refill_minutes) == (4.0, 12.0, 15.0)
    assert (ready.start, ready.hours, ready.turn_seconds) == (time(6, 30), 8.0, 25.0)
    assert ready.assumed[0] == Assumed("speed", "A, 4 km/h while spraying", sprayer="A")
    assert len(ready.assumed) == 7


def test_what_was_given_is_used_and_nothing_is_said() -> None:
    sprayer = replace(TANK, agitated=True, speed=5.0, travel_speed=10.0, refill_minutes=20.0)
    day_round = replace(SET, start=time(5), hours=3.0, turn_seconds=30.0, setup_minutes=1.0)
    ready = ready_round(farm_with(sprayer, day_round=day_round))
    assert ready.assumed == ()
    assert (ready.start, ready.hours, ready.sprayers[0].speed) == (time(5), 3.0, 5.0)
    assert ready.sprayers[0].keeps_stirred is True


def test_columns_of_a_block_hold_before_the_farm_s_own() -> None:
    count = len(demo_outcome().farm.blocks)
    own = np.full(count, np.nan)
    own[2] = 6.0
    ready = ready_round(farm_with(TANK, row_spacing=own))
    assert ready.row_spacing[2] == 6.0
    assert (np.delete(ready.row_spacing, 2) == 8.0).all()
    assert np.isnan(ready.row_direction).all()


def test_spray_volume_may_come_from_the_canopy() -> None:
    day_round = RoundSettings(
        row_spacing=8.0, canopy_height=4.0, canopy_width=4.0, litres_per_1000_m3=100.0
    )
    assert ready_round(farm_with(TANK, day_round=day_round)).volume[0] == pytest.approx(2000.0)


def test_a_farm_without_sprayers_is_told_what_to_write() -> None:
    assert "E-SPRAYER-MISSING STOP farm.toml: no sprayer is described. " in refused(farm_with())


def test_a_tank_is_never_assumed() -> None:
    line = refused(farm_with(TANK, Sprayer("Old one")))
    assert line.startswith('E-KEY-MISSING STOP farm.toml [[sprayers]] "Old one" key tank_litres')


def test_row_spacing_and_volume_are_never_assumed() -> None:
    lines = refused(farm_with(TANK, day_round=RoundSettings())).splitlines()
    assert [line.split('"')[1] for line in lines] == [
        "round.row_spacing",
        "round.litres_per_hectare",
    ]
    assert "not known for 24 of 24 blocks" in lines[0]


def test_a_canopy_without_its_rows_is_asked_for_once() -> None:
    line = refused(farm_with(TANK, day_round=RoundSettings(litres_per_1000_m3=100.0)))
    assert len(line.splitlines()) == 1
    assert "row_spacing" in line
