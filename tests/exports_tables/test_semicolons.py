"""Tables for decimal commas hold the same cells."""

import csv
import io
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from geo.exports.order_tables import as_csv
from geo.exports.semicolons import with_semicolons
from geo.pipeline import write
from tests.demo_run import demo_folder, demo_outcome

CELLS = st.one_of(st.floats(-1e6, 1e6), st.integers(), st.text(st.characters(codec="utf-8")))


@given(st.lists(st.tuples(CELLS, CELLS), min_size=1))
def test_cells_come_back_with_a_comma_for_the_point(rows: list[tuple[object, object]]) -> None:
    text = as_csv(["a", "b"], rows)
    back = list(csv.reader(io.StringIO(with_semicolons(text)[1:], newline=""), delimiter=";"))
    for before, after in zip(csv.reader(io.StringIO(text, newline="")), back, strict=True):
        for old, new in zip(before, after, strict=True):
            assert new in (old, old.replace(".", ","))


def test_a_run_writes_every_table_so_if_asked(tmp_path: Path) -> None:
    paths = write(demo_outcome(), tmp_path, semicolons=True)
    tables = [path for path in paths.values() if path.suffix == ".csv"]
    assert tables
    for path in tables:
        plain = (demo_folder() / path.name).read_text("utf-8")
        assert path.read_text("utf-8") == with_semicolons(plain)
