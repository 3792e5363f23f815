"""A season for each disease: its own looks, everything else the very same arrays."""

from geo.season.disease import disease_key, season_of_disease
from tests.laws.made_season import made_season


def test_a_disease_sees_its_own_looks_only() -> None:
    season = made_season()
    of_leaf = season_of_disease(season, "leaf_mildew")
    assert of_leaf.sizes["visit"] == 0
    assert disease_key(of_leaf) == "leaf_mildew"
    of_panicle = season_of_disease(season, "panicle_mildew")
    assert of_panicle.visit_infected.values.tolist() == season.visit_infected.values.tolist()


def test_what_diseases_share_is_not_copied() -> None:
    season = made_season()
    shared = season_of_disease(season, "fruit_anthracnose")["elevation_grid"].values
    assert shared is season["elevation_grid"].values


def test_a_season_without_a_disease_is_about_mildew_on_panicles() -> None:
    assert disease_key(made_season()) == "panicle_mildew"
