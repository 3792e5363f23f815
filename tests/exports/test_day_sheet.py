"""What the day sheet says, and that nothing a user wrote becomes markup."""

import re
from dataclasses import replace
from datetime import timedelta
from html import unescape

import pytest

from geo.exports.day_sheet import day_sheet_html
from geo.exports.sheet_office import MOST_LEFT_OUT, MOST_NAMED
from geo.exports.sheet_words import CAUTIONS
from geo.rounds.day_round import DayRound, Ingredient, LeftOut
from geo.season.label import Label
from tests.exports.made import HOSTILE, HOSTILE_TEMPLATE, Made, made
from tests.exports.made_round import HOSTILE_SPRAYER, made_round


@pytest.fixture(scope="module")
def farm_made() -> Made:
    return made()


def page(farm_made: Made, planned: DayRound | None = None, **changes: object) -> str:
    farm = replace(farm_made.farm, **changes)
    return day_sheet_html(farm=farm, season=farm_made.season, day_round=planned or made_round(farm))


def words(markup: str) -> str:
    """Return the page as it is read, without tags."""
    body = markup[markup.index("<body>") :]
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", body)).split())


def with_stops(planned: DayRound, **changes: object) -> DayRound:
    sprayer = planned.sprayers[0]
    stops = tuple(replace(stop, **changes) for stop in sprayer.stops)
    return replace(planned, sprayers=(replace(sprayer, stops=stops),))


def test_a_sheet_names_day_sprayer_farm_material_and_code(farm_made: Made) -> None:
    read = words(page(farm_made))
    for said in ("Airblast 1", "Wed 14 Aug 2024", "made scenario", "sulfur FRAC M02"):
        assert said in read


def test_each_stop_has_rank_rows_litres_hours_and_both_ends(farm_made: Made) -> None:
    read = words(page(farm_made))
    assert "3 B03" in read
    assert "1–14 of 24 420 07:00–07:18" in read
    assert "Re-entry ends Thu 15 Aug 07:18 · Pick from Thu 15 Aug" in read


def test_a_whole_block_says_all_of_its_rows(farm_made: Made) -> None:
    assert "1–24 all 24" in words(page(farm_made))


def test_what_warns_everywhere_is_said_once_and_the_rest_by_a_letter(farm_made: Made) -> None:
    read = words(page(farm_made))
    assert read.count("Bees may forage") == 1
    assert "At every stop: Bees may forage Cautions: a Wind near its upper limit" in read
    assert read.count("· Caution a") == 1
    assert "Pick from Thu 15 Aug · Caution a" in read


def test_a_wait_for_an_open_hour_is_said(farm_made: Made) -> None:
    read = words(page(farm_made))
    assert read.count(", waits") == 1
    assert "there 07:18, waits" in read


def test_ends_that_no_label_tells_are_blank_lines(farm_made: Made) -> None:
    planned = with_stops(
        made_round(farm_made.farm, stops=2), re_entry_ends=None, pre_harvest_ends=None
    )
    markup = page(farm_made, planned)
    assert words(markup).count("(check the label)") == 2
    assert markup.count('class="blank"') == 4


def test_nobody_picks_before_people_may_enter(farm_made: Made) -> None:
    planned = made_round(farm_made.farm, stops=1)
    today = with_stops(planned, pre_harvest_ends=planned.day)
    assert "Re-entry ends Thu 15 Aug 06:38 · Pick from Thu 15 Aug" in words(page(farm_made, today))
    alone = with_stops(planned, pre_harvest_ends=planned.day, re_entry_ends=None)
    assert "Pick from Wed 14 Aug (check the label)" in words(page(farm_made, alone))


def test_loads_give_water_place_litres_and_product(farm_made: Made) -> None:
    read = words(page(farm_made))
    assert "1 06:00–06:15 Shed tank 1730 sulfur 5.25 kg" in read
    assert "4 09:45–10:00 River pump 1495 part sulfur" in read


def test_a_mixture_is_numbered_in_its_order_with_a_line_to_fill_in(farm_made: Made) -> None:
    planned = made_round(farm_made.farm, materials=("sulfur", "myclobutanil"))
    sprayer = planned.sprayers[0]
    mix = (Ingredient("sulfur", 5.25, "kg"), Ingredient("myclobutanil", None, ""))
    loads = tuple(replace(load, ingredients=mix) for load in sprayer.loads)
    planned = replace(planned, sprayers=(replace(sprayer, loads=loads),))
    read = words(page(farm_made, planned))
    assert "1. sulfur 5.25 kg 2. myclobutanil from your label" in read
    assert "Sulfur settles: agitate on the way" in read


def test_codes_are_the_labels_where_it_has_any(farm_made: Made) -> None:
    premix = (Label("sulfur", frac_codes=("M02", "3")),)
    assert "FRAC M02 + 3" in words(page(farm_made, labels=premix))


def test_a_material_nobody_knows_has_no_code(farm_made: Made) -> None:
    planned = made_round(farm_made.farm, materials=("whitewash",))
    read = words(page(farm_made, planned))
    assert "whitewash FRAC not known" in read
    assert "settles" not in read


def test_all_fourteen_cautions_stand_on_each_sheet(farm_made: Made) -> None:
    planned = made_round(farm_made.farm, sprayers=("One", "Two"))
    markup = page(farm_made, planned)
    read = words(markup)
    assert len(CAUTIONS) == 13
    # Two cabs and the office.
    assert all(read.count(caution) == 3 for caution in CAUTIONS)
    # The last is the age of the data, which differs from day to day.
    assert read.count("Weather measured until 14:00 on Wed 14 Aug") == 3
    assert len(re.findall(r"<ol class=\"cautions\">(?:<li>[^<]*</li>){14}</ol>", markup)) == 3


def test_words_are_those_of_advice(farm_made: Made) -> None:
    read = words(page(farm_made)).lower()
    assert not re.search(r"\bsafe\b|recommended|diagnos", read)
    assert "check the label" in read


def test_stale_data_are_said_first_and_last(farm_made: Made) -> None:
    planned = made_round(farm_made.farm)
    late = planned.sprayers[0].leaves + timedelta(days=2)
    planned = replace(planned, sprayers=(replace(planned.sprayers[0], leaves=late),))
    assert words(page(farm_made, planned)).count("The data are stale.") == 4


def test_blocks_left_out_stand_with_rank_and_cost_and_in_the_office_with_the_reason(
    farm_made: Made,
) -> None:
    read = words(page(farm_made))
    assert "(rank; cost*): B12 (9; 1.2), B11 (12; 0.31)." in read
    assert "B12 9 1.2 No time is left before the hours close." in read


def test_of_many_left_out_the_first_are_named(farm_made: Made) -> None:
    count = MOST_LEFT_OUT + 5
    many = tuple(LeftOut(f"B{i:02d}", i, 1.0 / i, "No time.") for i in range(1, count + 1))
    read = words(page(farm_made, made_round(farm_made.farm, left_out=many)))
    assert f"{count - MOST_NAMED} more. *" in read
    assert "5 more in round.csv." in read


def test_a_round_that_reaches_all_says_nothing_of_left_out(farm_made: Made) -> None:
    read = words(page(farm_made, made_round(farm_made.farm, left_out=(), notes=())))
    assert "Not reached" not in read


def test_the_office_has_each_sprayers_day_and_what_the_round_is_worth(farm_made: Made) -> None:
    planned = made_round(farm_made.farm)
    read = words(page(farm_made, planned))
    assert "Airblast 1 05:40 10:43 12 4 6450 7.0 7.4 3:12 0:54 1:00 0:15" in read
    assert "avoids 12 days of hazard index 1 × hectares; no round of this day avoids more" in read
    assert "Spray volume is your own 900 L/ha." in read
    proven = words(page(farm_made, replace(planned, is_proven=True)))
    assert "hectares: no round of this day avoids more." in proven


def test_a_day_without_a_sprayer_says_why(farm_made: Made) -> None:
    planned = made_round(farm_made.farm, sprayers=(), notes=("No hour of the day is open",))
    read = words(page(farm_made, planned))
    assert "No sprayer leaves the shed" in read
    assert "No hour of the day is open." in read
    assert "B12 9 1.2 No time is left" in read
    assert "avoids" not in read
    assert CAUTIONS[0] in read


def test_many_loads_from_one_place_take_a_line_each(farm_made: Made) -> None:
    planned = made_round(farm_made.farm, stops=18)
    sprayer = planned.sprayers[0]
    loads = tuple(replace(load, water="Pump") for load in sprayer.loads)
    markup = page(farm_made, replace(planned, sprayers=(replace(sprayer, loads=loads),)))
    assert 'class="loads many"' in markup
    assert "Loads at Pump" in words(markup)
    assert words(markup).count("Pump") == 1


def test_straight_lines_are_never_taken_for_tracks(farm_made: Made) -> None:
    assert "way, straight lines" in words(
        page(farm_made, made_round(farm_made.farm, ways="straight lines"))
    )


def test_names_stay_words(farm_made: Made) -> None:
    planned = made_round(
        farm_made.farm,
        sprayers=(HOSTILE_SPRAYER,),
        notes=(HOSTILE,),
        left_out=(LeftOut("B03", 1, 1.0, HOSTILE),),
    )
    markup = page(farm_made, planned, name=HOSTILE_TEMPLATE)
    body = markup[markup.index("<body>") :]
    assert not re.search(r"<(script|img|b>\s*·)", body)
    assert "49" not in re.findall(r"<title>(.*?)</title>", markup)[0]
    assert HOSTILE_SPRAYER in words(markup)
    assert HOSTILE in words(markup)


def test_a_sprayer_without_stops_has_a_sheet_without_rows(farm_made: Made) -> None:
    planned = made_round(farm_made.farm)
    idle = replace(planned.sprayers[0], stops=(), loads=(), path=())
    markup = page(farm_made, replace(planned, sprayers=(idle,)))
    assert 'class="under"' not in markup
    assert "Stops in driving order" in markup


def test_a_label_of_another_material_tells_no_code(farm_made: Made) -> None:
    other = (Label("copper", frac_codes=("M01",)), Label("sulfur"))
    assert "sulfur FRAC M02" in words(page(farm_made, labels=other))
