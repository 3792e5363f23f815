"""A scouting order and its walk are said in the language spoken, to the last sentence."""

import pytest
from shapely import Point

from geo.errors import InputError
from geo.scouting import plan_scouting_order
from geo.scouting.morning import morning_of
from geo.scouting.plan_walk import plan_walk
from geo.scouting.starts import starts_of
from geo.texts import speaking
from tests.demo_run import demo_outcome
from tests.scouting.test_starts import ORDER, with_places
from tests.spoken import still_english


def test_the_sentences_of_the_demo_s_walk_are_all_said_in_spanish() -> None:
    made = demo_outcome()
    with speaking("es"):
        order = plan_scouting_order(made.farm, made.season)
        morning = morning_of(made.farm, made.season)
        assert morning is not None
        starts, _ = starts_of(made.farm, order)
        walk = plan_walk(
            made.farm, made.season, order, morning=morning, hours=2.0, starts=starts[:1]
        )
    sentences = [
        order.when,
        order.rule,
        *(words for one in order.entries for words in (one.proof, one.reason, one.when)),
        *(one.option for one in order.entries),
        *(one.reason for one in walk.left_out),
        *(stop.stop.reason for visit in walk.visits for stop in visit.stops),
        morning.words,
        walk.ways,
    ]
    assert walk.visits
    assert len(sentences) > len(order.entries)
    names = [*made.farm.blocks.index, *made.farm.neighbours["name"]]
    assert still_english(sentences, names=names) == []
    assert order.when.startswith("Recorrer el ")


def test_a_gate_without_a_name_is_found_by_what_it_is_called_in_the_language_spoken() -> None:
    farm = with_places(("gate", "", Point(1, 2)))
    with speaking("es"):
        assert starts_of(farm, ORDER, "Portón")[0][0][0] == "portón"
        with pytest.raises(InputError, match="Portones de esta finca: portón"):
            starts_of(farm, ORDER, "gate")
