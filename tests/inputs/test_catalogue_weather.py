"""The catalogue of messy inputs, letter W: weather and forecast, each fault through the check."""

import json

import numpy as np
import pandas as pd
import pytest

from tests.inputs.catalogue import SmallFarm, assert_told, weather_rows

STATION, FORECAST = "station.csv", "forecast.csv"
T, RH, WIND, RAIN = (
    "air_temperature_degC",
    "relative_humidity_percent",
    "wind_speed_m_s",
    "precipitation_mm",
)


@pytest.fixture
def farm(tmp_path):
    return SmallFarm(tmp_path / "farm").build()


def changed(name, change):
    def spoil(farm):
        rows = farm.frame(name)
        changed_rows = change(rows)
        farm.hours(name, rows if changed_rows is None else changed_rows)

    return spoil


def cell(row, column, value, name=STATION):
    def change(rows):
        rows.loc[row - 2, column] = value

    return changed(name, change)


def column(name, change, file=STATION):
    def apply(rows):
        rows[name] = [change(float(value)) for value in rows[name]]

    return changed(file, apply)


def renamed(old, new, change=lambda value: value):
    def apply(rows):
        rows[old] = [change(float(value)) for value in rows[old]]
        return rows.rename(columns={old: new})

    return changed(STATION, apply)


def drop(first, last, name=STATION):
    return changed(name, lambda rows: rows.drop(index=range(first - 2, last - 1)))


def blank(first, last, *columns):
    def change(rows):
        rows.loc[first - 2 : last - 2, list(columns)] = ""

    return changed(STATION, change)


def days(count):
    return changed(STATION, lambda _: weather_rows(f"2026-02-0{5 - count}T00:00", 24 * count - 18))


def long(farm, *, hours=24 * 10 + 6):
    start = pd.Timestamp("2026-02-04T05:00") - pd.Timedelta(hours=hours - 1)
    farm.hours(STATION, weather_rows(f"{start:%Y-%m-%dT%H:%M}", hours))


def stuck(farm):
    long(farm)
    column(RH, lambda _: 100)(farm)


def counter(farm):
    def change(rows):
        fallen = np.zeros(len(rows))
        fallen[[5, 6, 7, 30]] = 2.0
        counted = fallen.cumsum()
        counted[40:] -= counted[40]
        counted[50:] += 1.0
        rows[RAIN] = counted.round(1)

    changed(STATION, change)(farm)


def late_clock(farm):
    changed(
        STATION,
        lambda rows: rows.assign(**{T: np.roll(rows[T].to_numpy(), 12)}),
    )(farm)


def spring(farm):
    farm.swap("farm.toml", "Asia/Manila", "Europe/Madrid")
    farm.hours(STATION, weather_rows("2026-03-27T00:00", 78))
    farm.hours(FORECAST, weather_rows("2026-03-30T06:00", 42))


def fine(farm):
    rows = weather_rows("2026-02-01T00:00", 78)
    quarters = rows.loc[rows.index.repeat(4)].reset_index(drop=True)
    times = pd.date_range("2026-02-01T00:00", periods=len(quarters), freq="15min")
    farm.hours(STATION, quarters.assign(time=times.strftime("%Y-%m-%dT%H:%M")))


def damp(farm):
    def change(rows):
        rows["dew_point_degC"] = 12.0
        rows.loc[18, "dew_point_degC"] = 40

    changed(STATION, change)(farm)


def every(hours, name=FORECAST):
    return changed(name, lambda rows: rows[::hours])


def as_json(farm):
    text = json.dumps({"hourly": {"time": ["2026-02-01T00:00"], "temp": [20.0, 21.0]}})
    farm.write("station.json", text)
    farm.swap("farm.toml", STATION, "station.json")


def overlapping(farm, *, warmer=0.0):
    rows = weather_rows("2026-02-02T06:00", 90)
    farm.hours(FORECAST, rows.assign(**{T: [value + warmer for value in rows[T]]}))


def blocked(farm):
    hours = 24 * 40 + 6
    start = pd.Timestamp("2026-02-04T05:00") - pd.Timedelta(hours=hours - 1)
    rows = weather_rows(f"{start:%Y-%m-%dT%H:%M}", hours)
    farm.hours(STATION, rows)
    rows.loc[100:120, RAIN] = 5
    farm.hours("ridge.csv", rows)
    place = farm.folder / "farm.toml"
    settings = place.read_text("utf-8")
    one = "longitude = 121.0375\nlatitude = 14.5955\nelevation = 100\nwind_height = 2.0\n"
    several = "".join(
        f'[[stations]]\nname = "{name}"\nweather = "{name}.csv"\n{one}'
        for name in ("station", "ridge")
    )
    settings = settings.replace("[station]\n" + one, several + "[forecast]\nwind_height = 2.0\n")
    farm.write("farm.toml", settings.replace('weather = "station.csv"\nforecast', "forecast"))


CASES = {
    "W07": (
        blocked,
        "NOTE E-RAIN-BLOCKED station.csv - precipitation_mm -",
        "taken as unknown",
    ),
    "W01": (
        column(T, lambda value: round(value * 1.8 + 32, 1)),
        "STOP E-UNIT station.csv - air_temperature_degC 75.55",
        "look like degrees Fahrenheit",
        '"degF" as its unit',
    ),
    "W02": (
        column(T, lambda value: round(value + 273.1, 1)),
        "STOP E-UNIT station.csv - air_temperature_degC 297.3",
        "look like kelvin",
    ),
    "W03": (
        column(RH, lambda value: round(value / 100, 3)),
        "STOP E-UNIT station.csv - relative_humidity_percent 0.9",
        "look like a fraction",
    ),
    "W04 stuck": (
        stuck,
        "NOTE E-HUMIDITY-STUCK station.csv - relative_humidity_percent 100",
        "246 h without a break",
    ),
    "W04 impossible": (
        cell(20, RH, "-1"),
        "HOLD E-RANGE station.csv 20 relative_humidity_percent '-1",
        "as if nothing was measured",
    ),
    "W05 no unit": (
        renamed(WIND, "wind"),
        "STOP E-UNIT-MISSING station.csv 1 wind_speed_m_s wind",
        "names no unit",
        "m_s, km_h, mph, knots",
    ),
    "W05 values": (
        column(WIND, lambda value: round(value * 30, 1)),
        "STOP E-UNIT station.csv - wind_speed_m_s 75",
        "are no wind",
    ),
    "W06": (
        counter,
        "FIX E-RAIN-COUNTER station.csv - precipitation_mm 8",
        "9.0 mm in all, with 1 new beginning",
    ),
    "W08 it is warmest at night": (
        late_clock,
        "NOTE E-CLOCK station.csv - time -",
        "warmest at 1:00",
        "shifted by +11 h",
    ),
    "W08 an hour that was not": (
        spring,
        "STOP E-TIME-SKIPPED station.csv 52 time 2026-03-29T02:00",
        "Europe/Madrid",
    ),
    "W09 short": (
        blank(20, 22, T, RH),
        "NOTE E-WEATHER-FILLED station.csv - - -",
        "3 h (2.5 %) of air_temperature_degC",
    ),
    "W09 rain beside a gap": (
        lambda farm: [cell(19, RAIN, "2.0")(farm), blank(20, 21, RAIN)(farm)],
        "STOP E-RAIN-UNKNOWN station.csv 19 - -",
        "rain unknown for 2 h",
    ),
    # Decided otherwise: a gap of more than 3 h that no other station and no forecast covers stops
    # the run, and the message names it. An epidemic goes on through every hour: none may be left
    # out, and none invented.
    "W09 long": (
        drop(30, 60),
        "STOP E-WEATHER-GAP station.csv 29 - -",
        "for 31 h after 2026-02-02T03:00",
    ),
    "W10 rivals": (
        lambda farm: farm.add(STATION, "2026-02-02T10:00,29,55,2,0,0.3\n"),
        "HOLD E-HOUR-TWICE station.csv 80 time 2026-02-02T10:00",
        "both are set aside",
    ),
    "W10 order": (
        changed(STATION, lambda rows: rows[::-1]),
        "FIX E-ROW-ORDER station.csv - - -",
        "out of order",
    ),
    "W10 twice": (
        changed(STATION, lambda rows: pd.concat([rows, rows[:1]])),
        "FIX E-ROW-TWICE station.csv - - -",
        "the first at row 80",
    ),
    "W10 quarters": (
        fine,
        "FIX E-STEP-FINE station.csv - time -",
        "15 min apart",
        "75 %",
    ),
    "W11 a code": (
        cell(20, T, "32767"),
        "FIX E-MISSING-CODE station.csv - air_temperature_degC 32767",
        "first in row 20",
    ),
    "W11 a trace": (
        cell(20, RAIN, "T"),
        "NOTE E-RAIN-TRACE station.csv - precipitation_mm T",
        "0.05 mm",
    ),
    "W12": (
        cell(20, T, "-3"),
        "HOLD E-SPIKE station.csv 20 air_temperature_degC '-3",
        "more than 15 K",
    ),
    "W12 dew point": (
        damp,
        "HOLD E-DEW-POINT station.csv 20 dew_point_degC 40.0",
        "above the air temperature",
    ),
    "W13 short": (
        drop(20, 43, FORECAST),
        "NOTE E-FORECAST-SHORT forecast.csv - - -",
        "1 of the 2 whole days",
    ),
    "W13 3 h": (
        every(3),
        "NOTE E-STEP-COARSE forecast.csv - time -",
        "3 h apart",
        "may be off by as much",
    ),
    "W13 daily extremes": (
        lambda farm: farm.write(
            FORECAST,
            "date,Tmin (°C),Tmax (°C),RH (%),wind (m/s),rain (mm)\n"
            "2026-02-04,19,31,75,1.5,0\n2026-02-05,19,31,75,1.5,0\n2026-02-06,19,31,75,1.5,0\n",
        ),
        "NOTE E-DAILY forecast.csv - - -",
        "are made",
    ),
    # A single value a day tells of no night: it stops.
    "W13 daily": (
        changed(
            FORECAST,
            lambda _: weather_rows("2026-02-04T06:00", 240)[::24],
        ),
        "STOP E-STEP forecast.csv - time 2026-02-04T06:00",
        "24 h apart",
    ),
    "W14 over": (
        changed(FORECAST, lambda _: weather_rows("2026-01-20T00:00", 48)),
        "HOLD E-FORECAST-MISSING forecast.csv - - -",
        "ends before the last measured hour",
    ),
    # Decided otherwise: no more than a note. Files with the days before in them are common, and
    # the time of issue is not in the table.
    "W14 old": (
        overlapping,
        "NOTE E-FORECAST-OLD forecast.csv - time -",
        "begins 47 h before",
    ),
    "W15": (
        lambda farm: overlapping(farm, warmer=3.0),
        "NOTE E-FORECAST-BIAS forecast.csv - air_temperature_degC -",
        "+3.0 K off the station over 48 h",
        "used as it is",
    ),
    # Decided otherwise: JSON is not read at all, since each service arranges its own.
    "W16": (as_json, "STOP E-TABLE-JSON station.json - - -", "Save it as a table"),
    "W17 far": (
        lambda farm: farm.swap("farm.toml", "latitude = 14.5955", "latitude = 14.9955"),
        "NOTE E-STATION-AWAY farm.toml - - -",
        "is 44 km from the blocks",
    ),
    "W17 high": (
        lambda farm: farm.swap("farm.toml", "elevation = 100", "elevation = 700"),
        "STOP E-STATION-HEIGHT farm.toml - - -",
        "700 m is stated",
    ),
    "W18": (
        changed(FORECAST, lambda rows: rows.assign(rain_probability=0.4, temp_member_01=20)),
        "NOTE E-COLUMN-UNUSED forecast.csv 1 - rain_probability",
        "temp_member_01",
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_the_fault_is_told_as_the_catalogue_asks(farm, name):
    spoil, told, *words = CASES[name]
    spoil(farm)
    assert_told(farm.check(), told, *words)


UNITS = [
    (T, "Temp (°F)", lambda value: value * 1.8 + 32),
    (T, "temperature_K", lambda value: value + 273.15),
    (RH, "RH [fraction]", lambda value: value / 100),
    (WIND, "Wind speed (km/h)", lambda value: value * 3.6),
    (WIND, "wind mph", lambda value: value / 0.44704),
    (WIND, "Wind, knots", lambda value: value * 3600 / 1852),
    (RAIN, "Rain (in)", lambda value: value / 25.4),
]


@pytest.mark.parametrize(("name", "heading", "change"), UNITS, ids=[unit[1] for unit in UNITS])
def test_a_unit_in_the_heading_is_turned_into_ours(farm, name, heading, change):
    cell(20, RAIN, "5.08")(farm)
    before = farm.check()
    assert before.faults == []
    renamed(name, heading, change)(farm)
    checked = farm.check()
    fault = checked.only("E-COLUMN-SPELLING")
    assert fault["outcome"] == "FIX"
    assert f"as {name} from" in fault["found"]
    assert checked.exit_code == 0


def test_the_column_map_that_the_check_writes_may_be_corrected_and_given_back(farm):
    renamed(WIND, "Viento", lambda value: value * 3.6)(farm)
    assert farm.check().only("E-UNIT-MISSING")["value"] == "Viento"
    written = (farm.folder.parent / "out" / "columns.csv").read_text("utf-8")
    assert "station.csv,Viento,wind_speed_m_s,," in written
    corrected = written.replace("Viento,wind_speed_m_s,,", "Viento,wind_speed_m_s,km/h,")
    farm.write("columns.csv", corrected)
    farm.swap("farm.toml", "[files]\n", '[files]\ncolumns = "columns.csv"\n')
    assert farm.check().faults == []
    farm.swap("columns.csv", "Viento,wind_speed_m_s", "Viento,wind_sped")
    assert_told(
        farm.check(), "STOP E-COLUMN-MAP columns.csv 7 means wind_sped", "nearest", "wind_speed_m_s"
    )
