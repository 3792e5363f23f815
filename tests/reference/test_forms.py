"""Forms: what a label says holds before what is usual, and the rest is not known."""

import pytest

from geo.reference.forms import FORM_OF_CODE, FORMS, SETTLING, form_of, is_settling, usual_forms
from geo.reference.fungicides import fungicides
from geo.season.label import Label


def test_every_form_has_its_place_in_the_order() -> None:
    assert {*FORM_OF_CODE.values(), *usual_forms().values()} <= set(FORMS)
    assert set(SETTLING) < set(FORMS)
    assert set(usual_forms()) <= set(fungicides())


@pytest.mark.common_practice("wettable sulfur and fixed copper settle")
@pytest.mark.parametrize(
    ("material", "code", "settles"),
    [
        ("sulfur", "", True),
        ("copper", "", True),
        ("potassium bicarbonate", "", False),
        ("penconazole", "", None),
        ("penconazole", "EC", False),
        ("azoxystrobin", "SC", True),
    ],
)
def test_a_label_tells_whether_a_material_settles(material, code, settles) -> None:
    assert is_settling(material, Label(material, formulation=code)) is settles


def test_without_a_label_the_usual_form_holds() -> None:
    assert form_of("mineral oil", None) == "oil"
    assert form_of("penconazole", None) is None
