"""One faulty file hides none of the faults of the others."""

import pytest

from geo.errors import Outcome
from geo.inputs.survey import survey
from geo.season.survey import Verdict
from tests.inputs.conftest import CULTIVARS, MATERIALS, STAGES

LOGGERS = "time,logger_id,air_temperature_degC\n2026-02-01T05:00,L1,warm\n"
LABELS = "material,rate\nsulfur,-1\n"
CREWS = "date,block_id,start,end\n2026-02-20,B77,06:00,07:00\n"
NAMED = 'loggers = "loggers.csv"\ncrews = "crews.csv"\n'


def surveyed(farm):
    return survey(farm.folder, materials=MATERIALS, cultivars=CULTIVARS, stages=STAGES)


def codes(farm, *, file=None):
    return sorted(issue.code for issue in surveyed(farm).issues if file in (None, issue.file))


def name_further_files(farm):
    for name, text in (("loggers", LOGGERS), ("labels", LABELS), ("crews", CREWS)):
        (farm.folder / f"{name}.csv").write_text(text, "utf-8")
    farm.swap("farm.toml", "[files]\n", f"[files]\n{NAMED}")


def spoil_notes(farm):
    farm.add("diary.csv", "2026-02-10", "06:00", "B01", "sulphur", "", "")
    farm.add("scouting.csv", "2026-02-16", "B01", "50", "60", "610", "")
    farm.feature("places.geojson", 6, kind="door")
    farm.cell("forecast.csv", 5, "air_temperature_degC", "warm")
    farm.feature("neighbours.geojson", 1, status="perhaps")


OF_NOTES = {
    "diary.csv": "E-MATERIAL-UNKNOWN",
    "scouting.csv": "E-COUNT",
    "places.geojson": "E-PLACE-KIND",
    "forecast.csv": "E-NUMBER",
    "neighbours.geojson": "E-STATUS",
    "loggers.csv": "E-NUMBER",
    "labels.csv": "E-LABEL-NUMBER",
}


def stop_outlines(farm):
    (farm.folder / "blocks.geojson").write_text("no map", "utf-8")


def stop_weather(farm):
    farm.cell("station.csv", 9, "precipitation_mm", "much")


def stop_elevation(farm):
    (farm.folder / "elevation.tif").write_text("no grid", "utf-8")


def stop_settings(farm):
    farm.swap("farm.toml", "horizon_days = 3", "horizon_days = 99")


def stop_zone(farm):
    farm.swap("farm.toml", "America/Mazatlan", "America/Mazatlna")


def stop_station(farm):
    farm.swap("farm.toml", "elevation = 416", "")


def stop_neighbours(farm):
    farm.feature("neighbours.geojson", 2, neighbour_id="B01")


def lose_weather(farm):
    (farm.folder / "station.csv").unlink()


def lose_outlines(farm):
    (farm.folder / "blocks.geojson").unlink()


def lose_elevation(farm):
    (farm.folder / "elevation.tif").unlink()


STOPS = {
    stop_outlines: ("blocks.geojson", "E-VECTOR"),
    stop_weather: ("station.csv", "E-NUMBER"),
    stop_elevation: ("elevation.tif", "E-RASTER"),
    stop_settings: ("farm.toml", "E-KEY-RANGE"),
    stop_zone: ("farm.toml", "E-CHOICE-UNKNOWN"),
    stop_station: ("farm.toml", "E-KEY-MISSING"),
    lose_weather: ("farm.toml", "E-FILE-MISSING"),
    lose_outlines: ("farm.toml", "E-FILE-MISSING"),
    lose_elevation: ("farm.toml", "E-FILE-MISSING"),
}


@pytest.mark.parametrize("spoil", STOPS, ids=lambda spoil: spoil.__name__)
def test_a_file_that_stops_the_run_hides_no_fault_of_another(farm, spoil):
    name_further_files(farm)
    spoil_notes(farm)
    spoil(farm)
    file, code = STOPS[spoil]
    assert code in codes(farm, file=file)
    for other, expected in OF_NOTES.items():
        assert codes(farm, file=other) == [expected], other
    assert surveyed(farm).verdict() is Verdict.STOPPED


def test_all_files_may_be_faulty_at_once(farm):
    for stop in (stop_outlines, stop_weather, stop_elevation, stop_settings):
        stop(farm)
    assert {issue.file for issue in surveyed(farm).of(Outcome.STOP)} == {
        "blocks.geojson",
        "station.csv",
        "elevation.tif",
        "farm.toml",
    }


def test_a_map_tells_all_of_it_too(farm):
    stop_outlines(farm)
    stop_weather(farm)
    spoil_notes(farm)
    told = farm.stopped()
    assert [issue.outcome for issue in told[:3]] == ["STOP"] * 3
    assert [issue.outcome for issue in told[3:]].count("STOP") == 0
    assert {issue.file for issue in told} >= {"blocks.geojson", "station.csv", "diary.csv"}


def test_without_outlines_no_block_of_the_notes_is_called_unknown(farm):
    stop_outlines(farm)
    assert codes(farm, file="diary.csv") == []
    assert codes(farm, file="scouting.csv") == []


def test_without_neighbours_no_look_at_one_is_called_unknown(farm):
    stop_neighbours(farm)
    farm.add("scouting.csv", "2026-02-16", "N2", "50", "3", "", "")
    assert codes(farm) == ["E-ID-TWICE"]


@pytest.mark.parametrize("text", ["", "when,where\n1,2\n"])
def test_notes_without_ids_are_told_once_where_outlines_cannot_be_used(farm, text):
    stop_outlines(farm)
    (farm.folder / "diary.csv").write_text(text, "utf-8")
    found = codes(farm, file="diary.csv")
    assert found == (["E-COLUMN-MISSING"] * 3 if text else ["E-DIARY-MISSING"])


def test_an_elevation_file_is_opened_though_nobody_knows_where_the_farm_lies(farm):
    stop_outlines(farm)
    assert codes(farm, file="elevation.tif") == []
    stop_elevation(farm)
    assert codes(farm, file="elevation.tif") == ["E-RASTER"]


def test_without_settings_the_folder_gives_its_name(farm):
    (farm.folder / "farm.toml").unlink()
    found = surveyed(farm)
    assert (found.name, found.files, len(found.issues)) == ("farm", (), 1)


def test_the_demo_is_clean_and_strictly_seen_it_is_not(farm):
    found = surveyed(farm)
    assert found.name == "Made Valley Farm"
    assert found.is_made
    assert [issue.code for issue in found.issues] == ["E-SPRAY-PLANNED"]
    assert found.verdict() is Verdict.CLEAN
    assert found.verdict(strict=True) is Verdict.PARTIAL


def test_the_hour_at_which_the_forecast_takes_over_is_told(farm):
    assert surveyed(farm).hours == (
        "Measured from 2026-01-04 00:00 to 2026-02-18 05:00, forecast from 2026-02-18 06:00 to "
        "2026-02-23 23:00 (America/Mazatlan; each hour by its start)."
    )
    farm.swap("farm.toml", 'forecast = "forecast.csv"\n', "")
    assert "no hour is forecast" in surveyed(farm).hours
