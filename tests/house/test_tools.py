"""The tools that keep the code in order find nothing."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
TEXTS = ("README.md", "DEVELOPERS.md", "geo", "tests", "layers_demo")
PLACES = ("geo", "tests", "layers_demo", ".ci")


def tool(*words: str) -> subprocess.CompletedProcess[str]:
    """Run a tool of the environment these tests run in, from the top of the checkout."""
    command = [str(Path(sys.executable).with_name(words[0])), *words[1:]]
    return subprocess.run(
        command, cwd=ROOT, capture_output=True, text=True, check=False, stdin=subprocess.DEVNULL
    )


def assert_quiet(run: subprocess.CompletedProcess[str]) -> None:
    assert run.returncode == 0, f"{' '.join(run.args)}\n{run.stdout}{run.stderr}"


@pytest.mark.parametrize(
    "words",
    [
        ("ruff", "check", "--output-format", "concise", *PLACES),
        ("ruff", "format", "--check", *PLACES),
        ("lint-imports", "--no-cache"),
        ("codespell", *TEXTS),
        ("mypy",),
    ],
    ids=lambda words: " ".join(words[:2]),
)
def test_the_tool_finds_nothing(words: tuple[str, ...]) -> None:
    assert_quiet(tool(*words))


def test_each_public_docstring_says_what_numpydoc_asks_for() -> None:
    modules = sorted(str(path.relative_to(ROOT)) for path in (ROOT / "geo").rglob("*.py"))
    assert_quiet(tool("numpydoc", "lint", "--config", ".", *modules))
