"""What the page rests on, line by line."""

import pytest

from geo.exports.page_about import about_data
from tests.exports.made import made


def lines(disease: str) -> list[str]:
    one = made()
    return about_data(one.farm, one.season.assign_coords(disease=disease))


@pytest.mark.published("raif_andalusia", "Kent: little susceptible")
def test_ratings_that_contradict_each_other_are_shown_source_by_source() -> None:
    found = [line for line in lines("panicle_mildew") if line.startswith("Sources differ on ")]
    assert [line.split()[3] for line in found] == ["Kent:"]
    for words in ("rank 6 of 13", "little susceptible", "most sensitive", "Taken as 0.65"):
        assert words in found[0]
    assert "Sources differ" not in " ".join(lines("fruit_anthracnose"))


@pytest.mark.common_practice("nitrogen and young leaves, change of FRAC codes: no source")
def test_advice_on_nutrition_and_resistance_says_that_it_has_no_source_or_number() -> None:
    advice = [line for line in lines("panicle_mildew") if "Nitrogen" in line or "FRAC" in line]
    assert len(advice) == 2
    for line in advice:
        assert "common practice, no source" in line
        assert not any(letter.isdigit() for letter in line)


def test_what_other_sources_say_of_a_material_in_use_is_shown_and_not_reckoned_with() -> None:
    one = made()
    season = one.season.assign(spray_material=("spray", ["copper"]))
    (line,) = [words for words in about_data(one.farm, season) if "Not reckoned" in words]
    assert "a half life of 14.8 d for copper (48 % lost in the first 14 d; the other" in line
