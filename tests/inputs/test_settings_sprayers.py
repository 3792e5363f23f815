"""Sprayers and the day's round in farm.toml: all kept, nothing assumed, faults in plain words."""

from dataclasses import replace
from datetime import time

import pytest

from geo.season.sprayers import RoundSettings, Sprayer

LARGE = Sprayer("Large sprayer", "airblast", agitated=True, tank_litres=2000.0, nozzles=24)
LISTED = '[[sprayers]]\nname = "Large sprayer"'


def one_table(farm, text):
    """Write a single table in place of the list."""
    written = (farm.folder / "farm.toml").read_text("utf-8")
    start, end = written.index("[[sprayers]]\nname"), written.index("# A day's round")
    (farm.folder / "farm.toml").write_text(written[:start] + text + written[end:], "utf-8")


def test_every_sprayer_of_the_list_is_kept_in_its_order(farm) -> None:
    settings = farm.read()[0].settings
    assert settings.sprayers == (
        LARGE,
        replace(LARGE, name="Small sprayer", tank_litres=1000.0, nozzles=16, refill_minutes=10.0),
    )
    assert (settings.sprayer, settings.agitated) == ("airblast", True)


def test_a_single_table_is_a_list_of_one(farm) -> None:
    one_table(farm, '[sprayer]\nkind = "knapsack"\nagitated = false\ntank_litres = 15\n')
    settings = farm.read()[0].settings
    assert settings.sprayers == (Sprayer("Sprayer", "knapsack", agitated=False, tank_litres=15.0),)
    assert (settings.sprayer, settings.agitated) == ("knapsack", False)


@pytest.mark.parametrize("text", ["", "[sprayer]\n"])
def test_a_farm_may_describe_no_sprayer(farm, text) -> None:
    one_table(farm, text)
    settings = farm.read()[0].settings
    assert settings.sprayers == ()
    assert (settings.sprayer, settings.agitated) == (None, None)


def test_what_is_set_for_the_round_is_kept(farm) -> None:
    assert farm.read()[0].settings.day_round == RoundSettings(
        start=time(6, 30), hours=8.0, row_spacing=8.0, litres_per_hectare=1000.0
    )


@pytest.mark.parametrize(
    ("old", "new", "code", "parts"),
    [
        ("hours = 8", "hours = 0", "E-KEY-RANGE", ("round.hours", '"0"', "0.1 to 24")),
        ("hours = 8", "hours = -2", "E-KEY-RANGE", ("round.hours", '"-2"')),
        ("per_hectare = 1000", "per_hectare = -5", "E-KEY-RANGE", ("litres_per_hectare",)),
        ("tank_litres = 2000", "tank_litres = 0", "E-KEY-RANGE", ("sprayers 1.tank_litres",)),
        ("nozzles = 24", "nozzles = 2.5", "E-KEY-KIND", ("sprayers 1.nozzles", "whole number")),
        ("nozzles = 24", "nozzle = 24", "E-KEY-UNKNOWN", ("sprayers 1.nozzle", '"nozzles"')),
        ('"Small sprayer"', '"Large sprayer"', "E-SPRAYER-NAME", ("named twice",)),
        ('name = "Small sprayer"', "", "E-KEY-MISSING", ("sprayers 2.name",)),
        (LISTED, f"[sprayer]\nagitated = true\n{LISTED}", "E-SPRAYER-TWICE", ("[[sprayers]]",)),
        ('"06:30"', '"half past six"', "E-KEY-KIND", ("round.start", "06:30")),
        ('"06:30"', '"24:00"', "E-KEY-KIND", ("round.start", '"24:00"')),
        ('"06:30"', "6.5", "E-KEY-KIND", ("round.start", "a text")),
        ("# litres_per_1000", "litres_per_1000", "E-VOLUME-TWICE", ("[round]", "Keep one")),
    ],
)
def test_a_wrong_key_is_named_with_its_value(farm, old, new, code, parts) -> None:
    farm.swap("farm.toml", old, new)
    line = str(farm.stop(code))
    for part in parts:
        assert part in line


@pytest.mark.parametrize(
    ("table", "key"), [("[[sprayers]]", "sprayers 1.kind"), ("[sprayer]", "sprayer.kind")]
)
def test_a_kind_that_is_not_known_is_named_by_its_sprayer(farm, table, key) -> None:
    one_table(farm, f'{table}\nname = "A"\nkind = "fan"\n')
    issue = farm.stop("E-CHOICE-UNKNOWN")
    assert f'key "{key}"' in issue.where
    assert "known kind of sprayer" in issue.fix


def test_sprayers_that_are_no_list_are_refused(farm) -> None:
    one_table(farm, '[sprayers]\nname = "A"\n')
    assert "[[sprayers]]" in farm.stop("E-KEY-KIND").fix
