"""Several stations in farm.toml: their order tells nothing, their gaps are covered."""

import tomllib

import numpy as np
import pytest

from tests.inputs.conftest import DEMO

ONE = """
[[stations]]
name = "{name}"
longitude = {longitude}
latitude = {latitude}
elevation = {elevation}
wind_height = 2.0
weather = "{weather}"
"""
_STATION = tomllib.loads((DEMO / "farm.toml").read_text("utf-8"))["station"]
HEIGHT = _STATION["elevation"]
HOLLOW = {
    "name": "Hollow",
    "longitude": _STATION["longitude"],
    "latitude": _STATION["latitude"],
    "elevation": HEIGHT,
    "weather": "station.csv",
}
RIDGE = {
    "name": "Ridge",
    "longitude": -105.78,
    "latitude": 23.72,
    "elevation": HEIGHT + 100,
    "weather": "ridge.csv",
}
RIDGE_HEIGHT = f"elevation = {HEIGHT + 100}"
FORECAST = "[forecast]\nwind_height = 10.0\n"


def with_stations(farm, *stations, forecast=FORECAST):
    """List stations in place of the one, each with a file of its own."""
    path = farm.folder / "farm.toml"
    text = path.read_text("utf-8")
    before, _, rest = text.partition("[station]")
    after = rest[rest.index("[plan]") :]
    before = before.replace('weather = "station.csv"', "")
    listed = "".join(ONE.format(**station) for station in stations)
    path.write_text(before + listed + forecast + after, "utf-8")
    rows = farm.table("station.csv")
    for name in {station["weather"] for station in stations} - {"station.csv"}:
        cooler = [[row[0], f"{float(row[1]) - 0.65:.2f}", *row[2:]] for row in rows[1:]]
        farm.write_table(name, [rows[0], *cooler])


def test_a_list_of_one_station_is_that_station_exactly(farm, demo):
    with_stations(farm, HOLLOW)
    season = farm.read()[1]
    assert season.station.values.tolist() == ["Hollow"]
    assert season.drop_vars("station").identical(demo[1].drop_vars("station"))


def test_the_order_in_the_file_changes_nothing(farm):
    with_stations(farm, HOLLOW, RIDGE)
    one = farm.read()[1]
    with_stations_again = [RIDGE, HOLLOW]
    text = (farm.folder / "farm.toml").read_text("utf-8")
    start, end = text.index("[[stations]]"), text.index("[forecast]")
    listed = "".join(ONE.format(**station) for station in with_stations_again)
    (farm.folder / "farm.toml").write_text(text[:start] + listed + text[end:], "utf-8")
    assert farm.read()[1].identical(one)


def test_the_weather_holds_for_the_mean_height_of_the_blocks(farm, demo):
    with_stations(farm, HOLLOW, RIDGE)
    read, season = farm.read()
    ground = season.elevation_grid.values.ravel()[season.cover_cell.values]
    mean = np.average(ground, weights=season.cover_share.values)
    assert read.station_elevation == float(season.station_elevation) == pytest.approx(mean)
    assert season.station.values.tolist() == ["Hollow", "Ridge"]
    assert season.station_weight.values.sum() == pytest.approx(1.0)
    assert season.station_weight.values[0] > 0.5
    # By day both agree once they are brought to one height, since the ridge's lapse is usual.
    measured = season.is_forecast.values == 0
    by_day = measured & (season.solar_elevation.values > 60.0)
    shift = 0.0065 * (HEIGHT - float(season.station_elevation))
    np.testing.assert_allclose(
        season.air_temperature.values[by_day],
        demo[1].air_temperature.values[by_day] + shift,
        atol=0.02,
    )


def test_a_long_gap_of_one_station_is_left_to_the_other_and_said(farm):
    with_stations(farm, HOLLOW, RIDGE)
    farm.drop("station.csv", 500, 520)
    issue = farm.only("E-STATION-SILENT")
    assert issue.outcome == "NOTE"
    assert issue.where == "station.csv"
    assert "21 h" in issue.found
    _, season = farm.read()
    assert not season.is_filled.any()
    share = season.station_weight.values
    assert share.sum() == pytest.approx(1.0)


def test_a_long_gap_of_all_stations_is_refused(farm):
    with_stations(farm, HOLLOW, RIDGE)
    farm.drop("station.csv", 500, 505)
    farm.drop("ridge.csv", 500, 505)
    issue = farm.stop("E-WEATHER-GAP")
    assert issue.where == "station.csv row 499"
    assert "for 6 h" in issue.found


def test_each_file_of_a_station_is_on_record(farm):
    with_stations(farm, HOLLOW, RIDGE)
    roles = {file.role: file.path.name for file in farm.read()[0].files}
    assert roles["weather of Hollow"] == "station.csv"
    assert roles["weather of Ridge"] == "ridge.csv"
    assert "weather" not in roles


def test_faults_of_a_stations_file_name_that_file(farm):
    with_stations(farm, HOLLOW, RIDGE)
    farm.cell("ridge.csv", 9, "air_temperature_degC", "61")
    assert farm.only("E-RANGE").where == "ridge.csv row 9 column air_temperature_degC"


def test_stations_by_different_clocks_are_refused(farm):
    with_stations(farm, HOLLOW, RIDGE)
    rows = farm.table("ridge.csv")
    for row in rows[1:]:
        row[0] = row[0].replace(":00", ":30")
    farm.write_table("ridge.csv", rows)
    assert farm.stop("E-TIME-MINUTE").where == "ridge.csv column time"


def test_stations_that_measured_nothing_are_refused(farm):
    with_stations(farm, HOLLOW, RIDGE)
    for name in ("station.csv", "ridge.csv"):
        farm.write_table(name, farm.table(name)[:1])
    assert farm.stop("E-WEATHER-EMPTY").where == "station.csv"


def test_stations_with_rows_but_without_values_are_refused(farm):
    with_stations(farm, HOLLOW, RIDGE)
    for name in ("station.csv", "ridge.csv"):
        rows = farm.table(name)
        farm.write_table(name, [rows[0], *([row[0], "", *row[2:]] for row in rows[1:40])])
    assert farm.stop("E-WEATHER-EMPTY").where == "station.csv"


def test_a_station_that_measured_nothing_has_no_share(farm):
    with_stations(farm, HOLLOW, RIDGE)
    rows = farm.table("ridge.csv")
    farm.write_table("ridge.csv", rows[:1])
    _, season = farm.read()
    assert season.station_weight.values.tolist() == [1.0, 0.0]


@pytest.mark.parametrize(
    ("old", "new", "code", "part"),
    [
        ('name = "Ridge"', 'name = "Hollow"', "E-STATION-NAME", "named twice"),
        ('name = "Ridge"', "", "E-KEY-MISSING", "stations 2.name"),
        (RIDGE_HEIGHT, "height = 520", "E-KEY-UNKNOWN", "stations 2.height"),
        (RIDGE_HEIGHT, "elevation = 52000", "E-KEY-RANGE", "stations 2.elevation"),
        ('"ridge.csv"', '"crest.csv"', "E-FILE-MISSING", "crest.csv"),
        ("latitude = 23.72", "latitude = -23.72", "E-STATION-FAR", 'station "Ridge"'),
        (FORECAST, "", "E-KEY-MISSING", "forecast.wind_height"),
        (
            "[forecast]\n",
            "[station]\nlongitude = 1.0\n[forecast]\n",
            "E-STATION-TWICE",
            "[[stations]]",
        ),
    ],
)
def test_a_wrong_list_is_named_with_a_fix(farm, old, new, code, part):
    with_stations(farm, HOLLOW, RIDGE)
    farm.swap("farm.toml", old, new)
    lines = [str(issue) for issue in farm.stopped() if issue.code == code]
    assert any(part in line for line in lines), lines


@pytest.mark.parametrize("listed", ["stations = []\n", 'stations = ["Hollow"]\n', "stations = 3\n"])
def test_stations_that_are_no_list_of_tables_are_refused(farm, listed):
    path = farm.folder / "farm.toml"
    path.write_text(listed + path.read_text("utf-8"), "utf-8")
    assert "[[stations]]" in str(farm.stop("E-KEY-KIND"))


def test_wind_direction_is_read_where_it_is_given(farm, demo):
    rows = farm.table("station.csv")
    told = [[*row, str(10 * number % 370)] for number, row in enumerate(rows[1:])]
    farm.write_table("station.csv", [[*rows[0], "wind_from_direction_degree"], *told])
    _, season = farm.read()
    assert season.wind_from_direction.values[:3].tolist() == [0.0, 10.0, 20.0]
    assert np.isnan(season.wind_from_direction.values[season.is_forecast.values == 1]).all()
    assert np.isnan(demo[1].wind_from_direction.values).all()
    farm.cell("station.csv", 5, "wind_from_direction_degree", "361")
    assert farm.only("E-RANGE").where == "station.csv row 5 column wind_from_direction_degree"


def test_four_stations_tell_their_own_lapse(farm):
    heights = {"Hollow": HEIGHT, "Ridge": HEIGHT + 100}
    heights |= {"Shoulder": HEIGHT + 50, "Top": HEIGHT + 200}
    stations = [
        {**(HOLLOW if name == "Hollow" else RIDGE), "name": name, "elevation": height}
        | {"weather": f"{name.lower()}.csv"}
        for name, height in heights.items()
    ]
    with_stations(farm, *stations)
    rows = farm.table("station.csv")
    for name, height in heights.items():
        # Warmer above, day and night: no usual lapse would bring them together.
        warmer = [
            [row[0], f"{float(row[1]) + 0.004 * (height - HEIGHT):.3f}", *row[2:]]
            for row in rows[1:]
        ]
        farm.write_table(f"{name.lower()}.csv", [rows[0], *warmer])
    _, season = farm.read()
    measured = season.is_forecast.values == 0
    lowest = np.array([float(row[1]) for row in rows[1:]])
    above = float(season.station_elevation) - HEIGHT
    np.testing.assert_allclose(
        season.air_temperature.values[measured], lowest + 0.004 * above, atol=0.01
    )


@pytest.mark.parametrize(("away", "outcome"), [(38, "NOTE"), (-379, "STOP")])
def test_a_station_must_stand_on_its_ground(farm, away, outcome):
    _, season = farm.read()
    stated = int(season.station_elevation)
    farm.swap("farm.toml", f"elevation = {stated}", f"elevation = {stated + away}")
    issues = farm.stopped() if outcome == "STOP" else farm.issues("E-STATION-HEIGHT")
    (issue,) = issues
    assert (issue.code, str(issue.outcome)) == ("E-STATION-HEIGHT", outcome)
    assert issue.where == "farm.toml [station] elevation"
    assert f"{stated + away} m is stated, the elevation file has {stated} m" in issue.found
