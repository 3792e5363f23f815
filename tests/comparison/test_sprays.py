"""Which sprays a block got."""

from geo.comparison.sprays import Spray, sprays_of, sprays_so_far
from tests.comparison.made import made_season


def test_sprays_come_first_to_last_and_say_whether_they_are_planned() -> None:
    season = made_season(
        sprays=[(0, 5, "sulfur"), (1, 4, "copper"), (0, -2, "copper"), (0, 27, "sulfur")]
    )
    assert sprays_of(season, 0) == (
        Spray("copper", -2),
        Spray("sulfur", 5),
        Spray("sulfur", 27, is_planned=True),
    )
    assert sprays_of(season, 4) == ()


def test_planned_sprays_are_not_counted() -> None:
    season = made_season(sprays=[(0, 3, "sulfur"), (0, 5, "copper"), (4, 27, "sulfur")])
    assert sprays_so_far(season).tolist() == [2, 0, 0, 0, 0]
