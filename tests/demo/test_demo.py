"""The whole job on the made valley farm, end to end, as a person types it."""

import csv
import json
import re
import subprocess
import sys
from html.parser import HTMLParser
from math import prod
from pathlib import Path

import pytest
from typer.testing import CliRunner

from geo.cli.commands import app
from tests.demo_run import FARM, NAMES, OF_TODAY, demo_outcome

ELSEWHERE = re.compile(r"\s*(?:https?:)?//", re.IGNORECASE)
FETCHING = {"src", "href", "srcset", "data", "poster", "action", "background"}
STYLE_FETCH = re.compile(r"""(?:url\(|@import)\s*["']?\s*(?:https?:)?//""", re.IGNORECASE)
ALL = NAMES | OF_TODAY
ROW = re.compile(
    r"^(?P<name>[a-z ]+?) {2,}(?P<own>\S+) +(?P<other>\S+) +(?P<ratio>[\d.e+-]+) ", re.MULTILINE
)


class Fetches(HTMLParser):
    """Gathers what would make a browser fetch; a link that a person may click is none of it."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self.policy = ""
        self._is_style = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Look at an element's attributes."""
        self._is_style = tag == "style"
        said = {name: value or "" for name, value in attrs}
        if said.get("http-equiv", "").lower() == "content-security-policy":
            self.policy = said["content"]
        if tag != "a":
            self.found += [
                f"<{tag} {name}={value[:100]}>"
                for name, value in said.items()
                if name in FETCHING and ELSEWHERE.match(value)
            ]
        self.found += STYLE_FETCH.findall(said.get("style", ""))

    def handle_data(self, data: str) -> None:
        """Look into a style sheet."""
        if self._is_style:
            self.found += STYLE_FETCH.findall(data)


def blocks_of(path: Path, kind: str | None = None) -> list[str]:
    with path.open(encoding="utf-8", newline="") as lines:
        return [row["block_id"] for row in csv.DictReader(lines) if kind in {None, row.get("list")}]


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> tuple[str, Path]:
    """Run the installed command itself, and return what it said and where it wrote."""
    out = tmp_path_factory.mktemp("demo") / "outputs"
    command = [str(Path(sys.executable).with_name("mangoblock")), "demo", "--out", str(out)]
    run = subprocess.run(
        command, capture_output=True, text=True, check=False, cwd=out.parent, encoding="utf-8"
    )
    assert run.returncode == 0, run.stderr
    assert "Traceback" not in run.stderr
    return run.stdout, out


def test_all_files_are_there_and_none_is_empty(told: tuple[str, Path]) -> None:
    _, out = told
    assert {path.name for path in out.iterdir()} == ALL
    assert all(path.stat().st_size > 1000 for path in out.iterdir())


def test_the_summary_names_the_first_blocks_why_and_every_path(told: tuple[str, Path]) -> None:
    said, out = told
    spray, scouting = demo_outcome().spray, demo_outcome().scouting
    for entry in spray.entries[:5]:
        assert f" {entry.rank}. {entry.block}  {entry.reason}\n" in said
    for held in spray.cannot_now:
        assert f"{held.block}  {held.about}: " in said
    for walk in scouting.entries[:3]:
        assert f" {walk.rank}. {walk.block} " in said
    for name in ALL:
        assert str(out / name) in said


def test_the_summary_is_modest(told: tuple[str, Path]) -> None:
    said, _ = told
    assert "made scenario" in said
    assert "Planning aid. The label is the law" in said
    assert "no probabilities" in said


def test_some_blocks_cannot_be_sprayed_now_but_not_all(told: tuple[str, Path]) -> None:
    _, out = told
    held = blocks_of(out / "spray-order.csv", "cannot now")
    open_now = blocks_of(out / "spray-order.csv", "spray order")
    assert len(held) >= 3
    assert len(open_now) >= 10
    assert set(held).isdisjoint(open_now)


def test_where_to_look_is_not_where_to_spray(told: tuple[str, Path]) -> None:
    _, out = told
    open_now = blocks_of(out / "spray-order.csv", "spray order")
    walks = [one for one in blocks_of(out / "scouting-order.csv") if one in open_now]
    assert sorted(walks) == sorted(open_now)
    assert walks != open_now


def test_the_map_fetches_nothing(told: tuple[str, Path]) -> None:
    _, out = told
    page = Fetches()
    page.feed((out / "block-map.html").read_text("utf-8"))
    assert page.found == []
    # And if one slipped through, the page's own policy would stop it.
    assert "default-src 'none'" in page.policy
    assert "http" not in page.policy


def test_the_map_shows_the_round_and_the_walk_of_the_sheets(told: tuple[str, Path]) -> None:
    said, out = told
    page = (out / "block-map.html").read_text("utf-8")
    data = json.loads(re.search(r'id="page-data">(.*?)</script>', page, re.DOTALL)[1])
    with (out / "round.csv").open(encoding="utf-8", newline="") as lines:
        stops = [row for row in csv.DictReader(lines) if row["list"] == "stop"]
    assert sum(len(way["stops"]) for way in data["round"]) == len(stops) > 5
    assert {way["name"] for way in data["round"]} == {row["sprayer"] for row in stops}
    (walk,) = data["walk"]
    assert walk["trees"]
    assert "Round with sulfur:" in said
    assert "Walk from " in said


def test_the_map_names_every_block(told: tuple[str, Path]) -> None:
    _, out = told
    page = (out / "block-map.html").read_text("utf-8")
    assert [block for block in demo_outcome().farm.blocks.index if block not in page] == []


def test_a_second_run_over_the_first_changes_no_byte(told: tuple[str, Path]) -> None:
    _, out = told
    before = {name: (out / name).read_bytes() for name in ALL}
    again = CliRunner().invoke(app, ["today", str(FARM), "--out", str(out)])
    assert again.exit_code == 0
    assert [name for name in ALL if (out / name).read_bytes() != before[name]] == []


@pytest.mark.parametrize(("block", "against"), [("B14", "B19"), ("B10", "B03"), ("B21", "B12")])
def test_the_ratios_of_why_multiply_to_its_total(block: str, against: str) -> None:
    command = ["why", block, "--against", against, "--farm", str(FARM)]
    told = CliRunner().invoke(app, command)
    assert told.exit_code == 0
    *factors, total = ROW.finditer(told.stdout)
    assert len(factors) == 8
    assert total["name"] == "all together"
    # As printed: ratios to five digits, everything else to four.
    ratios = prod(float(factor["ratio"]) for factor in factors)
    assert ratios == pytest.approx(float(total["ratio"]), rel=8 * 5e-5 + 5e-4)
    for column in ("own", "other"):
        product = prod(float(factor[column]) for factor in factors)
        assert product == pytest.approx(float(total[column]), rel=9 * 5e-4)
