"""The layers stand in an order in which each finds what it needs."""

from geo.pipeline.order import ORDER
from geo.season import VOCABULARY
from geo.season.contract import check
from tests.demo_run import demo_outcome


def test_no_layer_needs_what_a_later_one_gives() -> None:
    for place, layer in enumerate(ORDER):
        later = {variable.name for after in ORDER[place:] for variable in after.gives}
        assert later.isdisjoint(variable.name for variable in layer.needs), layer.name


def test_each_variable_is_given_once() -> None:
    given = [variable.name for layer in ORDER for variable in layer.gives]
    assert len(given) == len(set(given))


def test_a_layer_is_named_after_its_room_or_for_a_second_one_its_subject() -> None:
    second = {"pools": "geo.weather.fit_layer", "cells": "geo.infection.cells_layer"}
    for layer in ORDER:
        assert layer.compute.__module__ == second.get(layer.name, f"geo.{layer.name}.layer")


def test_a_finished_season_holds_the_whole_vocabulary_within_its_bounds() -> None:
    check(demo_outcome().season, VOCABULARY.values(), of="the demo")


def test_each_variable_of_a_layer_says_its_unit_its_meaning_and_its_maker() -> None:
    season = demo_outcome().season
    for layer in ORDER:
        for variable in layer.gives:
            said = season[variable.name].attrs
            assert said["units"] == variable.unit
            assert said["long_name"] == variable.meaning
            assert said["made_by"] == layer.name
