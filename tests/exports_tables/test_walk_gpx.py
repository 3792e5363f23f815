"""The walk on a phone: the gate and every tree by name, and the way past them."""

from pathlib import Path

import gpxpy
import pytest
import shapely

from geo.exports.walk_gpx import write_walk_gpx
from geo.scouting.plan_walk import plan_walk
from tests.exports.made import made
from tests.scouting.made_walk import entry, morning, order_of


def test_each_tree_is_a_waypoint_and_the_way_leads_from_gate_to_gate(tmp_path: Path) -> None:
    farm_made = made()
    farm = farm_made.farm
    gate = farm.places[farm.places["kind"] == "gate"].iloc[0]
    walk = plan_walk(
        farm,
        farm_made.season,
        order_of(entry(1, "B01"), entry(2, "B06", count=7)),
        morning=morning(["B01", "B06"]),
        hours=2.0,
        starts=[("Main gate", gate.geometry)],
    )
    path = tmp_path / "walk.gpx"
    write_walk_gpx(path, farm=farm, walk=walk, disease="powdery mildew on panicles")
    back = gpxpy.parse(path.read_text("utf-8"))
    assert "planned, not walked; tracks" in str(back.description)
    first, *trees = back.waypoints
    assert (first.name, first.type) == ("Main gate", "gate")
    assert len(trees) == 12
    assert [str(tree.name)[:2] for tree in trees] == [f"{number:02d}" for number in range(1, 13)]
    degrees = farm.blocks.to_crs("EPSG:4326").geometry
    for tree in trees:
        block = str(tree.name).split()[1]
        assert degrees.loc[block].contains(shapely.Point(tree.longitude, tree.latitude))
        assert len(str(tree.comment)) <= 80
    (route,), (track,) = back.routes, back.tracks
    names = [point.name for point in route.points]
    assert names == ["Main gate", *(tree.name for tree in trees), "Main gate"]
    ends = track.segments[0].points[0], track.segments[0].points[-1]
    assert ends[0].latitude == ends[1].latitude == pytest.approx(first.latitude)
    assert track.length_2d() == pytest.approx(walk.metres, rel=0.01)
