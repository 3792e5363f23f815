"""Weather in other kinds of files: days, EPW, netCDF. Each goes through the check like hours."""

import importlib.util
import io
import sys

import numpy as np
import pandas as pd
import pytest
import xarray as xr

from geo.inputs.season import read_farm
from tests.inputs.catalogue import SmallFarm, weather_rows

FIRST, HOURS = "2026-02-01T00:00", 78
# netCDF 4 takes 10 MB of spare room for each file that it writes; its own warning of numpy.
pytestmark = pytest.mark.filterwarnings("ignore:numpy.ndarray size changed:RuntimeWarning")


@pytest.fixture
def small(tmp_path):
    return SmallFarm(tmp_path / "small").build()


def season_of(small):
    return read_farm(
        small.folder, materials=["sulfur", "copper"], cultivars=["Kent"], stages=["613", "615"]
    )


def as_station(small, name, content):
    (small.folder / "station.csv").unlink()
    small.write(name, content)
    small.swap("farm.toml", "station.csv", name)


def codes(small):
    return [code for code in small.check().codes() if not code.startswith("E-FORECAST")]


def days(count=3, **columns):
    table = pd.DataFrame(
        {
            "date": pd.date_range("2026-02-01", periods=count).strftime("%Y-%m-%d"),
            "Tmin (°C)": 19.0,
            "Tmax (°C)": 31.0,
            "RH (%)": 75.0,
            "wind_speed_m_s": 1.5,
            "rain [mm]": [2.4, *[0.0] * (count - 1)],
        }
    )
    return table.assign(**columns)


def text(table):
    return table.to_csv(index=False)


def test_days_become_hours_that_say_they_are_made(small):
    as_station(small, "days.csv", text(days()))
    small.hours("forecast.csv", weather_rows("2026-02-04T00:00", 48))
    checked = small.check()
    fault = checked.only("E-DAILY")
    assert "72 of 72 hours (100%) are made" in fault["found"]
    assert "Cesaraccio" in fault["found"]
    _, season = season_of(small)
    measured = season.is_forecast.to_numpy() == 0
    assert season.is_filled.to_numpy()[measured].all()
    assert not season.is_filled.to_numpy()[~measured].any()
    by_day = season.air_temperature.to_numpy()[measured].reshape(-1, 24)
    assert by_day.min() == pytest.approx(19.0, abs=0.5)
    assert by_day.max(axis=1) == pytest.approx(31.0, abs=0.2)
    assert set(by_day.argmax(axis=1)) <= {13, 14}  # four hours before sunset
    assert season.precipitation.to_numpy()[measured][:24].sum() == pytest.approx(2.4)
    humidity = season.relative_humidity.to_numpy()[measured]
    assert humidity.mean() == pytest.approx(75.0, abs=2.0)


def test_the_minimum_is_never_taken_as_dew_point(small):
    as_station(small, "days.csv", text(days().drop(columns="RH (%)")))
    fault = small.check().only("E-HUMIDITY-UNKNOWN")
    assert fault["outcome"] == "STOP"
    assert "relative_humidity_min_percent" in fault["fix"]


@pytest.mark.parametrize(
    ("change", "code", "row"),
    [
        ({"Tmin (°C)": [19.0, 33.0, 19.0]}, "E-DAILY-TURNED", "3"),
        ({"date": ["2026-02-01", "2026-02-02", "2026-02-02"], "RH (%)": [70, 71, 72]},
         "E-DAY-TWICE", "4"),
        ({"Tmax (°C)": [31.0, np.nan, 31.0]}, "E-WEATHER-GAP", "2"),
        ({"Tmax (°C)": "hot"}, "E-NUMBER", "2"),
        ({"date": ""}, "E-WEATHER-EMPTY", ""),
    ],
)  # fmt: skip
def test_a_fault_of_a_day_is_told_by_its_row(small, change, code, row):
    as_station(small, "days.csv", text(days(**change)))
    faults = [fault for fault in small.check().faults if fault["code"] == code]
    assert faults
    assert faults[0]["row"] == row


def test_days_where_the_sun_stays_down_are_refused(small):
    as_station(small, "days.csv", text(days()))
    small.swap("farm.toml", "latitude = 14.5955", "latitude = 88.0")
    assert "E-DAILY-SUN" in small.check().codes()


def test_days_without_a_station_wait_for_the_settings(small):
    as_station(small, "days.csv", text(days()))
    small.swap("farm.toml", "latitude = 14.5955\n", "")
    told = small.check().codes()
    assert {"E-KEY-MISSING", "E-DAILY-PLACE"} <= set(told)


def test_days_in_a_workbook_and_by_a_column_map_are_days_too(small):
    days().to_excel(small.folder / "days.xlsx", index=False)
    as_station(small, "days.xlsx", (small.folder / "days.xlsx").read_bytes())
    assert "E-DAILY" in codes(small)
    named = days().rename(columns={"Tmin (°C)": "low", "Tmax (°C)": "high"})
    small.write("days.csv", text(named))
    small.swap("farm.toml", "days.xlsx", "days.csv")
    small.swap("farm.toml", "[files]\n", '[files]\ncolumns = "columns.csv"\n')
    rows = "file,heading,means,unit\ndays.csv,low,air_temperature_min_degC,degC\n"
    small.write("columns.csv", rows + "days.csv,high,air_temperature_max_degC,degC\n")
    assert "E-DAILY" in codes(small)


def test_several_stations_of_days_and_hours_keep_the_flag(small):
    small.write("days.csv", text(days(4)))
    settings = (small.folder / "farm.toml").read_text("utf-8")
    head, _, tail = settings.partition("[station]")
    _, _, plan = tail.partition("[plan]")
    station = (
        '[[stations]]\nname = "{}"\nweather = "{}"\nlongitude = 121.0375\nlatitude = 14.5955\n'
    )
    station += "elevation = 100\nwind_height = 2.0\n"
    listed = station.format("one", "station.csv") + station.format("two", "days.csv")
    head = head.replace('weather = "station.csv"\n', "")
    small.write("farm.toml", f"{head}[forecast]\nwind_height = 2.0\n[plan]{plan}\n{listed}")
    _, season = season_of(small)
    assert season.is_filled.to_numpy()[season.is_forecast.to_numpy() == 0].all()


def epw(rows, *, year=2026):
    head = "LOCATION,Made,-,PHL,made,1,14.5955,121.0375,8.0,100.0\n" + "x\n" * 7
    out = io.StringIO()
    for place, (_, row) in enumerate(rows.iterrows()):
        time = pd.Timestamp(row["time"])
        cells = ["9999"] * 35
        years = year if np.isscalar(year) else year[place]
        cells[:6] = [years, time.month, time.day, time.hour + 1, 60, "A7"]
        cells[6], cells[8] = row["air_temperature_degC"], row["relative_humidity_percent"]
        cells[20], cells[21] = 90, row["wind_speed_m_s"]
        cells[22], cells[33] = 3, row["precipitation_mm"]
        out.write(",".join(map(str, cells)) + "\n")
    return head + out.getvalue()


def test_epw_gives_the_same_hours_as_the_table(small):
    _, before = season_of(small)
    as_station(small, "year.epw", epw(weather_rows(FIRST, HOURS)))
    assert codes(small) == []
    _, after = season_of(small)
    for name in ("air_temperature", "relative_humidity", "wind_speed", "precipitation"):
        assert np.allclose(before[name].to_numpy(), after[name].to_numpy()), name
    assert np.array_equal(before.hour.to_numpy(), after.hour.to_numpy())
    assert after.cloud_cover.to_numpy()[0] == pytest.approx(0.3)


def test_codes_for_nothing_of_epw_are_gaps(small):
    rows = weather_rows(FIRST, HOURS)
    rows.loc[30, "relative_humidity_percent"] = 999
    as_station(small, "year.epw", epw(rows))
    assert codes(small) == ["E-WEATHER-FILLED"]


def test_a_typical_year_is_no_season(small):
    rows = weather_rows(FIRST, HOURS)
    as_station(small, "year.epw", epw(rows, year=[2004] * 40 + [2011] * 38))
    fault = small.check().only("E-EPW-TYPICAL")
    assert "2 years between 2004 and 2011" in fault["found"]


@pytest.mark.parametrize("content", ["", "LOCATION,a\n", "x\n" * 12, "\0" * 99])
def test_what_is_no_epw_is_told(small, content):
    as_station(small, "year.epw", content)
    assert "E-EPW" in small.check().codes()


def cf(rows, **changes):
    time = pd.DatetimeIndex(pd.to_datetime(rows["time"])) - pd.Timedelta(hours=8)
    numbers = rows.drop(columns="time").astype(float)

    def variable(values, units, name):
        return ("time", np.asarray(values), {"units": units, "standard_name": name})

    variables = {
        "tas": variable(numbers["air_temperature_degC"] + 273.15, "K", "air_temperature"),
        "hurs": variable(numbers["relative_humidity_percent"] / 100.0, "1", "relative_humidity"),
        "ws": variable(numbers["wind_speed_m_s"], "m s-1", "wind_speed"),
        "pr": variable(numbers["precipitation_mm"] / 3600.0, "kg m-2 s-1", "precipitation_flux"),
        "clt": variable(numbers["cloud_cover_fraction"] * 100.0, "%", "cloud_area_fraction"),
    }
    variables = {name: value for name, value in (variables | changes).items() if value is not None}
    return xr.Dataset(variables, coords={"time": time.to_numpy()})


def as_netcdf(small, dataset, *, engine="h5netcdf"):
    dataset.to_netcdf(small.folder / "made.nc", engine=engine)
    as_station(small, "hours.nc", (small.folder / "made.nc").read_bytes())


@pytest.mark.parametrize("engine", ["h5netcdf", "scipy"])
def test_netcdf_gives_the_same_hours_as_the_table(small, engine):
    _, before = season_of(small)
    as_netcdf(small, cf(weather_rows(FIRST, HOURS)), engine=engine)
    assert codes(small) == ["E-NETCDF-TIME"]
    _, after = season_of(small)
    for name in ("air_temperature", "relative_humidity", "wind_speed", "cloud_cover"):
        assert np.allclose(before[name].to_numpy(), after[name].to_numpy(), atol=1e-3), name
    assert np.array_equal(before.hour.to_numpy(), after.hour.to_numpy())


def test_netcdf_makes_humidity_of_the_dew_point_and_wind_of_its_parts(small):
    dataset = cf(weather_rows(FIRST, HOURS), hurs=None, ws=None)
    attrs = {"units": "m s-1"}
    dataset["u"] = ("time", np.full(HOURS, 3.0), attrs | {"standard_name": "eastward_wind"})
    dataset["v"] = ("time", np.full(HOURS, 4.0), attrs | {"standard_name": "northward_wind"})
    dew = {"units": "degree_Celsius", "standard_name": "dew_point_temperature"}
    dataset["td"] = ("time", np.full(HOURS, 18.0), dew)
    as_netcdf(small, dataset)
    _, season = season_of(small)
    assert season.wind_speed.to_numpy()[0] == pytest.approx(5.0)
    assert season.wind_from_direction.to_numpy()[0] == pytest.approx(216.87, abs=0.01)
    share = 2.064 / 4.493  # allen1998, Eq. 11 at 18 degC and at the 31 degC of 14:00
    assert season.relative_humidity.to_numpy()[14] == pytest.approx(100.0 * share, abs=0.05)


def test_bounds_of_time_say_where_an_hour_begins(small):
    dataset = cf(weather_rows(FIRST, HOURS))
    starts = dataset["time"].to_numpy()
    dataset = dataset.assign_coords(time=starts + np.timedelta64(1, "h"))
    ends = np.stack([starts, starts + np.timedelta64(1, "h")], axis=1)
    dataset["time"].attrs["bounds"] = "time_bounds"
    dataset["time"].encoding["units"] = "hours since 2026-01-01"
    dataset["time_bounds"] = (("time", "side"), ends)
    as_netcdf(small, dataset)
    assert codes(small) == []


def test_of_a_grid_the_nearest_point_is_taken_unless_it_is_far(small):
    dataset = cf(weather_rows(FIRST, HOURS)).expand_dims(
        latitude=[14.6, 14.8], longitude=[121.0, 121.2], height=[2.0]
    )
    as_netcdf(small, dataset.assign(tas=dataset.tas + xr.DataArray([0.0, 9.0], dims="latitude")))
    _, season = season_of(small)
    assert season.air_temperature.to_numpy().max() < 32.0
    small.swap("farm.toml", "latitude = 14.5955", "latitude = 16.5955")
    assert "E-NETCDF-ELSEWHERE" in small.check().codes()


def twice(dataset):
    return dataset.assign(tas2=dataset.tas)


def without(dataset):
    return dataset.drop_vars("pr")


def other_unit(dataset):
    dataset["tas"].attrs["units"] = "furlong"
    dataset["pr"].attrs["units"] = "furlong"
    return dataset


def members(dataset):
    return dataset.expand_dims(member=[1, 2])


def without_time(dataset):
    return dataset.assign_coords(time=np.arange(HOURS))


@pytest.mark.parametrize(
    ("change", "code"),
    [
        (twice, "E-COLUMN-AMBIGUOUS"),
        (without, "E-COLUMN-MISSING"),
        (other_unit, "E-UNIT-MISSING"),
        (members, "E-NETCDF-SHAPE"),
        (without_time, "E-NETCDF-TIME"),
    ],
)
def test_what_netcdf_leaves_open_is_asked_for(small, change, code):
    as_netcdf(small, change(cf(weather_rows(FIRST, HOURS))))
    assert code in small.check().codes()


def test_rain_as_an_amount_is_taken_as_it_is(small):
    rain = np.full(HOURS, 0.002)
    attrs = {"units": "m", "standard_name": "lwe_thickness_of_precipitation_amount"}
    as_netcdf(small, cf(weather_rows(FIRST, HOURS), pr=("time", rain, attrs)))
    _, season = season_of(small)
    assert season.precipitation.to_numpy()[0] == pytest.approx(2.0)


def test_netcdf_that_unpacks_to_too_much_is_not_unpacked(small, monkeypatch):
    monkeypatch.setattr("geo.inputs.netcdf.LARGEST_BYTES", 100)
    as_netcdf(small, cf(weather_rows(FIRST, HOURS)))
    assert "E-FILE-LARGE" in small.check().codes()


@pytest.mark.parametrize("content", [b"CDF\x01" + b"\0" * 40, b"\x89HDF\r\n\x1a\n" + b"\0" * 99])
def test_spoilt_netcdf_is_told(small, content):
    as_station(small, "hours.nc", content)
    assert "E-NETCDF" in small.check().codes()


def test_without_its_reader_netcdf_says_what_to_install(small, monkeypatch):
    as_netcdf(small, cf(weather_rows(FIRST, HOURS)))
    found = importlib.util.find_spec
    monkeypatch.setattr(
        sys.modules["geo.inputs.netcdf"],
        "find_spec",
        lambda name: None if name == "h5netcdf" else found(name),
    )
    assert "mangoblock-risk[netcdf]" in small.check().only("E-NETCDF-READER")["fix"]


def test_a_file_too_large_to_look_into_is_told_so(small, monkeypatch):
    monkeypatch.setattr("geo.inputs.reading.LARGEST_BYTES", 1000)
    as_netcdf(small, cf(weather_rows(FIRST, HOURS)))
    told = {fault["file"] for fault in small.check().faults if fault["code"] == "E-FILE-LARGE"}
    assert "hours.nc" in told
