"""The command that asks what would come of something, as typed."""

import hashlib
import re
from math import prod

import pytest
from typer.testing import CliRunner, Result

from geo.cli.commands import app
from geo.cli.speech import FAILED
from geo.cli.what_if import MOST_SHOWN, NOTHING, effect_lines
from geo.pipeline.effects import effects
from tests.demo_run import FARM, demo_outcome

ROW = re.compile(
    r"^(?P<name>[a-z ]+?) {2,}(?P<own>\S+) +(?P<other>\S+) +(?P<ratio>[\d.e+-]+) ", re.M
)


def typed(*words: str) -> Result:
    return CliRunner().invoke(app, ["suppose", *words, "--farm", str(FARM)])


def digests() -> dict[str, str]:
    return {
        path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in sorted(FARM.iterdir())
    }


def test_rain_tells_protection_ranks_who_crosses_the_line_and_an_exact_split() -> None:
    before = digests()
    told = typed("--rain", "20", "--rain", "2@22-02")
    assert (told.exit_code, told.stderr) == (0, "")
    lines = told.stdout.splitlines()
    assert lines[0].startswith("Made Valley Farm (made scenario), 2026-02-18: powdery mildew on")
    assert lines[1] == "Supposed, in memory only:"
    assert lines[2].startswith("  20 mm more rain, evenly from 18 February 18:00 to ")
    assert "Falls to the reapply line of 0.30 by then" in told.stdout
    assert "* at noon of 2026-02-20" in lines
    split = told.stdout.split("against now")[1]
    ratios = {found["name"]: float(found["ratio"]) for found in ROW.finditer(split)}
    total = ratios.pop("all together")
    assert len(ratios) == 8
    assert prod(ratios.values()) == pytest.approx(total, rel=1e-3)
    assert digests() == before


def test_a_spray_lifts_its_blocks_above_the_line_and_is_named_as_the_reason() -> None:
    told = typed("--spray", "B23;B12=sulfur@now")
    assert "Comes above the reapply line of 0.30 by then (2): " in told.stdout
    assert re.search(
        r"^B(23|12): 0\.\d+ times now: more protection is left on it", told.stdout, re.M
    )
    assert "The same as now: " in told.stdout or "24 of 24" not in told.stdout


def test_what_changes_nothing_says_so() -> None:
    told = typed("--rain", "0", "--warmer", "0")
    assert told.exit_code == 0
    assert told.stdout.endswith(f"\n\n{NOTHING}\n")


def test_another_disease_has_its_own_answer() -> None:
    told = typed("--rain", "30", "--disease", "anthracnose on fruit")
    assert "2026-02-18: anthracnose on fruit, hazard of" in told.stdout
    assert "A hazard ahead; none now: no hour ahead favours anthracnose." in told.stdout


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ((), "E-SUPPOSE-NOTHING"),
        (("--rain", "much"), "E-SUPPOSE-FORM"),
        (("--rain", "5", "--disease", "rust"), "E-DISEASE-UNKNOWN"),
    ],
)
def test_what_cannot_be_supposed_is_one_line(words: tuple[str, ...], code: str) -> None:
    told = typed(*words)
    assert (told.exit_code, told.stdout) == (FAILED, "")
    (line,) = told.stderr.splitlines()
    assert line.startswith(f"{code} STOP ")


def test_a_large_farm_is_cut_short_and_blocks_that_stay_are_counted() -> None:
    season = demo_outcome().season
    wetter = season.assign(protection_left=season.protection_left * 0.5)
    found = [one for one in effects(season, wetter) if one.is_any]
    same = effects(season, season)[:3]
    lines = list(effect_lines([*found * 5, *same], demo_outcome(), season))
    assert f"and {5 * len(found) - MOST_SHOWN} more" in lines
    assert f"The same as now: 3 of {5 * len(found) + 3} blocks" in lines
