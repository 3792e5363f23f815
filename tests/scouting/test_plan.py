"""Today's scouting order: due, drawn, or by the value of looking."""

from dataclasses import replace
from datetime import timedelta

import numpy as np
import pytest
import xarray as xr

from geo.rounds.plan import plan_spray_order
from geo.scouting import plan_scouting_order
from geo.windows import spray_windows
from tests.laws.made_farm import made_farm
from tests.laws.made_season import made_through, replaced


@pytest.fixture(scope="module")
def season() -> xr.Dataset:
    return made_through()


def plan(season: xr.Dataset, *, random_share: float = 0.0, days: int = 60, **arrays: object):
    farm = made_farm(random_share=random_share, visit_interval_days=days)
    looked = {"days_since_look": np.full(5, 3.0)} | arrays
    return plan_scouting_order(farm, replaced(season, **looked)).entries


def scouted(season: xr.Dataset, **arrays: object) -> list[str]:
    return [entry.block for entry in plan(season, **arrays)]


def alike(season: xr.Dataset, **arrays: object) -> dict[str, object]:
    """Return arrays with which blocks differ by what is asked only; a look settles the stage."""
    base = {
        "hazard_ahead": np.full(5, 0.4),
        "area": np.full(5, 2.0),
        "factors": np.ones(season.factors.shape),
        # Blocks that show the same get looks of the same size.
        "sporulating": np.zeros(season.sporulating.shape),
    }
    return base | arrays


def with_stage_doubt(season: xr.Dataset, doubt: np.ndarray) -> dict[str, np.ndarray]:
    """Return doubts that are all of the stage, which a look settles."""
    ahead = np.broadcast_to(doubt[:, None], season.stage_doubt.shape).copy()
    return {"doubt": doubt, "stage_doubt": ahead}


def test_blocks_stand_by_the_value_of_looking(season) -> None:
    entries = plan(season)
    assert [entry.rank for entry in entries] == [1, 2, 3, 4, 5]
    scores = [entry.score for entry in entries]
    assert scores == sorted(scores, reverse=True)
    assert scores[0] == 1.0
    assert {entry.chosen for entry in entries} == {"value of looking"}


def test_the_doubtful_block_goes_before_the_certain_one_of_the_same_stake(season) -> None:
    doubt = with_stage_doubt(season, np.array([0.2, 0.5, 1.4, 0.1, 0.9]))
    found = scouted(season, **alike(season, **doubt))
    assert found == ["B3", "B5", "B2", "B1", "B4"]


def test_the_doubtful_block_at_stake_goes_before_the_one_that_is_sprayed_anyway(season) -> None:
    hazard = np.array([4.0, 0.5, 0.4, 0.3, 0.2])
    doubt = with_stage_doubt(season, np.array([0.2, 0.2, 0.6, 0.2, 0.2]))
    found = scouted(season, **alike(season, hazard_ahead=hazard, **doubt))
    assert found[0] == "B3"
    assert found.index("B2") < found.index("B1")
    said = {e.block: e.reason for e in plan(season, **alike(season, hazard_ahead=hazard, **doubt))}
    assert "well above the middle block's" in said["B1"]
    assert "near the middle block's" in said["B3"]
    assert "well below the middle block's" in said["B5"]


def test_doubt_that_no_look_settles_is_worth_no_look(season) -> None:
    of_stage = with_stage_doubt(season, np.array([0.1, 0.5, 0.5, 0.5, 0.5]))
    found = scouted(
        season, **alike(season, **of_stage | {"doubt": np.array([1.5, 0.5, 0.5, 0.5, 0.5])})
    )
    assert found[-1] == "B1"


def test_blocks_due_for_a_look_come_first_and_say_so(season) -> None:
    since = np.array([3.0, 14.0, 13.0, np.nan, 0.0])
    entries = plan(season, days=14, days_since_look=since)
    assert {entry.block for entry in entries[:2]} == {"B2", "B4"}
    assert [entry.chosen for entry in entries] == ["due"] * 2 + ["value of looking"] * 3
    assert entries[0].reason.endswith("Due: not counted within the visit interval.")


def test_a_share_of_the_places_is_drawn_the_same_for_the_same_day(season) -> None:
    first, again = (plan(season, random_share=0.5) for _ in range(2))
    assert first == again
    assert sorted(entry.block for entry in first) == ["B1", "B2", "B3", "B4", "B5"]
    drawn = [entry for entry in first if entry.chosen == "drawn"]
    assert drawn
    assert drawn[0].reason.endswith("Its place is drawn by lot.")


def test_about_a_tenth_of_the_first_places_is_drawn_over_many_days(season) -> None:
    farm = made_farm()
    days = [replace(farm, today=farm.today + timedelta(days=day)) for day in range(300)]
    first = [plan_scouting_order(day, season).entries[0].chosen for day in days]
    # Three standard deviations of 300 draws at 10 %.
    assert first.count("drawn") == pytest.approx(30, abs=16)


def test_each_block_says_how_many_trees_and_what_finding_nothing_proves(season) -> None:
    for entry in plan(season):
        assert f"{entry.organs_per_tree} panicles on each of {entry.trees} trees" in entry.proof
        assert 0 < entry.share_left < 1


def test_the_newest_count_stands_there_with_its_interval(season) -> None:
    told = replaced(season, days_since_look=np.array([12.0, 1, 1, 1, 1]))
    told = told.drop_dims("visit").assign(
        visit_block=("visit", [0, 0]),
        visit_day=("visit", [1, 4]),
        visit_inspected=("visit", [10, 100]),
        visit_infected=("visit", [9, 0]),
    )
    entries = {e.block: e for e in plan_scouting_order(made_farm(), told).entries}
    assert "counted 12 days ago (0 of 100, so 0 to 9.7 %), stage" in entries["B1"].reason


def test_more_hectares_at_stake_go_first_at_the_same_doubt(season) -> None:
    doubt = with_stage_doubt(season, np.full(5, 0.5))
    arrays = alike(season, area=np.array([1.0, 5, 3, 2, 4]), **doubt)
    assert scouted(season, **arrays) == ["B2", "B5", "B3", "B4", "B1"]


def test_the_two_orders_of_the_day_differ(season) -> None:
    hazard = np.array([0.9, 0.8, 0.7, 0.6, 0.5])
    doubt = with_stage_doubt(season, np.array([0.1, 0.2, 0.4, 0.8, 1.6]))
    arrays = alike(season, hazard_ahead=hazard, **doubt)
    arrays |= {
        "hazard": np.repeat(hazard[:, None], 9, axis=1),
        "protection_left": np.zeros((5, 9)),
        "organ_size": np.ones((5, 9)),
    }
    both = replaced(season, **arrays)
    farm = made_farm(material="copper")
    spray = plan_spray_order(farm, both, spray_windows(farm, both))
    assert [entry.block for entry in spray.entries] == ["B1", "B2", "B3", "B4", "B5"]
    assert scouted(season, **arrays) == ["B5", "B4", "B3", "B2", "B1"]


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
    quiet = made_farm(random_share=0.0)
    entries = {entry.block: entry for entry in plan_scouting_order(quiet, told).entries}
    assert entries["B1"].reason == (
        "May be 1.3 times more or less by its count, stage, cultivars and ground alone: counted "
        "today (2 of 100, so 0.3 to 13 %), stage noted yesterday; 2.4 ha. "
        "Its hazard is near the middle block's: a look may decide on which side it is."
    )
    assert "counted yesterday (0 of 50, so 0 to 18 %), stage noted today;" in entries["B2"].reason
    assert "counted 12 days ago" in entries["B3"].reason
    assert "stage noted 4 days ago;" in entries["B3"].reason
    assert "never counted, stage never noted;" in entries["B4"].reason
    assert (entries["B4"].days_since_look, entries["B3"].days_since_look) == (None, 12)
