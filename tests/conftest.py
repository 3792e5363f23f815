"""What holds for every test: chance is fixed, and a printed number names a source we list."""

from collections.abc import Callable, Iterable

import numpy as np
import pytest
from hypothesis import settings

from geo.arrays import AnyArray
from geo.reference.number import sources

settings.register_profile("same every time", derandomize=True, deadline=None)
settings.load_profile("same every time")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Refuse the whole collection if a test cites a source that nobody can look up."""
    faults = list(unknown_sources(items))
    if faults:
        raise pytest.UsageError("; ".join(faults))


def unknown_sources(items: Iterable[pytest.Item]) -> Iterable[str]:
    """Yield a fault for each ``published`` mark that names no row of ``sources.csv``."""
    for item in items:
        for mark in item.iter_markers("published"):
            if len(mark.args) != 2:
                yield f"{item.nodeid}: published(source, where) takes two texts, got {mark.args}"
            elif mark.args[0] not in sources():
                yield f"{item.nodeid}: {mark.args[0]!r} is not in sources.csv"


def _strided(values: AnyArray) -> AnyArray:
    return np.repeat(values, 2, axis=-1)[..., ::2]


def _read_only(values: AnyArray) -> AnyArray:
    copy = values.copy()
    copy.flags.writeable = False
    return copy


KINDS: dict[str, Callable[[AnyArray], AnyArray]] = {
    "float64": lambda values: values,
    "float32": lambda values: values.astype(np.float32),
    "strided": _strided,
    "read only": _read_only,
}


@pytest.fixture(params=KINDS)
def as_array(request: pytest.FixtureRequest) -> Callable[[object], AnyArray]:
    """Return a maker of arrays of one kind; a kernel must take each of them."""
    return lambda values: KINDS[request.param](np.asarray(values, dtype=float))
