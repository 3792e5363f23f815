"""A farm whose files hold whatever people may write, through every command: all stays text."""

import csv
import json
import shutil
from collections.abc import Iterator
from itertools import cycle
from pathlib import Path

import html5lib
import pytest
from click.testing import Result
from typer.testing import CliRunner

from geo.cli.commands import app
from geo.cli.plain_output import plain
from geo.exports.order_tables import FORMULA_STARTS
from tests.demo_run import FARM
from tests.hostile import PAYLOADS

# What the commands of a day are, and of the desk; each writes into the same folder.
COMMANDS = {
    "check": ["check", "{farm}", "--out", "{out}"],
    "today": ["today", "{farm}", "--out", "{out}", "--semicolons"],
    "why": ["why", "B07", "--against", "B03", "--farm", "{farm}"],
    "compare": ["compare", "B10", "B14", "--farm", "{farm}", "--out", "{out}"],
    "suppose": ["suppose", "--rain", "20", "--farm", "{farm}"],
    "changes": ["changes", "--since", "{out}/run.json", "--farm", "{farm}"],
}
HOSTILE = "".join(PAYLOADS[:2]) + "\x1b[1m"
# Whatever a terminal obeys, or that turns the text around it; line ends are ours.
OBEYED = {*map(chr, range(32)), *map(chr, range(127, 160)), *"\u202a\u202b\u202d\u202e"} - {"\n"}


def spoil_features(path: Path, texts: Iterator[str], *columns: str) -> None:
    content = json.loads(path.read_text("utf-8"))
    for feature in content["features"]:
        feature["properties"] |= {column: next(texts) for column in columns}
    path.write_text(json.dumps(content), "utf-8")


def spoil_rows(path: Path, texts: Iterator[str], column: str) -> None:
    with path.open(encoding="utf-8", newline="") as lines:
        rows = list(csv.DictReader(lines))
    with path.open("w", encoding="utf-8", newline="") as lines:
        table = csv.DictWriter(lines, rows[0].keys())
        table.writeheader()
        table.writerows(row | {column: next(texts)} for row in rows)


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Result]:
    """Return what each command said of the farm."""
    farm, out = tmp_path_factory.mktemp("farm"), tmp_path_factory.mktemp("out")
    shutil.copytree(FARM, farm, dirs_exist_ok=True)
    texts = cycle(PAYLOADS)
    spoil_features(farm / "blocks.geojson", texts, "name", "cultivar", "note")
    spoil_features(farm / "neighbours.geojson", texts, "name")
    spoil_features(farm / "places.geojson", texts, "name")
    spoil_rows(farm / "diary.csv", texts, "note")
    spoil_rows(farm / "scouting.csv", texts, "note")
    settings = (farm / "farm.toml").read_text("utf-8")
    for name, own in ("Made Valley Farm", ""), ("Large sprayer", "L"), ("Small sprayer", "S"):
        assert f'"{name}"' in settings
        settings = settings.replace(f'"{name}"', json.dumps(HOSTILE + own))
    (farm / "farm.toml").write_text(settings, "utf-8")
    places = {"farm": str(farm), "out": str(out)}
    run = CliRunner()
    results = {
        name: run.invoke(app, [word.format(**places) for word in words], color=True)
        for name, words in COMMANDS.items()
    }
    results["today"].out = out  # type: ignore[attr-defined]
    return results


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_does_its_work_and_commands_no_terminal(
    told: dict[str, Result], command: str
) -> None:
    result = told[command]
    assert result.exception is None or isinstance(result.exception, SystemExit)
    assert result.exit_code in (0, 3)
    assert len(result.output) > 10
    assert sorted(set(result.output) & OBEYED) == []


def test_what_would_command_is_shown_instead(told: dict[str, Result]) -> None:
    assert plain("\x1b[1m") == r"\x1b[1m"
    assert plain(HOSTILE) in told["today"].output


def test_pages_are_html_without_a_fault_and_hold_no_markup_of_a_name(
    told: dict[str, Result],
) -> None:
    pages = sorted(told["today"].out.glob("*.html"))
    assert {"check.html", "block-map.html", "comparison.html"} <= {page.name for page in pages}
    for page in pages:
        document = html5lib.HTMLParser(strict=True).parse(page.read_text("utf-8"))
        names = [element.attrib for element in document.iter()]
        assert not any("onerror" in each or "onmouseover" in each for each in names), page.name


def test_tables_with_semicolons_hold_no_cell_that_runs_either(told: dict[str, Result]) -> None:
    tables = sorted(told["today"].out.glob("*.csv"))
    assert {"check.csv", "columns.csv", "risk.csv", "round.csv"} <= {path.name for path in tables}
    for path in tables:
        with path.open(encoding="utf-8-sig", newline="") as lines:
            mark = "," if path.name in {"check.csv", "columns.csv"} else ";"
            rows = list(csv.reader(lines, delimiter=mark, strict=True))
        cells = [cell for row in rows for cell in row]
        running = [cell for cell in cells if cell.startswith(FORMULA_STARTS)]
        assert [cell for cell in running if not cell[1:2].isdigit()] == [], path.name
        assert len({len(row) for row in rows}) == 1, path.name
