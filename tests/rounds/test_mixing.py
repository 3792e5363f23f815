"""Mixing: the order of the tank, amounts only from a label, and what settles never stands."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.reference.fungicides import fungicides
from geo.rounds.day_round import Ingredient
from geo.rounds.mixing import (
    ingredients_of_load,
    label_notes,
    may_carry,
    mixing_notes,
    mixing_order,
    standing_caution,
)
from geo.season.label import Label

SULFUR = Label("sulfur", rate=6.0, rate_unit="kg/ha", formulation="WG")
EMULSION = Label("penconazole", rate=50.0, rate_unit="mL/100 L", formulation="EC")


def notes(*labels: Label) -> str:
    """Return what is said of a tank of the labels' materials."""
    materials = [label.material for label in labels]
    return "\n".join((*mixing_notes(materials, labels), *label_notes(materials, labels)))


@pytest.mark.common_practice("wettable, flowable, emulsifiable, soluble, oil last")
def test_dry_goes_in_before_flowable_before_emulsion_before_solution_before_oil() -> None:
    flowable = Label("azoxystrobin", formulation="SC")
    materials = ("mineral oil", "potassium bicarbonate", "penconazole", "azoxystrobin", "sulfur")
    assert mixing_order(materials, [flowable, EMULSION]) == materials[::-1]


def test_what_is_not_known_of_its_form_stands_last_and_is_asked_for() -> None:
    assert mixing_order(("myclobutanil", "sulfur"), ()) == ("sulfur", "myclobutanil")
    said = notes(Label("myclobutanil"))
    assert "How myclobutanil is formulated is not known" in said
    assert "Settles" not in said


@given(st.lists(st.sampled_from(sorted(fungicides())), max_size=5))
def test_the_order_holds_every_material_once(materials: list[str]) -> None:
    order = mixing_order(materials, ())
    assert set(order) == set(materials)
    assert len(order) == len(set(materials))


def test_amounts_of_a_load_go_by_its_area_or_its_litres() -> None:
    told = ingredients_of_load(
        ("penconazole", "sulfur"), (SULFUR, EMULSION), hectares=1.44, litres=1440.0
    )
    assert [(one.material, one.unit) for one in told] == [("sulfur", "kg"), ("penconazole", "mL")]
    assert [one.amount for one in told] == pytest.approx([8.64, 720.0])


def test_no_amount_is_told_without_a_rate_and_the_label_file_is_named() -> None:
    told = ingredients_of_load(("sulfur",), (), hectares=1.0, litres=1000.0)
    assert told == (Ingredient("sulfur", None, ""),)
    assert "No rate of sulfur is known, no amount is told" in notes(Label("sulfur"))
    spoons = Label("sulfur", rate=3.0, rate_unit="spoons/ha")
    assert 'Unit "spoons/ha" of the rate of sulfur is not understood' in notes(spoons)


def test_a_rate_for_a_volume_warns_of_less_water() -> None:
    assert "with less water a hectare gets less" in notes(EMULSION)
    assert "less water" not in notes(SULFUR)


def test_a_tank_of_two_is_tried_in_a_jar_and_the_label_s_order_comes_first() -> None:
    said = notes(EMULSION, SULFUR)
    assert said.startswith(
        "Order of mixing (common practice; the order on the label comes first): half the water, "
        "stirring, sulfur, penconazole, the rest of the water."
    )
    assert "jar" in said
    assert "jar" not in notes(SULFUR)
    assert "powders" not in notes(EMULSION)


@pytest.mark.common_practice("never park a loaded tank of a settling suspension")
def test_a_tank_of_what_settles_is_never_parked() -> None:
    assert "Settles if it is not stirred: sulfur." in notes(SULFUR)
    assert "never park a loaded tank" in notes(SULFUR)
    assert "sulfur and copper" in notes(SULFUR, Label("copper"))
    assert "Settles" not in notes(EMULSION)


@pytest.mark.parametrize(
    ("material", "minutes", "is_warned"),
    [("sulfur", 21.0, True), ("sulfur", 20.0, False), ("penconazole", 60.0, False)],
)
def test_a_loaded_tank_that_stands_too_long_is_warned_of(material, minutes, is_warned) -> None:
    said = standing_caution((material,), (EMULSION,), minutes=minutes)
    assert (said is not None) == is_warned


def test_a_warning_of_standing_names_what_may_settle_and_for_how_long() -> None:
    said = standing_caution(("sulfur", "myclobutanil"), (), minutes=45.0)
    assert said == (
        "The loaded tank stands 45 min (more than 20, assumed): sulfur and myclobutanil may settle."
    )


@pytest.mark.parametrize(
    ("materials", "stirred", "may"),
    [
        (("sulfur",), False, False),
        (("copper", "sulfur"), None, None),
        (("sulfur",), True, True),
        (("copper",), False, True),
    ],
)
def test_a_sprayer_that_does_not_stir_carries_no_sulfur(materials, stirred, may) -> None:
    assert may_carry(materials, keeps_stirred=stirred) is may
