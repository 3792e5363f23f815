"""What may not be said, how long a file may be, and what lies at the top of the house."""

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
LONGEST_FILE_IN_LINES = 300
CODE = sorted(
    path
    for suffix in ("py", "js", "css", "html", "csv", "toml", "md")
    for folder in ("geo", "layers_demo")
    for path in (ROOT / folder).rglob(f"*.{suffix}")
    if "vendor" not in path.parts and "__pycache__" not in path.parts
)
PAGES = [ROOT / "README.md", ROOT / "DEVELOPERS.md"]
# A tool that ranks cannot promise these: the label is the law and a person decides.
PROMISES = (
    r"\bsafe(ly)? to (spray|enter|eat)\b|\brecommended rate\b|\bdiagnosed\b|\bguarantee[ds]?\b"
)
UNFINISHED = r"\b(TODO|FIXME|XXX|HACK)\b|\bNotImplementedError\b"
MACHINE_PATHS = r"(?<![\w.])/(home|root|work|Users|tmp|mnt)/|[A-Z]:\\\\Users"
TOP = {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml"} | {
    "geo",
    "layers_demo",
    "tests",
    "outputs",
}
MADE_BY_TOOLS = {"build", "dist", "htmlcov", "node_modules", "mangoblock_risk.egg-info"}


def name(path: Path) -> str:
    return str(path.relative_to(ROOT))


def found(pattern: str, paths: list[Path]) -> list[str]:
    return [
        f"{name(path)}:{row}: {line.strip()[:100]}"
        for path in paths
        for row, line in enumerate(path.read_text("utf-8").splitlines(), start=1)
        if re.search(pattern, line, re.IGNORECASE if pattern is PROMISES else 0)
    ]


@pytest.mark.parametrize(
    "pattern", [PROMISES, UNFINISHED, MACHINE_PATHS], ids=["promise", "unfinished", "machine path"]
)
def test_nothing_is_promised_unfinished_or_bound_to_one_machine(pattern: str) -> None:
    assert found(pattern, [*CODE, *PAGES]) == []


def test_no_file_is_longer_than_one_question() -> None:
    code = [
        path for path in CODE if path.suffix in {".py", ".js"} and path.is_relative_to(ROOT / "geo")
    ]
    long = {
        name(path): lines
        for path in code
        if (lines := len(path.read_text("utf-8").splitlines())) > LONGEST_FILE_IN_LINES
    }
    assert long == {}


def test_the_top_of_the_house_holds_what_its_card_names() -> None:
    there = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert there - MADE_BY_TOOLS == TOP
