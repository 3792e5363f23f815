"""Where a walk begins: at a gate by name, at the best of all, or where no gate is drawn."""

from dataclasses import replace

import geopandas as gpd
import pytest
from shapely import LineString, Point

from geo.errors import InputError
from geo.scouting.starts import MOST_GATES, starts_of
from geo.season.farm import Farm
from tests.laws.made_farm import made_farm
from tests.scouting.made_walk import entry, order_of

ORDER = order_of(entry(1, "B2"), entry(2, "B1"))


def with_places(*places: tuple[str, str, object]) -> Farm:
    farm = made_farm()
    kinds, names, shapes = zip(*places, strict=True)
    drawn = gpd.GeoDataFrame({"kind": kinds, "name": names}, geometry=list(shapes), crs=farm.crs)
    return replace(farm, places=drawn)


def test_a_gate_is_found_by_its_name_however_it_is_typed() -> None:
    farm = with_places(("gate", "East Gate", Point(1, 2)), ("gate", "", Point(3, 4)))
    ((name, point),), note = starts_of(farm, ORDER, " east gate ")
    assert (name, point.x, point.y, note) == ("East Gate", 1.0, 2.0, "")


def test_an_unknown_gate_is_refused_with_those_there_are() -> None:
    farm = with_places(
        ("gate", "East", Point(1, 2)), ("gate", "West", LineString([(3, 4), (3, 6)]))
    )
    with pytest.raises(InputError, match=r'no gate "North"\. Gates of this farm: East, West'):
        starts_of(farm, ORDER, "North")
    with pytest.raises(InputError, match="none is drawn among the places"):
        starts_of(made_farm(), ORDER, "North")


def test_without_a_name_any_gate_will_do_the_nearest_first_and_not_too_many() -> None:
    farm = with_places(*(("gate", f"G{east}", Point(east * 1000, 0)) for east in range(30)))
    starts, note = starts_of(farm, ORDER)
    assert len(starts) == MOST_GATES
    first = farm.blocks.geometry.loc["B2"]
    far = [first.distance(point) for _, point in starts]
    assert far == sorted(far)
    assert note == ""


def test_without_a_gate_the_walk_begins_at_the_shed_or_at_the_first_block() -> None:
    ((name, _),), note = starts_of(with_places(("shed", "Old shed", Point(0, 0))), ORDER)
    assert name == "Old shed"
    assert note == "No gate is drawn among the places: the walk begins at Old shed."
    ((name, point),), note = starts_of(made_farm(), ORDER)
    assert name == "the edge of B2"
    assert made_farm().blocks.geometry.loc["B2"].boundary.distance(point) == 0
    assert "the way to it is not counted" in note
