"""Materials as typed rows."""

import pytest

from geo.reference import fungicides


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
