"""Loggers in the blocks: readings go to the season's hours, and each hangs on known ground."""

import numpy as np
import pytest

LOGGERS = "loggers.csv"
HEADER = ["time", "logger_id", "air_temperature_degC"]
FIRST = np.datetime64("2026-01-04T00:00")


def with_loggers(farm, *, names=("Low", "High"), rows=None):
    """Draw loggers in the middle of the first blocks, and write what they measured."""
    features = farm.features("places.geojson")
    for name, block in zip(names, farm.features("blocks.geojson"), strict=False):
        corner = np.array(block["geometry"]["coordinates"][0][:-1], dtype=float).mean(axis=0)
        point = {"type": "Point", "coordinates": corner.tolist()}
        properties = {"kind": "logger", "name": name}
        features.append({"type": "Feature", "properties": properties, "geometry": point})
    farm.write_features("places.geojson", features)
    farm.swap("farm.toml", 'diary = "diary.csv"', f'diary = "diary.csv"\nloggers = "{LOGGERS}"')
    farm.write_table(LOGGERS, [HEADER, *(usual_rows(names) if rows is None else rows)])


def usual_rows(names):
    return [
        [str(FIRST + np.timedelta64(hour, "h")), name, f"{10 + place + hour % 24}"]
        for place, name in enumerate(names)
        for hour in range(72)
    ]


def test_a_farm_without_loggers_has_none(demo):
    _, season = demo
    assert season.sizes["logger"] == 0


def test_readings_stand_in_their_hours_and_the_rest_is_unknown(farm):
    with_loggers(farm)
    _, season = farm.read()
    assert season.logger.values.tolist() == ["High", "Low"]
    low = season.logger_air_temperature.sel(logger="Low").values
    assert low[:3].tolist() == [10.0, 11.0, 12.0]
    assert np.isnan(low[72:]).all()
    ground = season.elevation_grid.values.ravel()[season.logger_cell.values]
    assert np.isfinite(ground).all()


def test_readings_within_an_hour_are_averaged_and_those_outside_the_season_left_out(farm):
    rows = [
        ["2026-01-04T00:00", "Low", "10"],
        ["2026-01-04T00:15", "Low", "12"],
        ["2026-01-04T00:45", "Low", "14"],
        ["2025-06-04T00:15", "Low", "40"],
        ["2027-06-04T00:15", "Low", "40"],
        ["2026-01-04T05:00", "High", "---"],
        ["2026-01-04T06:00", "High", "9"],
    ]
    with_loggers(farm, rows=rows)
    _, season = farm.read()
    low = season.logger_air_temperature.sel(logger="Low").values
    assert low[0] == 12.0
    assert np.isnan(low[1:]).all()
    high = season.logger_air_temperature.sel(logger="High").values
    assert np.flatnonzero(np.isfinite(high)).tolist() == [6]


def test_a_logger_without_a_place_is_held(farm):
    with_loggers(farm, rows=usual_rows(("Low", "High", "Lost")))
    issue = farm.only("E-LOGGER-PLACE")
    assert issue.outcome == "HOLD"
    assert '"Lost"' in issue.found
    read, season = farm.read()
    assert season.logger.values.tolist() == ["High", "Low"]
    file = next(file for file in read.files if file.role == "loggers")
    assert (file.used, file.held) == (144, 72)


def test_a_logger_off_the_ground_is_held(farm):
    with_loggers(farm)
    far = {"type": "Point", "coordinates": [-104.0, 23.0]}
    farm.feature("places.geojson", len(farm.features("places.geojson")), geometry=far)
    assert '"High"' in farm.only("E-LOGGER-GROUND").found
    assert "1 logger" in farm.only("E-LOGGER-FEW").found


@pytest.mark.parametrize(
    ("row", "column", "value", "code"),
    [
        (5, "air_temperature_degC", "61", "E-RANGE"),
        (5, "air_temperature_degC", "warm", "E-NUMBER"),
        (5, "time", "yesterday", "E-TIME"),
    ],
)
def test_a_faulty_cell_stops_with_row_column_and_value(farm, row, column, value, code):
    with_loggers(farm)
    farm.cell(LOGGERS, row, column, value)
    issue = farm.stop(code)
    assert issue.where == f"{LOGGERS} row {row} column {column}"
    assert f'"{value}"' in issue.found


def test_an_empty_file_of_loggers_is_said(farm):
    with_loggers(farm, rows=[])
    assert "0 logger" in farm.only("E-LOGGER-FEW").found
    assert farm.read()[1].sizes["logger"] == 0
