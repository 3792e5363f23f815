"""Places: things to draw and to route by."""

import geopandas as gpd
import numpy as np
import pytest
import shapely

PLACES = "places.geojson"


def test_places_are_in_the_farm_s_system(demo):
    read, _ = demo
    assert read.places.crs == read.crs
    assert read.places["kind"].value_counts().to_dict() == {
        "track": 8,
        "gate": 3,
        "shed": 1,
        "water": 1,
        "station": 1,
        "house": 1,
        "hive": 1,
    }


def test_an_unknown_kind_is_set_aside(farm):
    farm.feature(PLACES, 6, kind="door")
    issue = farm.only("E-PLACE-KIND")
    assert issue.outcome == "HOLD"
    assert issue.where == f'{PLACES} feature 6 "West gate" column kind'
    assert '"door"' in issue.found
    places = next(file for file in farm.read()[0].files if file.role == "places")
    assert (places.used, places.held) == (15, 1)


def test_a_place_that_is_not_drawn_is_set_aside(farm):
    farm.feature(PLACES, 9, geometry={"type": "LineString", "coordinates": []})
    assert "Sprayer shed" in farm.only("E-OUTLINE-EMPTY").where


def test_kinds_are_read_whatever_their_case(farm):
    farm.feature(PLACES, 9, kind="Shed")
    assert "shed" in farm.read()[0].places["kind"].tolist()


@pytest.mark.filterwarnings("ignore:invalid value encountered:RuntimeWarning")
def test_a_track_with_a_corner_that_is_no_number_is_set_aside(farm):
    frame = gpd.read_file(farm.folder / PLACES)
    frame.loc[0, "geometry"] = shapely.LineString([(-105.80, 23.70), (np.inf, 23.71)])
    frame.to_file(farm.folder / "places.gpkg")
    farm.swap("farm.toml", PLACES, "places.gpkg")
    issue = farm.only("E-OUTLINE-CORNER")
    assert issue.outcome == "HOLD"
    assert issue.where.startswith("places.gpkg feature 1 ")
    assert len(farm.read()[0].places) == 15
