"""Does every sentence of a fault go through the catalogue, also those no test farm brings about?"""

import ast
from collections.abc import Iterator

import pytest

from geo.texts.collect import GEO

SAID = {"found", "fix", "taken", "so", "message", "advice", "fault", "many"}
FILES = sorted((GEO / "inputs").glob("*.py"))


def unsaid(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Yield words that are given to a fault as they are written."""
    for node in ast.walk(tree):
        if isinstance(node, ast.keyword) and node.arg in SAID:
            yield from words(node.value)
        elif isinstance(node, ast.Assign):
            yield from of_targets(node.targets[0], node.value)
        elif isinstance(node, ast.AugAssign) and getattr(node.target, "id", "") in SAID:
            yield from words(node.value)


def of_targets(target: ast.expr, value: ast.expr) -> Iterator[tuple[int, str]]:
    """Yield words that are bound to a name of a sentence."""
    if isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple):
        for one, its in zip(target.elts, value.elts, strict=True):
            yield from of_targets(one, its)
    elif getattr(target, "id", "") in SAID:
        yield from words(value)


def words(node: ast.AST) -> Iterator[tuple[int, str]]:
    """Yield texts with a letter; what a call gives was said there."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        if any(map(str.isalpha, node.value)):
            yield node.lineno, node.value
    elif not isinstance(node, ast.Call | ast.FormattedValue | ast.Subscript):
        for child in ast.iter_child_nodes(node):
            yield from words(child)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_no_sentence_of_a_fault_is_said_as_it_is_written(path):
    assert list(unsaid(ast.parse(path.read_text("utf-8")))) == []


def test_a_sentence_that_is_not_said_is_found():
    tree = ast.parse('found, fix = f"no {x}", phrase("a")\nadd(found="b c")\nfix += "d"')
    assert [text for _, text in unsaid(tree)] == ["no ", "d", "b c"]
