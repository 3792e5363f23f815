"""Putting sprays down: rows are added, never rewritten, and giving them again adds nothing."""

import csv
import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner

from geo.cli.commands import app
from geo.errors import InputError
from geo.pipeline.record import FILE, record_sprays
from geo.season.spray_record import COLUMNS, broken
from tests.demo_run import FARM

DONE = {
    "date": "2026-02-17",
    "block_id": "B01",
    "material": "sulfur",
    "start_time": "06:00",
    "finish_time": "06:40",
}


@pytest.fixture
def farm(tmp_path: Path) -> Path:
    return Path(shutil.copytree(FARM, tmp_path / "farm"))


@pytest.fixture
def completed(tmp_path: Path) -> Path:
    return tmp_path / "completed.csv"


def write(path: Path, *rows: dict[str, str], columns: tuple[str, ...] = COLUMNS) -> Path:
    with path.open("w", encoding="utf-8", newline="") as opened:
        writer = csv.DictWriter(opened, columns, restval="")
        writer.writeheader()
        writer.writerows(rows)
    return path


def kept(farm: Path) -> list[dict[str, str]]:
    with (farm / FILE).open(encoding="utf-8", newline="") as opened:
        return list(csv.DictReader(opened))


def test_completed_rows_are_added_and_planned_ones_left(farm: Path, completed: Path) -> None:
    planned = DONE | {"block_id": "B02", "start_time": "", "finish_time": ""}
    told = record_sprays(farm, write(completed, DONE, planned))
    assert (told.added, told.there, told.planned) == (1, 0, 1)
    rows = kept(farm)
    assert [row["block_id"] for row in rows] == ["B01"]
    assert rows[0]["record_id"].startswith("2026-02-17-")
    assert rows[0]["digest"] == told.digest
    assert broken(rows) == []
    assert not told.is_named


def test_giving_the_same_rows_again_adds_nothing(farm: Path, completed: Path) -> None:
    record_sprays(farm, write(completed, DONE))
    before = (farm / FILE).read_bytes()
    told = record_sprays(farm, completed)
    assert (told.added, told.there) == (0, 1)
    assert (farm / FILE).read_bytes() == before


def test_a_record_that_is_named_first_is_begun_under_its_name(farm: Path, completed: Path) -> None:
    toml = (farm / "farm.toml").read_text("utf-8")
    (farm / "farm.toml").write_text(
        toml.replace("[files]", '[files]\nrecords = "own.csv"'), "utf-8"
    )
    told = record_sprays(farm, write(completed, DONE))
    assert told.is_named
    assert (farm / "own.csv").exists()


def test_what_stands_there_is_never_rewritten(farm: Path, completed: Path) -> None:
    record_sprays(farm, write(completed, DONE))
    before = (farm / FILE).read_bytes()
    record_sprays(farm, write(completed, DONE | {"block_id": "B02"}))
    assert (farm / FILE).read_bytes().startswith(before)
    assert broken(kept(farm)) == []


def test_another_row_under_a_known_id_is_refused(farm: Path, completed: Path) -> None:
    own = {"record_id": "mine"}
    record_sprays(farm, write(completed, DONE | own))
    told = record_sprays(farm, write(completed, DONE | own | {"finish_time": "07:00"}))
    assert told.added == 0
    assert [issue.code for issue in told.issues] == ["E-RECORD-ID"]
    assert "stands in the record with other cells" in told.issues[0].found
    assert len(kept(farm)) == 1


def test_a_correction_is_a_new_row(farm: Path, completed: Path) -> None:
    record_sprays(farm, write(completed, DONE | {"record_id": "mine"}))
    right = DONE | {"corrects": "mine", "block_id": "B03"}
    back = {"corrects": "mine", "date": "2026-02-17", "note": "never happened"}
    told = record_sprays(farm, write(completed, right, back))
    assert told.added == 2
    assert [row["corrects"] for row in kept(farm)] == ["", "mine", "mine"]


def test_a_correction_of_an_unknown_row_is_set_aside(farm: Path, completed: Path) -> None:
    told = record_sprays(farm, write(completed, DONE | {"corrects": "nobody"}))
    assert told.added == 0
    assert told.digest == ""
    assert not (farm / FILE).exists()


def test_ends_come_from_the_finish_that_was_written_down(farm: Path, completed: Path) -> None:
    hours = {"re_entry_hours": "24", "pre_harvest_days": "3"}
    own = DONE | {"block_id": "B02", "re_entry_ends": "2026-03-01T00:00", "pick_from": "2026-03-01"}
    record_sprays(farm, write(completed, DONE | hours, own | hours))
    first, second = kept(farm)
    assert (first["re_entry_ends"], first["pick_from"]) == ("2026-02-18T06:40", "2026-02-20")
    assert (second["re_entry_ends"], second["pick_from"]) == ("2026-03-01T00:00", "2026-03-01")


def test_nobody_picks_before_people_may_enter(farm: Path, completed: Path) -> None:
    hours = {"re_entry_hours": "48", "pre_harvest_days": "0"}
    days = {"block_id": "B02", "pre_harvest_days": "2"}
    record_sprays(farm, write(completed, DONE | hours, DONE | days))
    first, second = kept(farm)
    assert first["pick_from"] == "2026-02-19"
    assert (second["re_entry_ends"], second["pick_from"]) == ("", "2026-02-19")


def test_cells_that_a_spreadsheet_would_run_are_put_in_quotes(farm: Path, completed: Path) -> None:
    cells = {"note": "=1+1", "start_air_temperature_degC": "-1.5", "deviations": "a\rb"}
    record_sprays(farm, write(completed, DONE | cells))
    row = kept(farm)[0]
    assert row["note"] == "'=1+1"
    assert row["start_air_temperature_degC"] == "-1.5"
    assert row["deviations"] == "a\nb"
    assert broken(kept(farm)) == []
    assert record_sprays(farm, completed).there == 1


def test_a_changed_record_is_noted_and_goes_on(farm: Path, completed: Path) -> None:
    record_sprays(farm, write(completed, DONE))
    text = (farm / FILE).read_text("utf-8")
    (farm / FILE).write_text(text.replace("06:40", "06:10"), "utf-8")
    told = record_sprays(farm, write(completed, DONE | {"block_id": "B02"}))
    assert [issue.code for issue in told.issues] == ["E-RECORD-CHANGED"]
    assert broken(kept(farm)) == [0]


def test_a_record_that_a_spreadsheet_rearranged_is_refused(farm: Path, completed: Path) -> None:
    write(farm / FILE, columns=COLUMNS[::-1])
    with pytest.raises(InputError, match="not those of a record"):
        record_sprays(farm, write(completed, DONE))


def test_a_record_whose_end_is_cut_off_is_refused(farm: Path, completed: Path) -> None:
    record_sprays(farm, write(completed, DONE))
    (farm / FILE).write_bytes((farm / FILE).read_bytes()[:-9])
    with pytest.raises(InputError, match="cut off"):
        record_sprays(farm, completed)


def test_a_file_that_is_not_there_or_is_the_record_is_refused(farm: Path, completed: Path) -> None:
    with pytest.raises(InputError, match="is not there"):
        record_sprays(farm, completed)
    record_sprays(farm, write(completed, DONE))
    with pytest.raises(InputError, match="is the record itself"):
        record_sprays(farm, farm / FILE)


def test_outlines_that_cannot_be_used_stop_it(farm: Path, completed: Path) -> None:
    (farm / "blocks.geojson").write_text("{}", "utf-8")
    with pytest.raises(InputError, match=r"blocks\.geojson"):
        record_sprays(farm, write(completed, DONE))


def test_the_command_says_what_was_added_and_how_to_have_it_counted(
    farm: Path, completed: Path
) -> None:
    write(completed, DONE, DONE | {"block_id": "B02"})
    found = CliRunner().invoke(app, ["record", str(completed), "--farm", str(farm)])
    assert found.exit_code == 0
    assert f"2 rows added to {farm / FILE}; there already: 0" in found.output
    assert "Last digest: " in found.output
    assert f'records = "{FILE}"' in found.output
    toml = (farm / "farm.toml").read_text("utf-8")
    (farm / "farm.toml").write_text(
        toml.replace("[files]", f'[files]\nrecords = "{FILE}"'), "utf-8"
    )
    found = CliRunner().invoke(app, ["record", str(completed), "--farm", str(farm)])
    assert "0 rows added" in found.output
    assert "To have them counted" not in found.output


def test_the_command_tells_a_row_that_it_set_aside_by_its_code(farm: Path, completed: Path) -> None:
    write(completed, DONE | {"block_id": "B77"}, DONE)
    found = CliRunner().invoke(app, ["record", str(completed), "--farm", str(farm)])
    assert found.exit_code == 3
    assert "E-BLOCK-UNKNOWN" in found.output
    assert "1 row added" in found.output


def test_the_command_needs_a_farm(tmp_path: Path, completed: Path) -> None:
    write(completed, DONE)
    found = CliRunner().invoke(app, ["record", str(completed), "--farm", str(tmp_path)])
    assert found.exit_code == 2
    assert "farm.toml" in found.output


def test_the_command_promises_nothing_for_rows_that_nobody_completed(
    farm: Path, completed: Path
) -> None:
    write(completed, DONE | {"start_time": "", "finish_time": ""})
    found = CliRunner().invoke(app, ["record", str(completed), "--farm", str(farm)])
    assert found.exit_code == 0
    assert "0 rows added" in found.output
    assert "not completed yet: 1" in found.output
    assert "digest" not in found.output
