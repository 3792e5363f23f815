"""Cultivars, materials and stages as typed rows."""

import math

import pytest

from geo.reference import cultivar, fungicides, growth_stages
from geo.reference.cultivars import cultivars


@pytest.mark.parametrize("name", ["keitt", " KEITT ", "Keitt"])
def test_spelling_of_a_cultivar_does_not_matter(name: str) -> None:
    assert cultivar(name).name == "Keitt"


def test_an_unknown_cultivar_is_neutral_and_wide() -> None:
    stranger = cultivar("Grandfather's tree")
    assert stranger.name == "unknown"
    assert stranger.doubt == max(one.doubt for one in cultivars().values())
    assert list(cultivars())[-1] == "unknown"


def test_a_range_is_read_as_the_middle_90_percent() -> None:
    # Keitt lies between 0.4 and 0.8: for a normal logarithm, 2 x 1.645 standard deviations.
    assert cultivar("Keitt").doubt == pytest.approx(math.log(2.0) / (2 * 1.645))


@pytest.mark.published("frac2024", "M02, M01, M03, 3, 11 and 7, from memory")
@pytest.mark.parametrize(
    ("material", "code"),
    [
        ("sulfur", "M02"),
        ("copper", "M01"),
        ("mancozeb", "M03"),
        ("myclobutanil", "3"),
        ("azoxystrobin", "11"),
        ("fluxapyroxad", "7"),
    ],
)
def test_materials_of_a_group_share_its_code(material: str, code: str) -> None:
    assert fungicides()[material].frac_code == code


@pytest.mark.parametrize("material", fungicides().values(), ids=fungicides())
def test_a_material_can_be_weathered(material) -> None:
    assert material.mobility in {"contact", "systemic"}
    assert all(0.0 <= one.value < 1.0 for one in material.efficacy.values())
    assert min(material.half_life, material.halving_rain, material.drying_hours) > 0.0
    assert material.material == material.material.lower() or material.material[0] == "B"
    assert material.information


@pytest.mark.published("ijcmas2017", "66.8 % on panicle in two sprays; abstract and tables")
def test_the_one_measured_efficacy_is_that_of_the_trial() -> None:
    azoxystrobin = fungicides()["azoxystrobin"].efficacy["panicle_mildew"]
    assert azoxystrobin.standing == "measured"
    assert azoxystrobin.value == pytest.approx(0.668, abs=5e-3)


@pytest.mark.published("rajan2011", "weeks 9, 11 and 13 for 511-513, 517 and 619 at Lucknow")
def test_stages_follow_the_weeks_seen_at_lucknow() -> None:
    stages = growth_stages()
    assert stages["517"].progress - stages["511"].progress == 14.0
    assert stages["619"].progress - stages["517"].progress == 14.0


@pytest.mark.published("schoeman1995", "susceptible from colour change of the axes to fruit set")
def test_full_bloom_is_most_susceptible_and_buds_are_not() -> None:
    stages = growth_stages()
    assert stages["615"].susceptibility == max(one.susceptibility for one in stages.values()) == 1
    assert stages["510"].susceptibility == stages["511"].susceptibility == 0.0


def test_stages_stand_in_the_order_of_time_and_panicles_never_shrink() -> None:
    stages = list(growth_stages().values())
    assert [one.progress for one in stages] == sorted(one.progress for one in stages)
    assert [one.size for one in stages] == sorted(one.size for one in stages)
    assert [one.code for one in stages] == sorted(one.code for one in stages)
