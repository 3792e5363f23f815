"""farm.toml: every key is known, of the right kind, and its files are there."""

import pytest

from geo.inputs.reading import Reading
from geo.inputs.settings import read_settings


def test_a_partner_for_the_tank_that_is_not_known_stops_with_the_nearest(farm):
    farm.swap("farm.toml", '# mixed_with = "mineral oil"', 'mixed_with = "mineral oyl"')
    issue = farm.stop("E-CHOICE-UNKNOWN")
    assert issue.where == 'farm.toml key "plan.mixed_with"'
    assert "mineral oil" in issue.fix


def test_whether_the_tank_is_agitated_is_true_or_false(farm):
    assert farm.read()[0].settings.agitated is True
    farm.swap("farm.toml", "agitated = true\ntank_litres = 2000", 'agitated = "yes"')
    assert "is not true or false" in farm.stop("E-KEY-KIND").found


def test_a_folder_without_settings_is_refused_by_name(farm):
    (farm.folder / "farm.toml").unlink()
    assert "farm.toml" in str(farm.stop("E-FILE-MISSING"))


def test_broken_toml_names_its_line(farm):
    farm.swap("farm.toml", "made = true", "made = = true")
    assert "line 5" in farm.stop("E-SETTINGS").found


@pytest.mark.parametrize(
    ("old", "new", "code", "parts"),
    [
        ("horizon_days", "horizon_day", "E-KEY-UNKNOWN", ("plan.horizon_day", "horizon_days")),
        ("[plan]", "[plans]", "E-KEY-UNKNOWN", ("[plans]", "[plan]")),
        ("made = true", "", "E-KEY-MISSING", ("made", "true or false")),
        ("made = true", 'made = "yes"', "E-KEY-KIND", ("made", "yes", "true or false")),
        ('name = "Made', 'name = " " # "', "E-KEY-KIND", ("name", "a text")),
        ("horizon_days = 3", "horizon_days = 3.5", "E-KEY-KIND", ("3.5", "a whole number")),
        ("horizon_days = 3", "horizon_days = true", "E-KEY-KIND", ("True", "a whole number")),
        ("horizon_days = 3", "horizon_days = 0", "E-KEY-RANGE", ('"0"', "1 to 14")),
        ("wind_height = 2.0", "wind_height = 0.1", "E-KEY-RANGE", ("station.wind_height",)),
        ("Mazatlan", "Mazatlna", "E-CHOICE-UNKNOWN", ("zone", "America/Mazatlan")),
        ('"sulfur"', '"sulphur"', "E-CHOICE-UNKNOWN", ("plan.material", '"sulfur"')),
        ('"washoff"', '"wash"', "E-CHOICE-UNKNOWN", ("model.rain_mode", '"washoff"')),
        ('"airblast"', '"air"', "E-CHOICE-UNKNOWN", ("sprayers 1.kind", "airblast")),
        ("# reapply_line = 0.4", "reapply_line = 40", "E-KEY-RANGE", ("rules.reapply_line",)),
        ("# sulfur_limit =", "sulfur_limit =", "E-LIMIT-REASON", ("28.0", "sulfur_limit_reason")),
        ('"station.csv"', '"stations.csv"', "E-FILE-MISSING", ("files.weather", "stations.csv")),
        ('"forecast.csv"', '"ahead.csv"', "E-FILE-MISSING", ("files.forecast", "ahead.csv")),
        ("latitude = 23", "latitude = -23", "E-STATION-FAR", ("[station]", "km from the blocks")),
        ("# reference_block", "reference_block", None, ()),
        ('# reference_block = "B12"', 'reference_block = "C12"', "E-CHOICE-UNKNOWN", ("B12",)),
    ],
)
def test_a_wrong_key_is_named_with_its_value_and_a_fix(farm, old, new, code, parts):
    farm.swap("farm.toml", old, new)
    if code is None:
        assert farm.read()[0].settings.reference_block == "B12"
        return
    line = str(next(issue for issue in farm.stopped() if issue.code == code))
    assert "farm.toml" in line
    for part in parts:
        assert part in line


def test_all_wrong_keys_are_named_at_once(farm):
    farm.swap("farm.toml", "horizon_days = 3", "horizon_days = 99")
    farm.swap("farm.toml", "made = true", "")
    assert {issue.code for issue in farm.stopped()} == {"E-KEY-RANGE", "E-KEY-MISSING"}


def test_a_limit_with_a_reason_is_kept(farm):
    farm.swap("farm.toml", "# sulfur_limit", "sulfur_limit")
    settings = farm.read()[0].settings
    assert settings.sulfur_limit == 28.0
    assert "label" in settings.sulfur_limit_reason


def test_the_reapply_line_is_kept_and_may_be_left_out(farm):
    assert farm.read()[0].settings.reapply_line is None
    farm.swap("farm.toml", "# reapply_line", "reapply_line")
    assert farm.read()[0].settings.reapply_line == 0.4


def test_the_reference_block_is_found_whatever_its_case(farm):
    farm.swap("farm.toml", '# reference_block = "B12"', 'reference_block = "b12"')
    assert farm.read()[0].settings.reference_block == "B12"


def test_forecast_wind_is_as_high_as_the_station_s_unless_said(farm):
    farm.swap("farm.toml", "forecast_wind_height = 10.0", "")
    reading = Reading("settings", farm.folder / "farm.toml")
    assert read_settings(reading, materials=["sulfur"]).forecast_wind_height == 2.0


def test_settings_left_out_take_the_usual_values(farm):
    text = (farm.folder / "farm.toml").read_text("utf-8")
    (farm.folder / "farm.toml").write_text(text[: text.index("[plan]")], "utf-8")
    settings = farm.read()[0].settings
    assert (settings.horizon_days, settings.material) == (3, "sulfur")
    assert settings.sprayer_hours_per_hectare is None


def test_files_left_out_are_said(farm):
    for name in ("forecast", "diary", "scouting", "neighbours", "places"):
        line = next(
            line
            for line in (farm.folder / "farm.toml").read_text("utf-8").splitlines()
            if line.startswith(f"{name} = ")
        )
        farm.swap("farm.toml", line, "")
    read, season = farm.read()
    codes = {issue.code: issue.outcome for issue in read.issues}
    assert codes == {
        "E-FORECAST-MISSING": "HOLD",
        "E-DIARY-MISSING": "NOTE",
        "E-SCOUTING-MISSING": "NOTE",
    }
    sizes = season.sizes
    assert (sizes["spray"], sizes["visit"], sizes["portion"]) == (0, 0, 0)
    assert sizes["source"] == sizes["block"]
    assert read.neighbours.empty
    assert read.places.empty
    assert not season.is_forecast.any()
    assert str(season.day.values[-1])[:10] == "2026-02-17"
