"""What sprays did, held against an untreated check."""

import pytest

from geo.comparison.trial import trial_row
from tests.comparison.made import made_season, pairs

CHECK = 4
UNTREATED = [(CHECK, 9, 8, 100), (CHECK, 20, 40, 100)]


def row(looks, sprays):
    return trial_row(made_season([*UNTREATED, *looks], sprays), 0, CHECK)


def test_counts_before_and_after_a_spray_give_both_efficacies() -> None:
    found = row([(0, 8, 12, 100), (0, 21, 10, 100)], [(0, 2, "copper"), (0, 10, "sulfur")])
    assert pairs(found.before, found.after) == [(8, 12, 100), (21, 10, 100)]
    assert pairs(found.check_before, found.check_after) == [(9, 8, 100), (20, 40, 100)]
    assert found.abbott.share == pytest.approx(0.75)
    assert found.henderson_tilton.share == pytest.approx(1 - (10 / 12) * (8 / 40))
    assert [spray.material for spray in found.sprays] == ["copper", "sulfur"]
    assert [spray.material for spray in found.since] == ["sulfur"]
    assert found.why_not == ""


@pytest.mark.parametrize(
    ("looks", "sprays", "words"),
    [
        ([(0, 21, 5, 100)], [], "Not counted since a spray."),
        # On the day of the spray nobody can see what it did.
        ([(0, 10, 5, 100)], [(0, 10, "sulfur")], "Not counted since a spray."),
        ([(0, 15, 5, 100)], [(0, 10, "sulfur")], "The check was not counted within 3 days of it."),
    ],
)
def test_what_cannot_be_told_says_why(looks, sprays, words) -> None:
    found = row(looks, sprays)
    assert (found.abbott, found.henderson_tilton, found.why_not) == (None, None, words)


@pytest.mark.parametrize(
    ("looks", "words"),
    [
        ([(0, 21, 5, 100)], "Not counted before its sprays"),
        ([(0, 1, 5, 100), (0, 21, 5, 100)], "within 3 days of the count before"),
        ([(0, 9, 0, 100), (0, 21, 5, 100)], "No disease before the sprays"),
        # One count of the check cannot be both its before and its after.
        ([(0, 18, 5, 100), (0, 22, 5, 100)], "within 3 days of the count before"),
    ],
)
def test_without_a_count_before_only_abbotts_is_told(looks, words) -> None:
    found = row(looks, [(0, 10, "sulfur"), (0, 19, "sulfur")])
    assert found.abbott is not None
    assert found.henderson_tilton is None
    assert words in found.why_not


def test_a_check_without_disease_tells_nothing() -> None:
    season = made_season([(CHECK, 20, 0, 100), (0, 20, 3, 100)], [(0, 10, "sulfur")])
    found = trial_row(season, 0, CHECK)
    assert found.abbott is None
    assert "nothing to keep away" in found.why_not


def test_a_check_never_counted_tells_nothing() -> None:
    found = trial_row(made_season([(0, 20, 3, 100)], [(0, 10, "sulfur")]), 0, CHECK)
    assert found.check_after is None
