"""The catalogue of messy inputs, letters D and P: ground, settings and the run itself."""

import errno
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest
import rasterio
from typer.testing import CliRunner

from geo.cli.commands import app
from geo.exports.lock import NAME
from tests.inputs.catalogue import SmallFarm, assert_told, polygon, square


@pytest.fixture
def farm(tmp_path):
    return SmallFarm(tmp_path / "farm").build()


def rolling():
    """Return made heights: a valley with a floor at 100 m."""
    row, column = np.mgrid[0:60, 0:60]
    return 100.0 + 0.02 * (row - 30.0) ** 2 + 0.01 * (column - 30.0) ** 2


def d01(farm):
    farm.block(3, corners=polygon(square(20)))


def d02(farm):
    farm.ground(rolling() / 0.3048, units="")


def d03_zeros(farm):
    heights = rolling() + 200.0
    heights[32, 30:33] = 0.0
    farm.ground(heights, nodata=None)
    farm.swap("farm.toml", "elevation = 100", "elevation = 300")


def d03_untagged(farm):
    heights = rolling()
    heights[2:4, 2:6] = -32768.0
    farm.ground(heights, nodata=None)


def d04_steps(farm):
    farm.ground(np.round(rolling()), dtype="int16", nodata=-32768)


def d05(farm):
    path = farm.folder / "ground.tif"
    farm.write("ground.tif", path.read_bytes()[:3000])


def setting(old, new):
    return lambda farm: farm.swap("farm.toml", old, new)


CASES = {
    "D01": (d01, "NOTE E-GROUND-COVER ground.tif - - B3", "covers 0 % of block"),
    "D02": (d02, "STOP E-GROUND-FEET ground.tif - - -", "are they feet?"),
    "D03 zeros": (d03_zeros, "STOP E-GROUND-ZERO ground.tif - - -", "exactly 0 m"),
    "D03 untagged": (d03_untagged, "FIX E-HEIGHT-WILD ground.tif - - '-32768", "8 cells"),
    "D04 whole metres": (d04_steps, "NOTE E-GROUND-STEPS ground.tif - - -", "shallower by 0.5 m"),
    "D05": (d05, "STOP E-RASTER ground.tif - - *", "cannot be read"),
    "P01 unknown": (
        setting("horizon_days = 2", "horizen_days = 2"),
        "STOP E-KEY-UNKNOWN farm.toml - - -",
        "nothing is set by it",
        '"horizon_days"',
    ),
    # Decided otherwise: out of range stops. A note would let a slip of the pen rank blocks.
    "P01 range": (
        setting("horizon_days = 2", "horizon_days = 99"),
        "STOP E-KEY-RANGE farm.toml - - 99",
        "not within 1 to 14",
    ),
    "P02": (
        setting("made = true", "made = true\nformat = 7"),
        "STOP E-FORMAT farm.toml - - 7",
        "Take the version",
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_the_fault_is_told_as_the_catalogue_asks(farm, name):
    spoil, told, *words = CASES[name]
    spoil(farm)
    assert_told(farm.check(), told, *words)


def test_d04_ground_in_degrees_is_turned_into_metres(farm):
    place = rasterio.Affine(0.0005, 0.0, 121.02, 0.0, -0.0005, 14.62)
    farm.ground(np.full((90, 90), 100.0), crs="EPSG:4326", transform=place)
    assert farm.check().faults == []


def test_p03_a_folder_that_cannot_be_written_leaves_nothing_half(farm, tmp_path):
    (tmp_path / "taken").write_text("a file", "utf-8")
    told = CliRunner().invoke(app, ["check", str(farm.folder), "--out", str(tmp_path / "taken")])
    assert told.exit_code == 2
    assert "E-OUT-WRITE STOP" in told.stderr
    assert (tmp_path / "taken").read_text("utf-8") == "a file"


def test_p03_a_full_disk_is_told_in_words_and_leaves_the_last_good_files(farm, monkeypatch):
    farm.check()
    out = farm.folder.parent / "out"
    before = {path.name: path.read_bytes() for path in out.iterdir()}
    farm.add("diary.csv", "2026-02-20,,B1,copper\n")
    whole = Path.write_bytes

    def half(path, content):
        whole(path, content[: len(content) // 2])
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(Path, "write_bytes", half)
    told = CliRunner().invoke(app, ["check", str(farm.folder), "--out", str(out)])
    assert told.exit_code == 2
    assert "E-OUT-WRITE STOP" in told.stderr
    assert "No space left on device" in told.stderr
    assert "free some space" in told.stderr
    assert {path.name: path.read_bytes() for path in out.iterdir()} == before


def test_p03_a_run_that_is_killed_leaves_the_last_good_files_and_the_next_one_goes_on(farm):
    farm.check()
    out = farm.folder.parent / "out"
    before = {path.name: path.read_bytes() for path in out.iterdir()}
    farm.add("diary.csv", "2026-02-20,,B1,copper\n")
    dies = "import os; from pathlib import Path; from geo.cli import main; "
    dies += "whole = Path.write_bytes; Path.write_bytes = "
    dies += "lambda path, content: (whole(path, content[:9]), os._exit(9)); main()"
    words = [sys.executable, "-c", dies, "check", str(farm.folder), "--out", str(out)]
    assert subprocess.run(words, capture_output=True, check=False, timeout=300).returncode == 9
    assert {name: (out / name).read_bytes() for name in before} == before
    assert farm.check().codes() == ["E-SPRAY-PLANNED"]


@pytest.mark.parametrize(
    ("name", "text", "code"),
    [
        # Decided otherwise: no number of a form stands in the map of columns. Its columns and the
        # names in it are all known, or it stops; nothing of another form is mixed in.
        ("columns.csv", "file,heading,meaning\ndiary.csv,date,day\n", "E-COLUMN-MAP"),
        ("columns.csv", "datei,spalte\ndiary.csv,date\n", "E-COLUMN-MISSING"),
    ],
)
def test_p02_a_column_map_of_another_form_stops(farm, name, text, code):
    farm.write(name, text.replace("meaning", "means"))
    farm.swap("farm.toml", "[files]\n", '[files]\ncolumns = "columns.csv"\n')
    checked = farm.check()
    assert checked.exit_code == 2
    assert code in checked.codes()


def test_p02_the_record_of_a_run_of_an_older_form_is_not_compared_with(farm):
    old = farm.folder.parent / "run.json"
    old.write_text('{"farm": "Small Made Farm", "today": "2026-02-04"}', "utf-8")
    told = CliRunner().invoke(app, ["changes", "--since", str(old), "--farm", str(farm.folder)])
    assert told.exit_code == 2
    assert "E-RUN-RECORD STOP" in told.stderr
    assert "older form" in told.stderr


def test_p04_a_second_run_into_one_folder_names_the_first(farm, tmp_path):
    out = tmp_path / "out"
    out.mkdir()
    (out / NAME).write_text(str(os.getpid()), "ascii")
    told = CliRunner().invoke(app, ["check", str(farm.folder), "--out", str(out)])
    assert told.exit_code == 2
    assert f"E-OUT-BUSY STOP {out}: another run (process {os.getpid()})" in told.stderr


def written(farm):
    checked = farm.check()
    out = farm.folder.parent / "out"
    return checked.faults, [(out / name).read_bytes() for name in ("check.html", "check.csv")]


def test_p05_the_clock_of_the_computer_is_never_asked(farm, monkeypatch):
    # Decided otherwise: no clock is compared with the data, since none is read. Today is the day
    # of the last measured hour.
    farm.add("diary.csv", "2026-02-20,,B1,copper\n")
    before = written(farm)
    monkeypatch.setattr(time, "time", lambda: 0.0)
    assert written(farm) == before


@pytest.fixture(scope="module")
def languages(tmp_path_factory):
    """Return a folder of languages, made here: the machine may have none but C."""
    folder = tmp_path_factory.mktemp("languages")
    tool = shutil.which("localedef")
    for name in ("de_DE", "hi_IN", "ar_EG") if tool else ():
        made = [tool, "--no-archive", "-i", name, "-f", "UTF-8", str(folder / f"{name}.UTF-8")]
        subprocess.run(made, capture_output=True, check=False, timeout=300)
    return folder


@pytest.mark.parametrize("locale", ["C", "de_DE.UTF-8", "hi_IN.UTF-8", "ar_EG.UTF-8"])
def test_p06_language_and_path_change_nothing(farm, tmp_path, languages, locale):
    farm.add("diary.csv", "2026-02-03,,Bé,copper\n")
    _, expected = written(farm)
    moved = shutil.copytree(farm.folder, tmp_path / "مزرعة é 🥭" / "farm")
    out = tmp_path / "ü"
    # Libraries beneath take the language only where a program asks for it, as this one does not.
    is_made = (languages / locale).exists()
    asked = f"import locale; locale.setlocale(locale.LC_ALL, {'' if is_made else 'C'!r}); "
    asked += "print(locale.localeconv()['decimal_point']); from geo.cli import main; main()"
    words = [sys.executable, "-c", asked, "check", str(moved)]
    told = subprocess.run(
        [*words, "--out", str(out)],
        env=os.environ | {"LC_ALL": locale, "LANG": locale, "LOCPATH": str(languages)},
        capture_output=True,
        check=False,
        timeout=300,
    )
    assert told.returncode == 3, told.stderr
    assert told.stdout.startswith(b",") == (is_made and locale == "de_DE.UTF-8")
    assert [(out / name).read_bytes() for name in ("check.html", "check.csv")] == expected
