"""Ways of a farm: blocks by their gates, water and shed, and what is said where one is missing."""

from dataclasses import replace

import geopandas as gpd
import pytest
import shapely

from geo.routing.farm_ways import farm_ways, in_degrees
from geo.season import Farm
from tests.demo_run import demo_outcome

CRS = "EPSG:32613"
TRACK = ("track", "Long track", shapely.LineString([(0, 0), (400, 0)]))
SHED = ("shed", "Shed", shapely.Point(0, 0))
WATER = ("water", "", shapely.Point(400, 0))


def made(*places: tuple[str, str, object]) -> Farm:
    """Return a farm of two blocks above a track at height 0."""
    kinds, names, shapes = zip(*places, strict=True) if places else ((), (), ())
    drawn = gpd.GeoDataFrame({"kind": kinds, "name": names}, geometry=list(shapes), crs=CRS)
    blocks = gpd.GeoDataFrame(
        index=["A", "B"],
        geometry=[shapely.box(100, 10, 200, 110), shapely.box(250, 10, 350, 110)],
        crs=CRS,
    )
    return replace(demo_outcome().farm, blocks=blocks, places=drawn, crs=blocks.crs)


def test_a_block_is_entered_where_it_is_nearest_to_a_track() -> None:
    found = farm_ways(made(TRACK, SHED, WATER))
    assert found.gates == (None, None)
    assert found.ways.point[0, 1] == 10.0
    assert (found.waters, found.water_names) == ((2,), ("water 1",))
    assert (found.start, found.start_name) == (3, "Shed")
    assert found.ways.distance[2, 3] == pytest.approx(400.0, abs=0.01)
    assert found.notes == ()


def test_a_gate_near_the_outline_is_where_the_block_is_entered() -> None:
    found = farm_ways(made(TRACK, SHED, WATER, ("gate", "Gate", shapely.Point(180, 5))))
    assert found.gates == ("Gate", None)
    assert found.ways.point[0].tolist() == [180.0, 5.0]
    assert found.ways.distance[0, found.start] == pytest.approx(185.0, abs=0.01)


def test_a_gate_that_is_moved_changes_the_way() -> None:
    near, far = (
        farm_ways(made(TRACK, SHED, WATER, ("gate", "Gate", shapely.Point(x, 5))))
        for x in (110, 190)
    )
    assert far.ways.distance[0, far.start] - near.ways.distance[0, near.start] == pytest.approx(80)


def test_without_tracks_ways_are_straight_and_that_is_said() -> None:
    found = farm_ways(made(SHED, WATER))
    assert found.ways.is_straight[0, found.start]
    assert found.notes == (
        "No place of kind track is drawn: all ways are straight lines, and too short.",
    )


def test_a_block_that_no_track_reaches_is_named() -> None:
    short = ("track", "", shapely.LineString([(0, 0), (50, 0)]))
    other = ("track", "", shapely.LineString([(250, 0), (350, 0)]))
    found = farm_ways(made(short, other, SHED))
    assert "No track joins 1 of 2 blocks (B) to the start" in found.notes[1]


def test_a_block_off_every_track_is_named_with_what_is_driven_straight() -> None:
    far = ("track", "Far track", shapely.LineString([(0, -60), (400, -60)]))
    found = farm_ways(made(far, ("shed", "Shed", shapely.Point(0, -60)), WATER))
    assert found.ways.off_track[:2].tolist() == [70.0, 70.0]
    said = "2 of 2 blocks lie more than 25 m from every track (A, B): from there to the track the "
    assert found.notes == (f"{said}way is a straight line.",)


def test_tracks_joined_over_a_gap_are_said_with_the_gap() -> None:
    rest = ("track", "", shapely.LineString([(403, 0), (500, 0)]))
    assert "within 5 m" in farm_ways(made(TRACK, rest, SHED, WATER)).notes[0]


@pytest.mark.parametrize(
    ("places", "name"),
    [
        ((TRACK, ("gate", "West", shapely.Point(0, 0)), WATER), "West"),
        ((TRACK, WATER), "water 1"),
        ((TRACK,), "the first block"),
        ((), "the first block"),
    ],
)
def test_without_a_shed_it_is_said_where_sprayers_leave_from(places, name) -> None:
    found = farm_ways(made(*places))
    assert found.start_name == name
    assert name in found.notes[0]


def test_without_water_tanks_are_filled_at_the_start() -> None:
    found = farm_ways(made(TRACK, SHED))
    assert (found.waters, found.water_names) == ((2,), ("Shed",))
    assert "tanks are filled at Shed" in found.notes[0]


def test_the_made_farm_s_tracks_lead_to_every_block() -> None:
    farm = demo_outcome().farm
    found = farm_ways(farm)
    assert not found.ways.is_straight.any()
    assert found.ways.off_track[: len(farm.blocks)].max() < 25.0
    assert found.gates[farm.blocks.index.get_loc("B13")] == "Bench gate"
    way = in_degrees(found.ways.bends(0, found.start), farm.crs)
    assert len(way) > 2
    assert all(-106 < longitude < -105 and 23 < latitude < 24 for longitude, latitude in way)
