"""Rows: as many as fit, as long as the outline lets them be, the first downwind."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import affinity

from geo.rounds.rows import long_side, rows_of

BLOCK = shapely.box(0, 0, 200, 100)


def test_rows_run_along_the_longer_side_unless_said() -> None:
    rows = rows_of(BLOCK, spacing=8.0)
    assert rows.direction == 90.0
    assert rows.length == pytest.approx(np.full(12, 200.0))
    across = rows_of(BLOCK, spacing=8.0, direction=0.0)
    assert across.length == pytest.approx(np.full(25, 100.0))


def test_a_block_as_wide_as_its_rows_has_them_all() -> None:
    assert len(rows_of(shapely.box(0, 0, 200, 24), spacing=8.0).length) == 3


def test_a_strip_narrower_than_a_row_is_one_row() -> None:
    assert rows_of(shapely.box(0, 0, 200, 5), spacing=8.0).length.tolist() == [200.0]


def test_a_pond_shortens_the_rows_that_end_at_it_and_a_gap_between_parts_counts_for_nothing() -> (
    None
):
    pond = BLOCK.difference(shapely.box(80, 40, 120, 60))
    assert rows_of(pond, spacing=10.0).length.tolist() == [200.0] * 4 + [160.0] * 2 + [200.0] * 4
    parts = shapely.union_all([shapely.box(0, 0, 200, 20), shapely.box(0, 80, 200, 100)])
    assert rows_of(parts, spacing=10.0, direction=90.0).length.tolist() == [200.0] * 4


@pytest.mark.common_practice("start downwind, work upwind")
@pytest.mark.parametrize(
    ("wind_from", "first"), [(0.0, 5.0), (20.0, 5.0), (180.0, 95.0), (200.0, 95.0), (np.nan, 5.0)]
)
def test_the_first_row_is_at_the_downwind_side(wind_from, first) -> None:
    rows = rows_of(BLOCK, spacing=10.0, wind_from=wind_from)
    assert rows.ends[0, :, 1] == pytest.approx([first, first])


@pytest.mark.parametrize(("wind_from", "first"), [(90.0, 5.0), (270.0, 195.0), (np.nan, 5.0)])
def test_rows_across_the_wind_begin_where_it_goes(wind_from, first) -> None:
    rows = rows_of(BLOCK, spacing=10.0, direction=180.0, wind_from=wind_from)
    assert rows.direction == 0.0
    assert rows.ends[0, :, 0] == pytest.approx([first, first])
    assert rows.ends[0, :, 1] == pytest.approx([0.0, 100.0])


@given(st.floats(0, 179.9))
def test_turning_a_block_turns_its_rows_and_changes_no_length(turn: float) -> None:
    turned = affinity.rotate(BLOCK, -turn, origin=(0, 0))
    assert (long_side(turned) - 90.0 - turn + 90.0) % 180.0 == pytest.approx(90.0, abs=1e-6)
    rows = rows_of(turned, spacing=8.0)
    assert np.sort(rows.length) == pytest.approx(np.full(12, 200.0), abs=1e-6)


@given(st.floats(2, 15), st.floats(0, 360), st.floats(0, 360))
def test_rows_times_their_spacing_never_cover_more_than_the_block_s_box(
    spacing: float, direction: float, wind_from: float
) -> None:
    rows = rows_of(BLOCK, spacing=spacing, direction=direction, wind_from=wind_from)
    back = rows_of(BLOCK, spacing=spacing, direction=direction, wind_from=wind_from + 180.0)
    assert rows.length.sum() * spacing == pytest.approx(20_000.0, rel=0.2)
    assert np.sort(rows.length) == pytest.approx(np.sort(back.length))
    long_enough = np.hypot(*(rows.ends[:, 1] - rows.ends[:, 0]).T)
    assert long_enough == pytest.approx(rows.length)
