"""The parameters of the four epidemics."""

import pytest

from geo.epidemic.parameters import epidemic_parameters
from geo.reference.diseases import DISEASES
from geo.reference.number import numbers, subjects, values


def test_every_disease_has_its_epidemic() -> None:
    assert subjects("epidemic") == tuple(disease.key for disease in DISEASES)


@pytest.mark.parametrize("disease", [disease.key for disease in DISEASES])
def test_the_background_is_never_zero_and_stages_are_whole(disease) -> None:
    epidemic = epidemic_parameters(disease)
    assert numbers("epidemic")[disease, "background_inoculum"].low > 0
    assert epidemic.latent_stages == int(epidemic.latent_stages) >= 1


def test_the_background_of_panicle_mildew_is_the_same_in_both_tables() -> None:
    background = epidemic_parameters("panicle_mildew").background_inoculum
    assert background == values("mildew", "panicle mildew")["background_inoculum"]
