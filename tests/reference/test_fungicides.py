"""What each material does to each disease, and what sources say against it."""

import math

import pytest

from geo.reference.diseases import DISEASES
from geo.reference.fungicides import EFFICACY, SPRAYERS, coverage, fungicides, reports
from geo.reference.number import subjects

MILDEWS, ANTHRACNOSES = (
    ("panicle_mildew", "leaf_mildew"),
    (
        "blossom_anthracnose",
        "fruit_anthracnose",
    ),
)


def test_each_disease_has_its_efficacy_of_each_material() -> None:
    keys = [disease.key for disease in DISEASES]
    assert list(EFFICACY) == keys
    assert all(list(material.efficacy) == keys for material in fungicides().values())


@pytest.mark.common_practice("copper is weak on mildew, 10-20 %, and useful on anthracnose")
def test_copper_is_weak_on_mildew_and_useful_on_anthracnose() -> None:
    copper = fungicides()["copper"].efficacy
    for disease in MILDEWS:
        assert (copper[disease].low, copper[disease].high) == (0.1, 0.2)
    for disease in ANTHRACNOSES:
        assert copper[disease].low > 0.2


def test_sulfur_does_nothing_to_anthracnose() -> None:
    sulfur = fungicides()["sulfur"]
    assert [sulfur.efficacy[disease].value for disease in ANTHRACNOSES] == [0.0, 0.0]
    assert min(sulfur.efficacy[disease].value for disease in MILDEWS) > 0.5


@pytest.mark.common_practice("sulfur acts on mites too, not on insects")
def test_what_sulfur_does_to_mites_is_information_only() -> None:
    assert "mites too, not on insects" in fungicides()["sulfur"].information


@pytest.mark.published("ijcmas2017", "leaves 17.75 against 53.53; anthracnose 6.94 against 14.85")
@pytest.mark.parametrize(
    ("disease", "treated", "bare"),
    [("leaf_mildew", 17.75, 53.53), ("fruit_anthracnose", 6.94, 14.85)],
)
def test_azoxystrobin_does_what_it_did_in_the_trial(disease, treated, bare) -> None:
    efficacy = fungicides()["azoxystrobin"].efficacy[disease].value
    assert efficacy == pytest.approx(1.0 - treated / bare, abs=5e-3)


@pytest.mark.published("copper_orange", "60 % and 48 % lost in the first 14 days of two seasons")
def test_copper_fades_as_it_did_on_oranges_and_the_other_season_is_kept_beside() -> None:
    copper = fungicides()["copper"]
    assert copper.half_life == pytest.approx(14.0 * math.log(2.0) / -math.log(0.40), abs=0.05)
    other = reports("copper")["copper_orange", "half_life"]
    assert other.value == pytest.approx(14.0 * math.log(2.0) / -math.log(0.52), abs=0.05)


@pytest.mark.published("tebu_trifloxy_anthracnose", "6.78 against 62.11")
def test_what_contradicts_a_row_stands_beside_it_and_is_not_averaged_in() -> None:
    mixture = reports("tebuconazole")["tebu_trifloxy_anthracnose", "fruit_anthracnose_efficacy"]
    assert mixture.value == pytest.approx(1.0 - 6.78 / 62.11, abs=1e-3)
    alone = fungicides()["tebuconazole"].efficacy["fruit_anthracnose"]
    assert mixture.value > alone.high
    drops = {source for source, what in reports("mancozeb") if what == "halving_rain"}
    assert drops == {"mancozeb_drops", "mancozeb_no_slope"}
    assert fungicides()["mancozeb"].halving_rain == fungicides()["sulfur"].halving_rain


def test_a_report_is_of_a_material_we_know() -> None:
    reported = [name for name in subjects("fungicides") if " as in " in name]
    assert {name.partition(" as in ")[0] for name in reported} <= set(fungicides())
    assert not reports("sulfur")


@pytest.mark.parametrize("material", fungicides().values(), ids=fungicides())
def test_only_codes_3_7_and_11_reach_back(material) -> None:
    assert (material.curative_reach > 0.0) == (material.frac_code in {"3", "7", "11"})
    assert material.mobility == "systemic" or material.curative_reach == 0.0


@pytest.mark.published("cornell_reach", "96 h for code 3 on apple scab, 48-72 h for others")
def test_no_reach_back_is_longer_than_on_apple_scab() -> None:
    assert max(material.curative_reach for material in fungicides().values()) <= 4.0


def test_a_sprayer_nobody_named_covers_as_the_usual_one() -> None:
    assert coverage(None).value == coverage("airblast").value
    assert all(coverage(kind).standing == "assumed" for kind in SPRAYERS)
