"""Ratings of cultivars."""

import math

import pytest

from geo.reference import cultivar
from geo.reference.cultivars import cultivars
from geo.reference.diseases import DISEASES

KEYS = [disease.key for disease in DISEASES]


@pytest.mark.parametrize("name", ["keitt", " KEITT ", "Keitt"])
def test_spelling_of_a_cultivar_does_not_matter(name: str) -> None:
    assert cultivar(name).name == "Keitt"


@pytest.mark.parametrize("disease", KEYS)
def test_an_unknown_cultivar_is_neutral_and_wide(disease: str) -> None:
    stranger = cultivar("Grandfather's tree", disease)
    assert stranger.name == "unknown"
    assert stranger.doubt >= cultivar("Keitt", disease).doubt
    assert list(cultivars(disease))[-1] == "unknown"
    assert not stranger.ratings


def test_a_range_is_read_as_the_middle_90_percent() -> None:
    # Keitt lies between 0.4 and 0.8: for a normal logarithm, 2 x 1.645 standard deviations.
    assert cultivar("Keitt").doubt == pytest.approx(math.log(2.0) / (2 * 1.645))


@pytest.mark.parametrize("name", cultivars())
def test_what_is_said_of_panicles_holds_for_leaves_with_more_doubt(name: str) -> None:
    panicle, leaf = cultivar(name, "panicle_mildew"), cultivar(name, "leaf_mildew")
    assert leaf.susceptibility == panicle.susceptibility
    assert leaf.doubt > panicle.doubt


@pytest.mark.parametrize("name", cultivars())
def test_what_is_said_of_anthracnose_is_surest_for_fruit(name: str) -> None:
    blossom, fruit = cultivar(name, "blossom_anthracnose"), cultivar(name, "fruit_anthracnose")
    assert blossom.susceptibility == fruit.susceptibility
    assert blossom.doubt > fruit.doubt


@pytest.mark.published("ufifas_hs2", "three groups of cultivars, from memory")
def test_anthracnose_groups_stand_in_the_order_of_their_words() -> None:
    groups = [
        ["Tommy Atkins", "Keitt", "Van Dyke", "Earlygold", "Florigon"],
        ["Glenn", "Palmer", "Carrie"],
        ["Haden", "Irwin", "Kent", "Sensation", "Zill"],
    ]
    found = [{cultivar(name, "fruit_anthracnose").susceptibility for name in of} for of in groups]
    assert [len(of_group) for of_group in found] == [1, 1, 1]
    assert sorted(found, key=min) == found


@pytest.mark.published("kenya_mango", "rank 1 of 13 for Sensation and 13 for Maya")
@pytest.mark.parametrize("name", ["Sensation", "Tommy Atkins", "Kent"])
def test_ratings_that_contradict_each_other_are_all_kept(name: str) -> None:
    found = cultivar(name)
    said = [rating.value for rating in found.ratings]
    assert max(said) - min(said) >= 0.75
    assert found.are_at_odds
    assert not cultivar("Keitt").are_at_odds
    assert not cultivar("Irwin").are_at_odds
    assert min(said) < found.susceptibility < max(said)
    assert all(rating.words and rating.scale.startswith("0 most") for rating in found.ratings)
    assert cultivar("Sensation").ratings[0].value == 0.0
    assert not cultivar(name, "fruit_anthracnose").ratings


@pytest.mark.published("naqvi2014", "Almas: 3.66 % incidence, tolerant")
def test_tolerance_is_wide_and_higher_only_where_a_source_says_so() -> None:
    low, middle, high = cultivar("Kent").tolerance
    assert (low, high) == (0.0, 0.9)
    assert cultivar("Almas").tolerance[1] > middle
    assert (
        cultivar("Almas", "fruit_anthracnose").tolerance
        == cultivar("Kent", "fruit_anthracnose").tolerance
    )
