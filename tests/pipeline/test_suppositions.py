"""The words of an option: what they mean, and one line for each that means nothing."""

import numpy as np
import pytest
import xarray as xr

from geo.errors import InputError
from geo.pipeline.local_hours import clock, hour_of, hours_between
from geo.pipeline.run import read
from geo.pipeline.suppositions import supposed, suppositions
from tests.demo_run import FARM

ZONE = "America/Mazatlan"


@pytest.fixture(scope="module")
def season() -> xr.Dataset:
    return read(FARM)[1]


def refusal(season: xr.Dataset, **asked: list[str]) -> str:
    options = {f"--{name.replace('_', '-')}": words for name, words in asked.items()}
    with pytest.raises(InputError) as caught:
        suppositions(options, season, zone=ZONE)
    return str(caught.value)


def test_rain_without_hours_falls_over_the_coming_night_and_says_which(season: xr.Dataset) -> None:
    (found,) = suppositions({"--rain": ["20"]}, season, zone=ZONE)
    assert found.words == (
        "20 mm more rain, evenly from 18 February 18:00 to 19 February 07:00 (the coming night)"
    )
    more = found.change(season).precipitation.values - season.precipitation.values
    assert more.sum() == pytest.approx(20.0)


@pytest.mark.parametrize(
    ("words", "start", "end"),
    [
        ("5 mm@22-02", "18 February 22:00", "19 February 02:00"),
        ("5@6-8", "18 February 06:00", "18 February 08:00"),
        ("5@2026-02-20T22-3", "20 February 22:00", "21 February 03:00"),
        ("5@20-24", "18 February 20:00", "19 February 00:00"),
    ],
)
def test_rain_falls_in_the_next_hours_asked_for(
    words: str, start: str, end: str, season: xr.Dataset
) -> None:
    (found,) = suppositions({"--rain": [words]}, season, zone=ZONE)
    assert found.words == f"5 mm more rain, evenly from {start} to {end} (as asked)"


@pytest.mark.parametrize(
    ("when", "said"),
    [
        ("now", "18 February 06:00"),
        ("today", "18 February 08:00"),
        ("tomorrow", "19 February 08:00"),
        ("tomorrow 05:30", "19 February 05:30"),
        ("2026-02-20T18:15", "20 February 18:15"),
    ],
)
def test_a_time_is_the_farms_and_the_usual_hour_where_only_the_day_is_given(
    when: str, said: str, season: xr.Dataset
) -> None:
    hour = hour_of(season, ZONE, when)
    assert hour is not None
    assert clock(season, ZONE, hour) == said


@pytest.mark.parametrize(
    "when", ["noon", "2026-02-31", "2026-02-20T25:00", "2026-03-20", "2020-01-01"]
)
def test_what_is_no_time_of_this_season_is_none(when: str, season: xr.Dataset) -> None:
    assert hour_of(season, ZONE, when) is None


def test_a_day_beyond_the_forecast_has_no_hours(season: xr.Dataset) -> None:
    assert hours_between(season, ZONE, day="2026-03-20", first=20, end=22).size == 0
    assert "has no forecast hour" in refusal(season, rain=["5@2026-03-20T20-22"])


def test_a_spray_of_several_blocks_is_one_supposition_and_names_need_no_capitals(
    season: xr.Dataset,
) -> None:
    (found,) = suppositions({"--spray": ["b03; B07;b03=Sulfur@now"]}, season, zone=ZONE)
    assert found.words == "sulfur on B03, B07, 18 February 06:00"
    sprayed = found.change(season)
    assert sprayed.sizes["spray"] == season.sizes["spray"] + 2
    assert sprayed.spray_block.values[-2:].tolist() == [2, 6]
    (same,) = suppositions({"--spray": ["B03;B07=sulfur"]}, season, zone=ZONE)
    assert same.words == found.words


def test_a_status_and_a_removal_of_the_same_neighbour_and_a_second_removal_do_no_harm(
    season: xr.Dataset,
) -> None:
    asked = {"--without-neighbour": ["N1", "n1"], "--neighbour": ["N1=Suspected", "N2=known"]}
    found = suppositions(asked, season, zone=ZONE)
    assert [one.words for one in found] == [
        "neighbour N1: disease suspected",
        "neighbour N2: disease known",
        "no neighbour N1",
        "no neighbour N1",
    ]
    left = supposed(season, found)
    assert left.source.values.tolist() == [*season.block.values.tolist(), "N2"]
    assert left.source_status.values[-1] == "known"


def test_several_at_once_add_up(season: xr.Dataset) -> None:
    asked = {
        "--rain": ["5", "7"],
        "--warmer": ["2 K", "-0.5"],
        "--stage": ["B07=615"],
        "--cultivar": ["B07=kent"],
    }
    found = suppositions(asked, season, zone=ZONE)
    assert [one.words for one in found][2:] == [
        "forecast air 2 K warmer, as much water in it",
        "forecast air 0.5 K colder, as much water in it",
        "B07: all of its panicles and fruit at BBCH 615 today",
        "B07: all of it Kent",
    ]
    other = supposed(season, found)
    assert (other.precipitation - season.precipitation).values.sum() == pytest.approx(12.0)
    ahead = season.is_forecast.values == 1
    np.testing.assert_allclose((other.air_temperature - season.air_temperature).values[ahead], 1.5)
    assert other.cultivar_share_text.values[6] == "Kent:1"


@pytest.mark.parametrize(
    ("option", "words", "line"),
    [
        ("rain", "much", 'E-SUPPOSE-FORM STOP --rain: "much" is not understood'),
        ("rain", "501", 'E-SUPPOSE-FORM STOP --rain: "501" is not understood'),
        ("rain", "5@night", 'E-SUPPOSE-FORM STOP --rain: "5@night" is not understood'),
        ("rain", "5@24-26", 'E-SUPPOSE-FORM STOP --rain: "5@24-26" is not understood'),
        ("warmer", "hot", 'E-SUPPOSE-FORM STOP --warmer: "hot" is not understood'),
        ("warmer", "16", 'E-SUPPOSE-FORM STOP --warmer: "16" is not understood'),
        ("stage", "B07", 'E-SUPPOSE-FORM STOP --stage: "B07" is not understood'),
        ("stage", "B99=615", 'E-BLOCK-UNKNOWN STOP --stage: no block "B99". Nearest: '),
        ("stage", "B07=999", 'E-STAGE-UNKNOWN STOP --stage: no stage "999". Nearest: '),
        ("spray", "B07=sulphur", 'E-MATERIAL-UNKNOWN STOP --spray: no material "sulphur". Nearest'),
        ("spray", "B07=sulfur@2031-01-01", "E-SUPPOSE-FORM STOP --spray: "),
        ("cultivar", "B07=Kentt", 'E-CULTIVAR-UNKNOWN STOP --cultivar: no cultivar "Kentt". '),
        ("neighbour", "B07=known", 'E-NEIGHBOUR-UNKNOWN STOP --neighbour: no neighbour "B07". '),
        ("neighbour", "N1=ill", 'E-STATUS-UNKNOWN STOP --neighbour: no status "ill". Nearest: '),
        ("without_neighbour", "N9", "E-NEIGHBOUR-UNKNOWN STOP --without-neighbour: no neighbour"),
    ],
)
def test_what_means_nothing_is_one_line(
    option: str, words: str, line: str, season: xr.Dataset
) -> None:
    said = refusal(season, **{option: [words]})
    assert said.startswith(line)
    assert "\n" not in said


def test_every_fault_is_told_and_nothing_at_all_is_one_too(season: xr.Dataset) -> None:
    assert len(refusal(season, rain=["x"], stage=["y"]).splitlines()) == 2
    assert refusal(season).startswith("E-SUPPOSE-NOTHING STOP suppose: nothing is supposed")


def test_a_farm_without_neighbours_or_forecast_says_so(season: xr.Dataset) -> None:
    alone = season.isel(source=slice(0, 24))
    assert refusal(alone, without_neighbour=["N1"]).endswith('no neighbour "N1". There is none.')
    known = season.assign(is_forecast=season.is_forecast * 0)
    for option in ("rain", "warmer"):
        assert "there is no forecast hour to change" in refusal(known, **{option: ["2"]})


def test_what_no_season_can_hold_is_one_line(season: xr.Dataset) -> None:
    found = suppositions({"--rain": ["400@22-23", "400@22-23"]}, season, zone=ZONE)
    with pytest.raises(
        InputError, match=r"^E-SUPPOSE-RANGE STOP suppose: .*precipitation"
    ) as caught:
        supposed(season, found)
    assert "\n" not in str(caught.value)
