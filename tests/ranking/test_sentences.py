"""Why, in one sentence."""

import numpy as np
import pytest

from geo.ranking.comparison import Comparison, compare
from geo.ranking.factor_words import basis, change_words, zero_words
from geo.ranking.factors import FACTORS
from geo.ranking.sentences import because, times, two_digits
from geo.reference.diseases import DISEASES, Disease
from geo.texts import speaking
from tests.ranking.test_comparison import BLOCK_3, BLOCK_7, ranked


def compared(first: tuple[float, ...], second: tuple[float, ...]) -> Comparison:
    return compare(ranked(np.array([first, second])), "B0", "B1")


def test_the_worked_example_as_a_sentence() -> None:
    assert because(compared(BLOCK_7, BLOCK_3)) == (
        "12 times B1: less protection is left on it (× 2.3), its cultivars are more susceptible "
        "(× 1.7), more of its bloom is at a susceptible stage (× 1.4)."
    )


def test_the_same_the_other_way_round() -> None:
    assert because(compared(BLOCK_3, BLOCK_7)) == (
        "0.08 times B1: more protection is left on it (× 0.44), its cultivars are less susceptible "
        "(× 0.6), less of its bloom is at a susceptible stage (× 0.7)."
    )


def test_the_strongest_factor_that_pulls_the_other_way_is_named_last() -> None:
    second = (*BLOCK_7[:2], 2.0 * BLOCK_7[2], 0.2 * BLOCK_7[3], *BLOCK_7[4:])
    assert because(compared(BLOCK_7, second)) == (
        "2.5 times B1: more of its bloom is at a susceptible stage (× 5.0); "
        "yet its cultivars are less susceptible (× 0.5)."
    )


def test_the_sentence_is_whole_in_another_language() -> None:
    second = (*BLOCK_7[:2], 2.0 * BLOCK_7[2], 0.2 * BLOCK_7[3], *BLOCK_7[4:])
    with speaking("es"):
        assert because(compared(BLOCK_7, second)) == (
            "2.5 veces el peligro de B1: más de su floración está en etapa susceptible (× 5.0); "
            "en cambio, sus cultivares son menos susceptibles (× 0.5)."
        )


def test_a_block_against_itself_has_no_reason() -> None:
    season = ranked(np.array([BLOCK_7]))
    assert because(compare(season, "B0", "B0")) == "This is the block that it is held against."


def test_a_block_of_unknown_hazard_says_so() -> None:
    unknown = (np.nan, *BLOCK_7[1:])
    assert because(compared(unknown, BLOCK_3)) == ("Hazard not known: its weather is missing.")


def test_nobody_says_measured_where_nobody_counted() -> None:
    season = ranked(np.array([BLOCK_7, (*BLOCK_7[:5], 0.01, *BLOCK_7[6:])]))
    season["days_since_look"] = ("block", [2.0, np.nan])
    words = "mildew on its panicles, as far as anyone counted"
    assert f"more {words} (× 4.0)" in because(compare(season, "B0", "B1"))
    assert f"less {words} (× 0.25)" in because(compare(season, "B1", "B0"))


def test_blocks_that_hardly_differ_have_no_factor_to_name() -> None:
    nearly = tuple(1.05 * value for value in BLOCK_7[:1]) + BLOCK_7[1:]
    assert because(compared(nearly, BLOCK_7)) == "1.1 times B1: no single factor stands out."


@pytest.mark.parametrize(
    ("zero", "reason"),
    [
        (0, "no hour ahead favours mildew"),
        (3, "no tissue is at a susceptible stage"),
        (1, "one of its factors is 0"),
    ],
)
def test_no_hazard_has_a_reason_instead_of_a_ratio(zero: int, reason: str) -> None:
    first = tuple(0.0 if place == zero else value for place, value in enumerate(BLOCK_7))
    assert because(compared(first, BLOCK_3)) == f"No hazard ahead: {reason}."


def test_against_no_hazard_there_is_no_ratio() -> None:
    nothing = (0.0, *BLOCK_3[1:])
    assert because(compared(BLOCK_7, nothing)) == (
        "B1 has no hazard ahead, so there is no ratio to it."
    )


def test_against_an_unknown_hazard_there_is_no_ratio() -> None:
    unknown = (np.nan, *BLOCK_3[1:])
    assert because(compared(BLOCK_7, unknown)) == (
        "The hazard of B1 is not known, so there is no ratio to it."
    )


@pytest.mark.parametrize(
    ("ratio", "words"),
    {
        0.0: "0",
        0.0000123: "0.000012",
        0.049: "0.049",
        0.6: "0.6",
        0.994: "0.99",
        0.995: "1.0",
        1.25: "1.2",
        9.94: "9.9",
        9.95: "10",
        152.4: "152",
    }.items(),
)
def test_ratios_as_people_say_them(ratio: float, words: str) -> None:
    assert two_digits(ratio) == words
    assert times(ratio) == f"× {words}"


@pytest.mark.parametrize("disease", DISEASES, ids=lambda disease: disease.key)
def test_each_factor_has_words_of_each_disease(disease: Disease) -> None:
    for factor in FACTORS:
        more, less = (change_words(factor.name, disease, rises=rises) for rises in (True, False))
        assert more != less
        assert basis(factor.name, disease)
        other = "anthracnose" if disease.short == "mildew" else "mildew"
        for words in (more, less, basis(factor.name, disease), zero_words(factor.name, disease)):
            assert other not in words
