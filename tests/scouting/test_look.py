"""How many trees, and the sentence beside them."""

import numpy as np
import pytest

from geo.scouting.look import count_words, effect_words, look_at, proof_words


def test_a_block_without_known_disease_gets_enough_trees_to_find_one_in_twenty() -> None:
    look = look_at(np.array([0.0, np.nan, 0.01]))
    # 1 - 0.76059^11 is 0.951 (see the tests of sampling).
    assert look.trees.tolist() == [11, 11, 11]
    assert (look.left < 0.05).all()


def test_where_disease_is_known_the_look_estimates_it_within_bounds() -> None:
    look = look_at(np.array([0.05, 0.1, 0.9]))
    # (1 - p) / (10 p 0.25) × 2.8: 21.3, 10.1 and 0.1 trees.
    assert look.trees.tolist() == [20, 11, 5]
    assert look.hours == pytest.approx([1.0, 0.55, 0.25])
    assert look.effective == pytest.approx(np.array([200, 110, 50]) / 2.8)


def test_finding_nothing_is_never_said_to_prove_anything_clean() -> None:
    words = proof_words(look_at(np.array([0.0])), 0, "leaves")
    assert words == (
        "Look at 10 leaves on each of 11 trees. None of 110 would still leave up to 5.0 % "
        "infected (95 % sure; clumped on trees they prove what 59 one by one would: design effect "
        "1.9)."
    )
    # 0.95^59 is 0.0485: the sample of 59 that finds one in twenty, from the closed form.


def test_the_design_effect_of_counts_is_printed_as_a_number() -> None:
    assert effect_words("panicles") == (
        "Intervals take 10 panicles of a tree for 3.6 drawn one by one: design effect 2.8 "
        "(likeness on a tree 0.2, assumed)."
    )


def test_a_count_is_said_with_an_interval_that_counts_clumping() -> None:
    assert count_words(0, 100) == "0 of 100, so 0 to 9.7 %"
    assert count_words(1, 1) == "1 of 1, so 21 to 100 %"
    few = [float(count_words(0, n).split()[-2]) for n in (1, 5, 10, 50)]
    assert few == sorted(few, reverse=True)
