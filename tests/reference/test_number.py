"""A row that nothing vouches for is refused."""

import pytest

from geo.errors import SourceError
from geo.reference import number as reading
from geo.reference.number import numbers, subjects, values

WHOLE = {
    "subject": "pool",
    "quantity": "depth",
    "value": "3",
    "unit": "m",
    "low": "",
    "high": "",
    "source": "project",
    "where": "",
    "standing": "assumed",
    "note": "ours",
}


def read(monkeypatch: pytest.MonkeyPatch, **changed: str) -> None:
    rows = {"sources": [{"source": "project"}], "made": [WHOLE | changed]}
    monkeypatch.setattr(reading, "read_rows", rows.__getitem__)
    reading.sources.cache_clear()
    try:
        found = numbers.__wrapped__("made")["pool", "depth"]
        assert (found.low, found.value, found.high) == (3.0, 3.0, 3.0)
    finally:
        reading.sources.cache_clear()


def test_a_whole_row_is_read_and_its_range_is_its_value(monkeypatch) -> None:
    read(monkeypatch)


@pytest.mark.parametrize(
    ("changed", "fault"),
    [
        ({"source": "nobody"}, "unknown source nobody"),
        ({"unit": "furlong"}, "unknown unit furlong"),
        ({"standing": "guessed"}, "unknown standing guessed"),
        ({"low": "4", "high": "9"}, r"3.0 lies outside 4.0 to 9.0"),
        ({"high": "2"}, r"3.0 lies outside 3.0 to 2.0"),
    ],
)
def test_a_faulty_row_is_refused_with_its_place(monkeypatch, changed, fault) -> None:
    with pytest.raises(SourceError, match=rf"made.csv, pool, depth: {fault}"):
        read(monkeypatch, **changed)


def test_all_faults_of_a_row_are_named_at_once(monkeypatch) -> None:
    with pytest.raises(SourceError, match="unknown source nobody; unknown unit furlong"):
        read(monkeypatch, source="nobody", unit="furlong")


def test_values_and_subjects_of_a_table() -> None:
    assert values("dispersal", "exponential") == {"scale": 50.0}
    assert values("dispersal", "nothing") == {}
    assert subjects("spray_rules")[:3] == ("sulfur", "spray", "drift early")
