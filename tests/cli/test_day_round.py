"""The command that plans the round of the day, as typed."""

from dataclasses import replace
from datetime import time
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from geo.cli.commands import app
from geo.cli.day_round import MOST_LEFT_OUT, round_lines, time_asked
from geo.cli.speech import FAILED, PARTIAL
from geo.errors import InputError, Issue, Outcome
from geo.pipeline.day_round import Asked, day_round_of
from geo.reference.diseases import disease_with
from geo.rounds.day_round import DayRound, Ingredient, LeftOut
from tests.demo_run import FARM, demo_outcome


@pytest.fixture(autouse=True)
def one_run(monkeypatch: pytest.MonkeyPatch) -> None:
    """Take the demo as run once: these tests are of what is done with it."""
    monkeypatch.setattr("geo.pipeline.run", lambda _, **__: demo_outcome())


def typed(*words: str) -> Result:
    return CliRunner().invoke(app, ["round", str(FARM), *words])


def demo_round() -> DayRound:
    asked = Asked(hours=1.0, sprayers=1)
    return day_round_of(demo_outcome(), disease_with("panicle_mildew"), asked)


def test_a_round_is_printed_with_its_bound_and_its_sheets_are_written(tmp_path: Path) -> None:
    told = typed("--hours", "1", "--start", "6:30", "--sprayers", "1", "--out", str(tmp_path))
    assert (told.exit_code, told.stderr) == (0, "")
    lines = told.stdout.splitlines()
    assert lines[0] == (
        "Made Valley Farm (made scenario), round of 2026-02-18: sulfur against powdery mildew on "
        "panicles"
    )
    assert lines[2].startswith("Large sprayer: leaves ")
    assert "tank 1 at Filling point" in lines[3]
    assert "  rank " in lines[4]
    assert "no round of the day avoids more than " in told.stdout
    assert "of the best." in told.stdout
    assert "Note: Order of mixing (common practice; the order on the label comes" in told.stdout
    assert "Note: Large sprayer: 53.3 L/min from all nozzles (2.22 each of 24)" in told.stdout
    assert (tmp_path / "day-sheet.html").exists()
    assert (tmp_path / "round.gpx").exists()
    assert "The label is the law" in lines[-1]


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("--hours", "25"), "E-HOURS-RANGE"),
        (("--start", "noon"), "E-TIME-READ"),
        (("--sprayers", "9"), "E-SPRAYERS-RANGE"),
    ],
)
def test_what_cannot_be_is_one_line_and_an_exit_of_its_own(
    words: tuple[str, str], code: str, tmp_path: Path
) -> None:
    told = typed(*words, "--out", str(tmp_path))
    assert told.exit_code == FAILED
    assert told.stderr.startswith(code)
    assert not list(tmp_path.iterdir())


def test_a_farm_with_something_set_aside_ends_with_a_code_of_its_own(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    made = demo_outcome()
    held = Issue("E-MADE", Outcome.HOLD, "diary.csv row 2", "made for this test", "Mend it")
    outcome = replace(made, farm=replace(made.farm, issues=(held,)))
    monkeypatch.setattr("geo.pipeline.run", lambda _, **__: outcome)
    told = typed("--hours", "0", "--out", str(tmp_path))
    assert (told.exit_code, told.stderr) == (PARTIAL, f"{held}\n")


def test_a_day_without_hours_says_that_nobody_leaves_and_why(tmp_path: Path) -> None:
    lines = typed("--hours", "0", "--out", str(tmp_path)).stdout.splitlines()
    assert lines[2] == "Nobody leaves the shed."
    assert lines[4].endswith("  There are no hours of work.")
    assert "avoids more" not in "".join(lines)


def test_the_words_of_a_caution_stand_once_below_all_stops() -> None:
    made = demo_round()
    day = made.sprayers[0]
    wind, bees = "Wind near the limit", "Bees may forage"
    first, *rest = (replace(stop, cautions=(bees,)) for stop in day.stops)
    stops = (replace(first, cautions=(wind, bees)), *rest)
    lines = list(round_lines(replace(made, sprayers=(replace(day, stops=stops),))))
    assert sum(line.endswith("; caution a, b") for line in lines) == 1
    assert sum(line.endswith("; caution b") for line in lines) == len(rest)
    assert [line for line in lines if line.startswith("Caution ")] == [
        f"Caution a: {wind}",
        f"Caution b: {bees}",
    ]


def test_an_hour_is_read_with_one_digit_or_two() -> None:
    assert time_asked("6:05") == time_asked("06:05") == time(6, 5)
    with pytest.raises(InputError, match='"25:00"'):
        time_asked("25:00")


def test_a_proven_round_says_so_and_long_lists_are_cut() -> None:
    made = demo_round()
    many = tuple(LeftOut(f"B{number}", number, 1.0, "No time.") for number in range(20))
    proven = replace(made, is_proven=True, left_out=many)
    lines = list(round_lines(proven))
    assert any(line.endswith("no round of the day avoids more (proven).") for line in lines)
    assert f"  and {20 - MOST_LEFT_OUT} more, in the table" in lines
    none = list(round_lines(replace(made, sprayers=(), left_out=(), is_proven=True, notes=())))
    assert none == ["", "Nobody leaves the shed."]


def test_amounts_are_printed_with_the_label_s_unit() -> None:
    made = demo_round()
    day = made.sprayers[0]
    mixed = tuple(
        replace(load, ingredients=(Ingredient("sulfur", 11.25, "kg"),)) for load in day.loads
    )
    lines = list(round_lines(replace(made, sprayers=(replace(day, loads=mixed),))))
    assert any(line.endswith("L, sulfur 11.25 kg") for line in lines)


def test_a_pdf_that_cannot_be_written_is_said_in_one_line(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    words = "No day-sheet.pdf: install what it needs"
    for place in ("day_sheet_pdf", "round_files"):
        monkeypatch.setattr(f"geo.exports.{place}.pdf_missing", lambda: words)
    told = typed("--hours", "1", "--sprayers", "1", "--out", str(tmp_path))
    assert told.stdout.splitlines().count(words) == 1
    assert not (tmp_path / "day-sheet.pdf").exists()
