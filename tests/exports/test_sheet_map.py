"""The small map shows where the way goes, inside its frame."""

import re
from dataclasses import replace

import pytest

from geo.exports.sheet_map import HEIGHT, WIDTH, sheet_map
from geo.season.farm import Farm
from tests.exports.made import made_farm
from tests.exports.made_round import made_sprayer

NUMBER = re.compile(r"-?\d+\.\d")


@pytest.fixture(scope="module")
def farm() -> Farm:
    return made_farm(12)


def corners(path: str) -> list[tuple[float, float]]:
    numbers = [float(number) for number in NUMBER.findall(path)]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def test_the_way_and_its_blocks_lie_inside_the_frame(farm: Farm) -> None:
    drawn = sheet_map(farm, made_sprayer(farm, "One", day=farm.today))
    stops = [block["path"] for block in drawn["blocks"] if block["is_stop"]]
    for x, y in [point for path in [drawn["way"], *stops] for point in corners(path)]:
        assert 0 <= x <= WIDTH
        assert 0 <= y <= HEIGHT


def test_north_is_up(farm: Farm) -> None:
    sprayer = made_sprayer(farm, "One", day=farm.today)
    way = corners(sheet_map(farm, sprayer)["way"])
    north = max(range(len(way)), key=lambda place: sprayer.path[place][1])
    assert min(way, key=lambda point: point[1]) == way[north]


def test_a_block_sprayed_from_two_tanks_has_both_numbers(farm: Farm) -> None:
    drawn = sheet_map(farm, made_sprayer(farm, "One", day=farm.today))
    assert {"number": "3·4", "id": "B03"}.items() <= next(
        label for label in drawn["labels"] if label["id"] == "B03"
    ).items()


def test_arrows_point_along_the_way(farm: Farm) -> None:
    drawn = sheet_map(farm, made_sprayer(farm, "One", day=farm.today))
    assert drawn["arrows"]
    assert all(-180 <= head["turn"] <= 180 for head in drawn["arrows"])


def test_the_bar_is_a_round_number_of_metres(farm: Farm) -> None:
    drawn = sheet_map(farm, made_sprayer(farm, "One", day=farm.today))
    metres = drawn["bar"]["words"].removesuffix(" m")
    assert metres.rstrip("0") in {"1", "2", "5"}
    assert drawn["bar"]["length"] < WIDTH


def test_a_sprayer_that_goes_nowhere_shows_the_whole_farm(farm: Farm) -> None:
    idle = replace(made_sprayer(farm, "One", day=farm.today), stops=(), path=())
    drawn = sheet_map(farm, idle)
    assert len(drawn["blocks"]) == len(farm.blocks)
    assert drawn["way"] == ""


def test_of_a_large_farm_only_what_lies_about_the_way_is_drawn() -> None:
    large = made_farm(300)
    drawn = sheet_map(large, made_sprayer(large, "One", day=large.today, stops=4))
    assert len(drawn["blocks"]) < 100
