"""Words of the day sheet: names, amounts, and how old the data are."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.exports.sheet_age import data_age
from geo.exports.sheet_words import LONGEST_NAME, amount_words, shown
from tests.exports.made import Made, made
from tests.exports.made_round import made_round


@pytest.fixture(scope="module")
def farm_made() -> Made:
    return made()


@given(st.text())
def test_a_shown_name_is_short_and_has_no_control_characters(text: str) -> None:
    read = shown(text)
    assert len(read) <= LONGEST_NAME
    assert all(character.isprintable() or character in "\u200c\u200d" for character in read)
    read.encode("utf-8")


@pytest.mark.parametrize("name", ["Ñandú 7", "สวนมะม่วง", "क्\u200dष", "果园"])
def test_names_of_any_script_are_kept(name: str) -> None:
    assert shown(name) == name


def test_amounts_keep_three_digits_and_the_whole_number() -> None:
    assert amount_words(0.125, "kg") == "0.125 kg"
    assert amount_words(12345.6, "mL") == "12346 mL"
    assert amount_words(2.0, "") == "2"


def test_fresh_data_are_called_uncertain_not_stale(farm_made: Made) -> None:
    words, is_stale = data_age(farm_made.farm, farm_made.season, made_round(farm_made.farm))
    assert not is_stale
    assert words.startswith("Weather measured until 14:00 on Wed 14 Aug; newest look 2")
    assert words.endswith("Uncertain all the same: an order, no probabilities.")


def test_looks_that_nobody_took_make_data_stale(farm_made: Made) -> None:
    season = farm_made.season
    never = season.assign(days_since_look=season["days_since_look"] * np.nan)
    words, is_stale = data_age(farm_made.farm, never, made_round(farm_made.farm))
    assert is_stale
    assert "nobody has looked at the trees" in words


def test_weather_that_was_never_measured_is_stale(farm_made: Made) -> None:
    season = farm_made.season
    forecast = season.assign(is_forecast=season["is_forecast"] * 0 + 1)
    planned = replace(made_round(farm_made.farm), sprayers=())
    assert data_age(farm_made.farm, forecast, planned)[1]
