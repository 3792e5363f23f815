"""A kernel's docstring gives each array a unit, and it is the vocabulary's for a name of its."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from numpydoc.docscrape import NumpyDocString

from geo.reference.number import UNITS
from geo.season import VOCABULARY

ROOT = Path(__file__).parents[2]
ROOMS = (
    "terrain",
    "weather",
    "phenology",
    "protection",
    "dispersal",
    "infection",
    "epidemic",
    "windows",
)
KERNELS = sorted(
    path
    for room in ROOMS
    for path in (ROOT / "geo" / room).glob("*.py")
    if path.name not in {"__init__.py", "layer.py"}
)
SLOT = re.compile(r"\[([^\]]+)\]")
KNOWN_UNITS = UNITS | {variable.unit for variable in VOCABULARY.values()} | {"any", "kPa", "m-2"}


def documented(path: Path) -> Iterator[tuple[ast.FunctionDef, dict[str, str]]]:
    """Yield each public function of a module with the unit slot of each of its parameters."""
    for node in ast.parse(path.read_text("utf-8")).body:
        text = ast.get_docstring(node) if isinstance(node, ast.FunctionDef) else None
        if isinstance(node, ast.FunctionDef) and text and not node.name.startswith("_"):
            slots = {}
            for parameter in NumpyDocString(text)["Parameters"]:
                names = [name.strip() for name in parameter.name.split(",")]
                units = SLOT.findall(parameter.type) or [parameter.type]
                # One unit for all the names before it; a tuple has one for each of its parts.
                slots |= dict.fromkeys(names, ", ".join(units))
            yield node, slots


def arguments(function: ast.FunctionDef) -> dict[str, str]:
    every = [*function.args.posonlyargs, *function.args.args, *function.args.kwonlyargs]
    return {one.arg: ast.unparse(one.annotation) for one in every if one.annotation}


@pytest.mark.parametrize("path", KERNELS, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_each_number_a_kernel_takes_has_a_known_unit(path: Path) -> None:
    faults = [
        f"{function.name}({name}): {slots.get(name)!r}"
        for function, slots in documented(path)
        for name, kind in arguments(function).items()
        if kind in {"FloatArray", "IntArray", "BoolArray", "float"}
        and slots.get(name) not in KNOWN_UNITS
    ]
    assert not faults, faults


@pytest.mark.parametrize("path", KERNELS, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_a_name_of_the_vocabulary_has_the_vocabularys_unit(path: Path) -> None:
    faults = [
        f"{function.name}({name}): {unit}, in the vocabulary {VOCABULARY[name].unit}"
        for function, slots in documented(path)
        for name, unit in slots.items()
        if name in VOCABULARY and unit != VOCABULARY[name].unit
    ]
    assert not faults, faults
