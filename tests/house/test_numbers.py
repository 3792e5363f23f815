"""No number of the science stands in the code without saying where it is from."""

import ast
import io
import re
import tokenize
from collections.abc import Iterator
from pathlib import Path

import pytest

from geo.reference.number import sources

ROOT = Path(__file__).parents[2]
# Rooms that compute. Layout of pages and reading of files has numbers of its own kind.
SCIENCE = (
    "terrain",
    "weather",
    "phenology",
    "protection",
    "dispersal",
    "infection",
    "epidemic",
    "rules",
    "windows",
    "ranking",
    "scouting",
    "comparison",
    "season",
)
# Counting, halving, squaring, shares in per cent: arithmetic, not science.
ARITHMETIC = frozenset({0, 0.5, 1, 2, 100})
ORDER_TO_A_TOOL = re.compile(r"#\s*(noqa|fmt|type): ?\S+$")
NAMED = re.compile(r"\bEqs?\. ?\d|" + "|".join(rf"\b{key}\b" for key in sources()))


def modules() -> list[Path]:
    return sorted(path for room in SCIENCE for path in (ROOT / "geo" / room).rglob("*.py"))


def bare_numbers(source: str) -> Iterator[tuple[int, str]]:
    """
    Find the numbers of a module that nothing vouches for.

    A number other than 0, 1/2, 1, 2 and 100 needs one of three things: a comment within its
    statement or on the line above that begins with more than an order to a tool; a function
    around it whose docstring names a key of sources.csv or an equation by its number; or, for
    bounds of the vocabulary, a call of `Variable`, which is the one place for them.
    """
    commented = {
        token.start[0]
        for token in tokenize.generate_tokens(io.StringIO(source).readline)
        if token.type == tokenize.COMMENT and not ORDER_TO_A_TOOL.match(token.string)
    }

    def walk(node: ast.AST, *, lines: range, is_vouched: bool) -> Iterator[tuple[int, str]]:
        if isinstance(node, ast.FunctionDef):
            is_vouched = is_vouched or bool(NAMED.search(ast.get_docstring(node) or ""))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            is_vouched = is_vouched or node.func.id == "Variable"
        if isinstance(node, ast.stmt):
            # Of a statement with a body (if, for, with) only the head is its own.
            body = getattr(node, "body", [])
            last = body[0].lineno - 1 if body else node.end_lineno
            lines = range(node.lineno - 1, (last or node.lineno) + 1)
        if isinstance(node, ast.Constant) and type(node.value) in {int, float}:
            if not is_vouched and node.value not in ARITHMETIC and commented.isdisjoint(lines):
                yield node.lineno, repr(node.value)
            return
        for child in ast.iter_child_nodes(node):
            yield from walk(child, lines=lines, is_vouched=is_vouched)

    yield from walk(ast.parse(source), lines=range(0), is_vouched=False)


@pytest.mark.parametrize("path", modules(), ids=lambda path: str(path.relative_to(ROOT)))
def test_each_number_says_where_it_is_from(path: Path) -> None:
    bare = [f"line {line}: {number}" for line, number in bare_numbers(path.read_text("utf-8"))]
    assert not bare, f"{path.relative_to(ROOT)}: {'; '.join(bare)}"


@pytest.mark.parametrize(
    "source",
    [
        "RATE = 0.37",
        "def warmth(t):\n    '''Return it.'''\n    return 17.27 * t",
        "def warmth(t):\n    if t > 31:\n        return 0  # none\n    return 1",
        "RATE = 0.37  # noqa: X1",
    ],
)
def test_a_number_nothing_vouches_for_is_found(source: str) -> None:
    assert list(bare_numbers(source))


@pytest.mark.parametrize(
    "source",
    [
        "SHARE = 0.5 + 100 * 2",
        "RATE = 0.37  # assumed: our judgement",
        "# As printed.\nRATE = 0.37",
        "def warmth(t):\n    if t > 31:  # assumed\n        return 0\n    return 1",
        "def warmth(t):\n    '''Return Eq. 11.'''\n    return 17.27 * t",
        "def warmth(t):\n    '''Return it (allen1998).'''\n    return 17.27 * t",
    ],
)
def test_a_number_with_its_source_passes(source: str) -> None:
    assert not list(bare_numbers(source))
