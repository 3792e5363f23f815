"""The guard over cited sources works."""

from types import SimpleNamespace

import pytest

from tests.conftest import pytest_collection_modifyitems, unknown_sources


def item(*arguments: str) -> SimpleNamespace:
    mark = pytest.mark.published(*arguments).mark
    return SimpleNamespace(nodeid="a test", iter_markers=lambda _: [mark])


def test_a_listed_source_passes() -> None:
    assert list(unknown_sources([item("allen1998", "Table 2.3")])) == []


def test_an_unlisted_source_stops_the_collection() -> None:
    with pytest.raises(pytest.UsageError, match=r"'nobody1900' is not in sources\.csv"):
        pytest_collection_modifyitems([item("nobody1900", "p. 1")])


def test_a_source_without_a_place_stops_the_collection() -> None:
    with pytest.raises(pytest.UsageError, match="takes two texts"):
        pytest_collection_modifyitems([item("allen1998")])
