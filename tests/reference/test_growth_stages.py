"""Stages of panicle, fruit and leaf."""

import pytest

from geo.reference import growth_stages
from geo.reference.diseases import DISEASES
from geo.reference.growth_stages import StageScale, stage_scale
from geo.reference.number import numbers

KEYS = [disease.key for disease in DISEASES]
STAGES = growth_stages()


def at(disease: str, code: str) -> float:
    return numbers("growth_stages")[code, f"{disease}_susceptibility"].value


@pytest.mark.published("rajan2011", "weeks 9, 11 and 13 for 511-513, 517 and 619 at Lucknow")
def test_stages_follow_the_weeks_seen_at_lucknow() -> None:
    assert STAGES["517"].progress - STAGES["511"].progress == 14.0
    assert STAGES["619"].progress - STAGES["517"].progress == 14.0


@pytest.mark.published("schoeman1995", "susceptible from colour change of the axes to fruit set")
def test_full_bloom_is_most_susceptible() -> None:
    assert at("panicle_mildew", "615") == max(stage_scale("panicle_mildew").susceptibility) == 1.0
    assert 0.0 < at("panicle_mildew", "619") < 0.5
    assert at("panicle_mildew", "801") == at("panicle_mildew", "809") == 0.0


@pytest.mark.published("rajan2011", "codes; bract stage immune in field notes")
@pytest.mark.parametrize("disease", ["panicle_mildew", "blossom_anthracnose"])
def test_nothing_infects_a_panicle_within_its_bracts(disease: str) -> None:
    assert at(disease, "510") == at(disease, "511") == 0.0
    assert at(disease, "513") > 0.0


@pytest.mark.published("icraf_anthracnose", "from flowering, decreasing until half-grown fruit")
def test_fruit_is_most_open_to_anthracnose_when_set_and_less_until_half_grown() -> None:
    found = [at("fruit_anthracnose", code) for code in ("619", "701", "703", "705", "707", "709")]
    assert found == sorted(found, reverse=True)
    assert found[3] == found[4] == found[5] > 0.0
    assert at("fruit_anthracnose", "615") == 0.0


@pytest.mark.published("nelson2008", "older leaves resistant, young flushes susceptible")
def test_young_leaves_are_open_to_mildew_and_hardened_ones_hardly() -> None:
    young = [at("leaf_mildew", code) for code in ("110", "111", "115")]
    assert young == sorted(young)
    assert young[-1] == 1.0 > at("leaf_mildew", "119") > at("leaf_mildew", "hardened") == 0.05


def test_a_shoot_is_as_open_as_the_leaves_it_carries() -> None:
    for shoot, leaf in (("311", "110"), ("313", "111"), ("315", "115"), ("319", "119")):
        assert STAGES[shoot].progress == STAGES[leaf].progress
        assert at("leaf_mildew", shoot) == at("leaf_mildew", leaf)


@pytest.mark.parametrize("scale", [stage_scale(key) for key in KEYS], ids=KEYS)
def test_stages_stand_in_the_order_of_time_and_organs_never_shrink(scale: StageScale) -> None:
    assert list(scale.progress) == sorted(scale.progress)
    assert list(scale.size) == sorted(scale.size)
    assert scale.size[0] == 0.0
    assert scale.size[-1] == 1.0
    assert 0.0 <= min(scale.susceptibility) < scale.unknown_susceptibility <= 1.0
    # Where two codes share a place they must agree, or the line between stages would jump.
    by_place = dict(zip(scale.progress, scale.susceptibility, strict=True))
    assert [by_place[place] for place in scale.progress] == list(scale.susceptibility)


@pytest.mark.published("schaffer1994", "12.5 degC for panicles, about 15 degC for shoots")
def test_leaves_need_more_warmth_than_panicles() -> None:
    assert stage_scale("leaf_mildew").base_temperature == 15.0
    bases = {stage_scale(key).base_temperature for key in KEYS if key != "leaf_mildew"}
    assert bases == {12.5}


def test_later_flushes_have_the_stages_of_the_first() -> None:
    for first, later in (("513", "523"), ("615", "625"), ("115", "135"), ("319", "329")):
        one, other = STAGES[first], STAGES[later]
        assert (one.progress, one.scale, one.meaning) == (
            other.progress,
            other.scale,
            other.meaning,
        )
        assert one.flush == 1 < other.flush == int(later[1])
    assert STAGES["701"].flush == STAGES["hardened"].flush == 1
    assert "721" not in STAGES
