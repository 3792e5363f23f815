"""Dams and drains of the places file on the cells they cross."""

import geopandas as gpd
import numpy as np
import pytest
import shapely

from geo.inputs.drawn_lines import drawn_lines
from geo.inputs.elevation import Ground

PLACES = "places.geojson"


def lines_of(*rows):
    kinds, heights, shapes = zip(*rows, strict=True)
    places = gpd.GeoDataFrame({"kind": kinds, "height": heights}, geometry=list(shapes), crs=32613)
    return drawn_lines(places, Ground(np.zeros((10, 10)), 0.0, 100.0, 10.0, 10.0))


def test_a_slanting_line_leaves_no_gap_between_cells():
    line = shapely.LineString([(3.0, 2.0), (97.0, 88.0)])
    lines = lines_of(("dam", 3.0, line), ("track", np.nan, line))
    rows, columns = divmod(lines.cell, 10)
    cells = shapely.box(
        10.0 * columns, 90.0 - 10.0 * rows, 10.0 * columns + 10.0, 100 - 10.0 * rows
    )
    assert line.difference(shapely.union_all(cells)).length == pytest.approx(0.0)
    # Sides of cells, not corners alone, join them.
    steps = np.abs(np.diff(sorted(zip(columns, -rows, strict=True)), axis=0)).sum(axis=1)
    assert (steps == 1).all()
    assert (lines.is_drain == 0).all()
    assert (lines.height == 3.0).all()
    assert lines.beyond == 0


def test_a_line_beyond_the_ground_is_counted():
    far = shapely.LineString([(500.0, 500.0), (600.0, 500.0)])
    near = shapely.LineString([(15.0, 15.0), (15.0, 35.0)])
    lines = lines_of(("dam", 3.0, far), ("drain", np.nan, near))
    assert lines.beyond == 1
    assert lines.is_drain.tolist() == [1, 1, 1]
    assert np.isnan(lines.height).all()


def test_without_lines_there_is_nothing_and_nothing_is_said(demo):
    read, season = demo
    assert season.sizes["line"] == 0
    assert not [issue for issue in read.issues if issue.code == "E-DRAWN-LINES"]


def test_dams_and_drains_reach_the_season_and_are_counted_in_a_note(farm):
    farm.feature(PLACES, 1, kind="dam", height_m=3.5)
    farm.feature(PLACES, 2, kind="Drain")
    note = farm.only("E-DRAWN-LINES")
    assert note.outcome == "NOTE"
    assert "1 of kind dam, 1 of kind drain; 1 without a height or depth" in note.found
    assert "beyond" not in note.found
    _, season = farm.read()
    is_drain = season.line_is_drain.values == 1
    assert 0 < is_drain.sum() < is_drain.size
    assert np.isnan(season.line_height.values[is_drain]).all()
    assert (season.line_height.values[~is_drain] == 3.5).all()


def test_a_line_beyond_the_elevation_file_is_said(farm):
    far = {"type": "LineString", "coordinates": [[-105.0, 23.7], [-105.0, 23.71]]}
    farm.feature(PLACES, 1, kind="dam", height_m=2, geometry=far)
    expected = "1 of kind dam, 0 of kind drain; 1 beyond the elevation file"
    assert farm.only("E-DRAWN-LINES").found.endswith(expected)


def test_a_windbreak_with_all_its_numbers_assumes_nothing(farm):
    farm.feature(PLACES, 1, kind="windbreak", height_m=9, porosity=0)
    assert farm.only("E-WINDBREAKS").found.endswith(": 1")


def test_a_dam_that_is_a_point_is_set_aside(farm):
    farm.feature(PLACES, 6, kind="dam")
    issue = farm.only("E-PLACE-LINE")
    assert issue.outcome == "HOLD"
    assert "a dam that is no line" in issue.found
    assert not farm.issues("E-DRAWN-LINES")


@pytest.mark.parametrize("written", ["tall", "0", "-2", "200", "inf"])
def test_a_height_that_is_none_is_set_aside(farm, written):
    farm.feature(PLACES, 1, kind="dam", height_m=written)
    issue = farm.only("E-PLACE-HEIGHT")
    assert issue.outcome == "HOLD"
    assert f'"{written}"' in issue.found
    assert issue.where.endswith("column height_m")
    places = next(file for file in farm.read()[0].files if file.role == "places")
    assert (places.used, places.held) == (len(farm.features(PLACES)) - 1, 1)


def test_windbreaks_reach_the_season_piece_by_piece_and_are_counted(farm):
    bent = {
        "type": "LineString",
        "coordinates": [[-105.8, 23.7], [-105.79, 23.7], [-105.79, 23.71]],
    }
    farm.feature(PLACES, 1, kind="windbreak", height_m=12, porosity=0.3, geometry=bent)
    farm.feature(PLACES, 2, kind="windbreak")
    note = farm.only("E-WINDBREAKS")
    assert note.outcome == "NOTE"
    assert ": 2; 1 without a height or porosity" in note.found
    _, season = farm.read()
    assert season.windbreak_height.values[:2].tolist() == [12.0, 12.0]
    assert season.windbreak_porosity.values[:2].tolist() == [0.3, 0.3]
    assert np.isnan(season.windbreak_height.values[2:]).all()
    assert season.windbreak_end_x.values[0] == season.windbreak_start_x.values[1]
    assert season.sizes["line"] == 0


@pytest.mark.parametrize("written", ["dense", "-0.1", "30"])
def test_a_porosity_that_is_no_share_is_set_aside(farm, written):
    farm.feature(PLACES, 1, kind="windbreak", porosity=written)
    issue = farm.only("E-PLACE-POROSITY")
    assert issue.outcome == "HOLD"
    assert f'"{written}"' in issue.found
    assert not farm.issues("E-WINDBREAKS")
