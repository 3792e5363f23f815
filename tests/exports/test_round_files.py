"""What a planned round is handed out as."""

from dataclasses import replace
from pathlib import Path

import pytest

from geo.errors import InputError
from geo.exports import round_files
from geo.exports.round_files import write_round_sheets
from geo.season.farm import FileRead
from tests.exports.made import Made, made
from tests.exports.made_round import made_round


@pytest.fixture(scope="module")
def farm_made() -> Made:
    return made()


def parts(farm_made: Made) -> dict[str, object]:
    return {
        "farm": farm_made.farm,
        "season": farm_made.season,
        "order": farm_made.spray,
        "day_round": made_round(farm_made.farm),
    }


def test_every_file_named_is_written(farm_made: Made, tmp_path: Path) -> None:
    paths = write_round_sheets(tmp_path / "new", **parts(farm_made))
    assert all(path.stat().st_size > 0 for path in paths.values())
    assert {path.name for path in paths.values()} == {
        path.name for path in (tmp_path / "new").iterdir()
    }


def test_without_the_library_an_older_pdf_does_not_stay(
    farm_made: Made, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "day-sheet.pdf").write_bytes(b"of yesterday")
    monkeypatch.setattr(round_files, "pdf_missing", lambda: "not here")
    paths = write_round_sheets(tmp_path, **parts(farm_made))
    assert "day sheet, PDF" not in paths
    assert not (tmp_path / "day-sheet.pdf").exists()


def test_a_file_of_the_farm_is_never_overwritten(farm_made: Made, tmp_path: Path) -> None:
    own = FileRead("diary", tmp_path / "round.csv", 1, "", 0, 0)
    farm = replace(farm_made.farm, files=(own,))
    with pytest.raises(InputError, match="would be overwritten"):
        write_round_sheets(tmp_path, **(parts(farm_made) | {"farm": farm}))


def test_a_folder_that_cannot_be_made_is_said(farm_made: Made, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    with pytest.raises(InputError, match="E-OUT-WRITE"):
        write_round_sheets(tmp_path / "file" / "new", **parts(farm_made))
