"""Outlines: which are used, which set aside, how large they are."""

import geopandas as gpd
import numpy as np
import pytest
import shapely
from pyproj import Geod

from geo.inputs.sound import geodesic_area

BLOCKS = "blocks.geojson"
BOW_TIE = {
    "type": "Polygon",
    "coordinates": [
        [[-105.80, 23.70], [-105.79, 23.71], [-105.79, 23.70], [-105.80, 23.71], [-105.80, 23.70]]
    ],
}


def test_a_file_that_is_no_map_is_refused(farm):
    (farm.folder / BLOCKS).write_text("no map", "utf-8")
    assert BLOCKS in farm.stop("E-VECTOR").where


def test_a_map_without_features_is_refused(farm):
    farm.write_features(BLOCKS, [])
    assert farm.stop("E-VECTOR-EMPTY").where == BLOCKS


def test_a_missing_column_is_named_with_the_nearest(farm):
    farm.swap(BLOCKS, '"block_id"', '"blokk"')
    assert '"blokk"' in farm.stop("E-COLUMN-MISSING").fix


def test_columns_are_found_whatever_their_case(farm):
    farm.swap(BLOCKS, '"block_id"', '"BLOCK_ID"')
    farm.swap(BLOCKS, '"cultivar"', '"Cultivar"')
    assert len(farm.read()[0].blocks) == 24


@pytest.mark.parametrize("name", ["blocks.gpkg", "blocks.shp"])
def test_outlines_without_a_system_are_refused(farm, name):
    frame = gpd.read_file(farm.folder / BLOCKS).rename(columns={"mildew_last_season": "mildew"})
    with pytest.warns(UserWarning, match="crs"):
        frame.set_crs(None, allow_override=True).to_file(farm.folder / name)
    farm.swap("farm.toml", BLOCKS, name)
    assert farm.stop("E-CRS-MISSING").where == name


@pytest.mark.parametrize("name", ["blocks.geojson", "neighbours.geojson", "places.geojson"])
def test_outlines_on_a_grid_of_the_farm_s_own_are_refused(farm, name):
    grid = (
        'LOCAL_CS["farm grid",LOCAL_DATUM["stake",0],UNIT["metre",1],AXIS["X",EAST],'
        'AXIS["Y",NORTH]]'
    )
    frame = gpd.read_file(farm.folder / name).set_crs(grid, allow_override=True)
    frame.to_file(farm.folder / "own.gpkg")
    farm.swap("farm.toml", name, "own.gpkg")
    issue = farm.stop("E-CRS-UNUSABLE")
    assert issue.where == "own.gpkg"
    assert '"farm grid"' in issue.found


def test_heights_without_a_place_are_no_system(farm):
    frame = gpd.read_file(farm.folder / BLOCKS).set_crs(5703, allow_override=True)
    frame.to_file(farm.folder / "own.gpkg")
    farm.swap("farm.toml", BLOCKS, "own.gpkg")
    assert "NAVD88" in farm.stop("E-CRS-UNUSABLE").found


@pytest.mark.parametrize("corner", [(np.nan, 23.7), (-105.8, np.inf), (-np.inf, np.nan)])
@pytest.mark.parametrize("system", [4326, 6372])
@pytest.mark.filterwarnings("ignore:invalid value encountered:RuntimeWarning")
def test_a_corner_that_is_no_number_sets_its_block_aside(farm, corner, system):
    frame = gpd.read_file(farm.folder / BLOCKS).to_crs(system)
    ring = shapely.get_coordinates(frame.geometry[0])
    frame.loc[0, "geometry"] = shapely.Polygon([*ring[:-1], corner, ring[0]])
    frame.to_file(farm.folder / "blocks.gpkg")
    farm.swap("farm.toml", BLOCKS, "blocks.gpkg")
    issue = farm.only("E-OUTLINE-CORNER")
    assert issue.outcome == "HOLD"
    assert issue.where == 'blocks.gpkg feature 1 "B01"'
    assert issue.found == "a corner is no number"
    assert farm.read()[0].blocks.index[0] == "B02"


def test_a_corner_beyond_the_system_s_reach_sets_its_block_aside(farm):
    frame = gpd.read_file(farm.folder / BLOCKS).to_crs(32613)
    frame.loc[2, "geometry"] = shapely.box(1e9, 1e9, 1.1e9, 1.1e9)
    frame.to_file(farm.folder / "blocks.gpkg")
    farm.swap("farm.toml", BLOCKS, "blocks.gpkg")
    issue = farm.only("E-OUTLINE-CORNER")
    assert issue.where == 'blocks.gpkg feature 3 "B03"'
    assert "does not reach" in issue.found


@pytest.mark.parametrize(
    ("name", "escaped"),
    [
        ("B0\x011", r"B0\x011"),
        ("B\x1b[2J1", r"B\x1b[2J1"),
        ("B\n1", r"B\n1"),
        ("B\u202e10", r"B\u202e10"),
        ("B\u20281", r"B\u20281"),
    ],
)
@pytest.mark.parametrize(
    ("file", "key"), [(BLOCKS, "block_id"), ("neighbours.geojson", "neighbour_id")]
)
def test_an_id_with_control_characters_is_set_aside_and_escaped(farm, name, escaped, file, key):
    farm.feature(file, 1, **{key: name})
    issue = farm.only("E-ID-CHARACTER")
    assert issue.outcome == "HOLD"
    assert issue.where == f'{file} feature 1 "{escaped}"'
    assert f'"{escaped}"' in issue.found
    read, season = farm.read()
    assert name not in [*read.blocks.index, *read.neighbours.index]
    assert all(str(said).isprintable() for said in read.issues)
    assert name not in season.source.values


def test_letters_of_any_script_may_be_ids(farm):
    farm.feature(BLOCKS, 1, block_id="भाग‍1 Ñ")
    assert farm.read()[0].blocks.index[0] == "भाग‍1 Ñ"


def test_rows_about_an_id_with_control_characters_are_named_escaped(farm):
    farm.feature(BLOCKS, 1, block_id="B\x1b01")
    farm.add("diary.csv", "2026-02-10", "06:00", "B\x1b01", "sulfur", "", "")
    assert r'"B\x1b01"' in farm.only("E-BLOCK-HELD").found


def test_outlines_of_any_system_give_the_same_farm(farm, demo):
    frame = gpd.read_file(farm.folder / BLOCKS).to_crs("EPSG:6372")
    frame.to_file(farm.folder / "blocks.gpkg")
    farm.swap("farm.toml", BLOCKS, "blocks.gpkg")
    read, season = farm.read()
    assert read.crs.to_epsg() == 32613
    np.testing.assert_allclose(season.area, demo[1].area, rtol=1e-6)
    np.testing.assert_allclose(season.edge_start_x, demo[1].edge_start_x, atol=0.01)


def test_several_layers_are_named_and_refused(farm):
    frame = gpd.read_file(farm.folder / BLOCKS)
    frame.to_file(farm.folder / "all.gpkg", layer="north")
    frame.to_file(farm.folder / "all.gpkg", layer="south")
    farm.swap("farm.toml", BLOCKS, "all.gpkg")
    assert '2 layers: "north" (24 features), "south" (24 features)' in farm.stop("E-LAYERS").found


def test_metres_called_degrees_are_refused(farm):
    farm.feature(BLOCKS, 3, geometry={"type": "Point", "coordinates": [418000.0, 2621000.0]})
    issue = farm.stop("E-CRS-RANGE")
    assert issue.where == f"{BLOCKS} feature 3"
    assert "418000" in issue.found


def test_heights_are_left_out_and_said(farm):
    ring = farm.features(BLOCKS)[0]["geometry"]["coordinates"][0]
    high = {"type": "Polygon", "coordinates": [[[*spot, 400.0] for spot in ring]]}
    farm.feature(BLOCKS, 1, geometry=high)
    assert farm.only("E-HEIGHTS").outcome == "FIX"


def test_a_crossed_outline_is_set_aside_with_the_crossing(farm):
    farm.feature(BLOCKS, 7, geometry=BOW_TIE)
    issue = farm.only("E-OUTLINE-CROSSED")
    assert issue.outcome == "HOLD"
    assert issue.where == f'{BLOCKS} feature 7 "B07"'
    assert "self-intersection" in issue.found
    assert "23.70500, -105.79500" in issue.found
    read, season = farm.read()
    assert "B07" not in read.blocks.index
    assert season.sizes["block"] == 23
    outlines = next(file for file in read.files if file.role == "outlines")
    assert (outlines.used, outlines.held) == (23, 1)


def test_rows_about_a_block_set_aside_are_left_out_with_one_note(farm):
    farm.feature(BLOCKS, 7, geometry=BOW_TIE)
    notes = farm.issues("E-BLOCK-HELD")
    assert [note.where for note in notes] == [
        "diary.csv column block_id",
        "scouting.csv column block_id",
    ]
    assert not farm.issues("E-BLOCK-UNKNOWN")
    assert (farm.read()[1].spray_block.values < 23).all()


@pytest.mark.parametrize(
    ("geometry", "code"),
    [
        ({"type": "Point", "coordinates": [-105.80, 23.70]}, "E-OUTLINE-KIND"),
        ({"type": "Polygon", "coordinates": []}, "E-OUTLINE-EMPTY"),
        (
            {"type": "Polygon", "coordinates": [[[-105.80, 23.70], [-105.79, 23.71]]]},
            "E-OUTLINE-EMPTY",
        ),
    ],
)
def test_what_is_no_area_is_set_aside(farm, geometry, code):
    farm.feature(BLOCKS, 5, geometry=geometry)
    issue = farm.only(code)
    assert issue.outcome == "HOLD"
    assert '"B05"' in issue.where


def test_what_the_reader_only_warns_of_is_said(farm):
    ring = farm.features(BLOCKS)[0]["geometry"]["coordinates"][0][:-1]
    farm.feature(BLOCKS, 1, geometry={"type": "Polygon", "coordinates": [ring]})
    assert "Non closed ring" in farm.only("E-VECTOR-WARNING").found


def test_a_block_without_outline_is_set_aside(farm):
    features = farm.features(BLOCKS)
    features[1]["geometry"] = None
    farm.write_features(BLOCKS, features)
    assert '"B02"' in farm.only("E-OUTLINE-EMPTY").where


def test_a_block_without_id_is_set_aside(farm):
    farm.feature(BLOCKS, 21, block_id=" ")
    assert farm.only("E-ID-EMPTY").where == f'{BLOCKS} feature 21 ""'


def test_a_farm_with_no_sound_block_is_refused(farm):
    farm.write_features(BLOCKS, farm.features(BLOCKS)[:1])
    farm.feature(BLOCKS, 1, geometry=BOW_TIE)
    assert {issue.code for issue in farm.stopped()} == {"E-NO-BLOCK", "E-OUTLINE-CROSSED"}


def test_an_id_given_twice_is_refused(farm):
    farm.feature(BLOCKS, 9, block_id="B01")
    issue = farm.stop("E-ID-TWICE")
    assert "feature 9" in issue.where
    assert 'feature 1 "B01"' in issue.found


@pytest.mark.parametrize("twin", [" b01", "Ｂ01", "B1", "Block B01"])
def test_ids_that_differ_only_in_writing_are_both_set_aside(farm, twin):
    farm.feature(BLOCKS, 9, block_id=twin)
    held = farm.issues("E-ID-LIKE")
    assert [issue.outcome for issue in held] == ["HOLD", "HOLD"]
    assert "feature 9" in held[1].where
    assert 'feature 1 "B01"' in held[1].found


def test_numbers_may_be_ids(farm):
    features = farm.features(BLOCKS)
    for number, feature in enumerate(features, start=1):
        feature["properties"]["block_id"] = number
        feature["properties"]["planted"] = None if number == 2 else 2001
    farm.write_features(BLOCKS, features)
    blocks = farm.read()[0].blocks
    assert blocks.index.tolist()[:3] == ["1", "2", "3"]
    assert blocks["planted"].isna().tolist()[:3] == [False, True, False]


def test_an_impossible_planting_year_is_unknown_and_said(farm):
    farm.feature(BLOCKS, 4, planted=5)
    assert '"5" is not a planting year' in farm.only("E-PLANTED").found
    assert np.isnan(farm.read()[0].blocks.loc["B04", "planted"])


def test_a_note_is_kept_as_it_was_written_and_may_be_left_out(farm):
    assert (farm.read()[0].blocks["note"] == "").all()
    farm.feature(BLOCKS, 4, note="=Late urea; <b>young</b> leaves")
    assert farm.read()[0].blocks.loc["B04", "note"] == "=Late urea; <b>young</b> leaves"


def test_last_season_s_mildew_is_0_or_1(farm, demo):
    features = farm.features(BLOCKS)
    for feature, value in zip(features, ["yes", "0", "perhaps", ""], strict=False):
        feature["properties"]["mildew_last_season"] = value
    for feature in features[4:]:
        feature["properties"]["mildew_last_season"] = "1"
    farm.write_features(BLOCKS, features)
    assert '"perhaps"' in farm.only("E-MILDEW").found
    assert farm.read()[1].had_mildew_last_season.values[:5].tolist() == [1, 0, 0, 0, 1]
    assert demo[1].had_mildew_last_season.sum() == 8


def test_a_block_without_name_goes_by_its_id(farm):
    farm.feature(BLOCKS, 4, name=None)
    assert farm.read()[0].blocks.loc["B04", "name"] == "B04"


def test_area_is_that_of_the_ellipsoid_with_holes_out_and_parts_added(demo, farm):
    geod = Geod(ellps="WGS84")

    def ring_area(ring):
        longitude, latitude = np.array(ring).T
        return abs(geod.polygon_area_perimeter(longitude, latitude)[0]) / 1e4

    for feature, area in zip(farm.features(BLOCKS), demo[1].area.values, strict=True):
        kind, parts = feature["geometry"]["type"], feature["geometry"]["coordinates"]
        parts = [parts] if kind == "Polygon" else parts
        whole = sum(ring_area(outer) - sum(map(ring_area, holes)) for outer, *holes in parts)
        assert area == pytest.approx(whole, rel=1e-9)


def test_area_does_not_depend_on_the_map_system():
    box = gpd.GeoDataFrame(
        geometry=[shapely.segmentize(shapely.box(-105.5, 23.5, -105.4, 23.6), 0.001)],
        crs=4326,
    )
    assert geodesic_area(box.to_crs(3857)) == pytest.approx(geodesic_area(box), rel=1e-6)
    assert box.to_crs(3857).area[0] / 1e4 > 1.15 * geodesic_area(box)[0]


def test_a_neighbour_may_not_have_a_block_s_id(farm):
    farm.feature("neighbours.geojson", 2, neighbour_id="b07")
    issue = farm.stop("E-ID-TWICE")
    assert issue.where == "neighbours.geojson"
    assert '"b07"' in issue.found


def test_an_unknown_status_is_unknown_and_said(farm):
    farm.feature("neighbours.geojson", 1, status="bad")
    farm.feature("neighbours.geojson", 2, status="Suspected", name="")
    assert farm.only("E-STATUS").outcome == "NOTE"
    read, season = farm.read()
    assert season.source_status.values[-2:].tolist() == ["unknown", "suspected"]
    assert read.neighbours["name"].tolist()[1] == "N2"


def test_sources_are_blocks_then_neighbours(demo):
    read, season = demo
    assert season.source.values.tolist() == [*read.blocks.index, "N1", "N2"]
    assert season.source_status.values.tolist() == ["scouted"] * 24 + ["known", "unknown"]


@pytest.mark.published("karney2013", "Table 2, direct problem, from memory")
def test_the_geodesics_that_areas_rest_on_give_the_published_example() -> None:
    longitude, latitude, back_azimuth = Geod(ellps="WGS84").fwd(0.0, 40.0, 30.0, 10_000_000.0)
    assert latitude == pytest.approx(41.79331020506, abs=5e-12)
    assert longitude == pytest.approx(137.84490004377, abs=5e-12)
    assert back_azimuth + 180.0 == pytest.approx(149.09016931807, abs=5e-12)
