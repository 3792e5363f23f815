"""What people are told of what is left of their sprays."""

import numpy as np
import pytest
import xarray as xr

from geo.protection import PROTECTION
from geo.ranking.spray_words import NONE, spray_words
from geo.season.disease import season_of_disease
from tests.laws.made_season import made_before, replaced


def after_sprays(*sprays: tuple[float, str], **attrs: object) -> xr.Dataset:
    """Return a dry season without growth after sprays of block 0; now is 6 h on 6 February."""
    found = made_before(PROTECTION).isel(spray=[0] * len(sprays))
    season = replaced(
        found,
        spray_hour=np.array([hour for hour, _ in sprays]),
        spray_material=np.array([material for _, material in sprays]),
        precipitation=np.zeros(found.sizes["hour"]),
        organ_size=np.ones((5, 9)),
    )
    return PROTECTION.add_to(season.assign_attrs(attrs))


def test_a_spray_says_its_day_what_is_left_and_how_far_the_line_is() -> None:
    # 0.75 x 0.8 x 2^(-2/10) two days after it.
    assert spray_words(after_sprays((78.0, "sulfur")), [0])[0] == (
        "Sprays: sulfur of 4 February: 0.52 left; about 20 mm of rain or 8 dry days to the "
        "reapply line of 0.30, growth not counted."
    )


def test_several_are_told_newest_first_and_together() -> None:
    words = spray_words(after_sprays((78.0, "sulfur"), (102.0, "penconazole")), [0])[0]
    assert words.startswith(
        "Sprays: penconazole of 5 February: 0.60 left; sulfur of 4 February: 0.52 left; together "
        "0.81; about "
    )


def test_the_last_day_before_the_line_is_told_in_tenths() -> None:
    season = after_sprays((126.0, "sulfur"), reapply_line=0.6 * 2.0**-0.05)
    assert "or 0.5 dry days to" in spray_words(season, [0])[0]
    season = after_sprays((126.0, "sulfur"), reapply_line=0.6 * 2.0**-0.1)
    assert "or 1 dry day to" in spray_words(season, [0])[0]


def test_a_spray_from_before_the_season_keeps_its_date_and_may_be_spent() -> None:
    assert spray_words(after_sprays((-24.0 * 300, "sulfur"), (-30.0, "copper")), [0]) == [
        "Sprays: copper of 30 January: 0.08 left; at or below the reapply line of 0.30."
    ]
    assert spray_words(after_sprays((-24.0 * 32 - 1.0, "sulfur")), [0])[0].startswith(
        "Sprays: sulfur of 30 December: 0.05 left; at"
    )
    assert ": 0.00 left; at or below" in spray_words(after_sprays((-9e3, "sulfur")), [0])[0]


def test_a_material_that_does_nothing_to_the_disease_is_said_to() -> None:
    season = season_of_disease(made_before(PROTECTION), "fruit_anthracnose")
    words = spray_words(PROTECTION.add_to(season), [0])[0]
    assert words == (
        "Sprays: sulfur of 1 February: nothing is counted against anthracnose on fruit; at or "
        "below the reapply line of 0.30."
    )


@pytest.mark.parametrize("hour", [150.0, None])
def test_without_a_spray_or_with_a_planned_one_only_there_are_none(hour: float | None) -> None:
    season = after_sprays(*([] if hour is None else [(hour, "sulfur")]))
    assert spray_words(season, range(5)) == [NONE] * 5
