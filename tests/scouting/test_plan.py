"""Today's scouting order: doubt times stake."""

import numpy as np
import pytest
import xarray as xr

from geo.rounds.plan import plan_spray_order
from geo.scouting import plan_scouting_order
from geo.windows import spray_windows
from tests.laws.made_farm import made_farm
from tests.laws.made_season import made_season, replaced, through


@pytest.fixture(scope="module")
def season() -> xr.Dataset:
    return through(made_season())


def scouted(season: xr.Dataset, **arrays: object) -> list[str]:
    order = plan_scouting_order(made_farm(), replaced(season, **arrays))
    return [entry.block for entry in order.entries]


def test_blocks_stand_by_doubt_times_stake(season) -> None:
    order = plan_scouting_order(made_farm(), season)
    assert order.today == made_farm().today
    assert [entry.rank for entry in order.entries] == [1, 2, 3, 4, 5]
    products = [entry.doubt * entry.stake for entry in order.entries]
    assert products == sorted(products, reverse=True)
    assert order.entries[0].score == 1.0
    for entry in order.entries:
        assert entry.score == pytest.approx(entry.doubt * entry.stake / products[0])


def test_the_doubtful_block_goes_before_the_certain_one_of_the_same_stake(season) -> None:
    hazard, area = np.full(5, 0.4), np.full(5, 2.0)
    doubt = np.array([0.2, 0.5, 1.4, 0.1, 0.9])
    found = scouted(season, hazard_ahead=hazard, area=area, doubt=doubt)
    assert found == ["B3", "B5", "B2", "B1", "B4"]


def test_more_hectares_at_stake_go_first_at_the_same_doubt(season) -> None:
    arrays = {"hazard_ahead": np.full(5, 0.4), "doubt": np.full(5, 0.5)}
    assert scouted(season, area=np.array([1.0, 5, 3, 2, 4]), **arrays)[0] == "B2"


def test_the_two_orders_of_the_day_differ(season) -> None:
    hazard = np.array([0.9, 0.8, 0.7, 0.6, 0.5])
    doubt = np.array([0.1, 0.2, 0.4, 0.8, 1.6])
    both = replaced(season, hazard_ahead=hazard, doubt=doubt)
    farm = made_farm(material="copper")
    spray = plan_spray_order(farm, both, spray_windows(farm, both))
    assert [entry.block for entry in spray.entries] == ["B1", "B2", "B3", "B4", "B5"]
    assert scouted(both) == ["B5", "B4", "B3", "B2", "B1"]


def test_a_block_of_unknown_hazard_has_no_place(season) -> None:
    hazard = season.hazard_ahead.values.copy()
    hazard[1] = np.nan
    assert "B2" not in scouted(season, hazard_ahead=hazard)


def test_without_any_stake_there_is_no_order(season) -> None:
    assert scouted(season, hazard_ahead=np.zeros(5)) == []


def test_reasons_say_what_is_known_and_since_when(season) -> None:
    told = replaced(
        season,
        days_since_look=np.array([0.0, 1.0, 12.0, np.nan, 3.0]),
        days_since_stage_seen=np.array([1.0, 0.0, 4.0, np.nan, 2.0]),
        doubt=np.array([0.2, 0.3, 0.8, 1.3, 0.1]),
    )
    entries = {entry.block: entry for entry in plan_scouting_order(made_farm(), told).entries}
    assert entries["B1"].reason == (
        "May be 1.3 times more or less by its count, stage, cultivars and ground alone: counted "
        "today, stage noted yesterday; 2.4 ha."
    )
    assert "counted yesterday, stage noted today;" in entries["B2"].reason
    assert "counted 12 days ago, stage noted 4 days ago;" in entries["B3"].reason
    assert "never counted, stage never noted;" in entries["B4"].reason
    assert (entries["B4"].days_since_look, entries["B3"].days_since_look) == (None, 12)
