"""Portions sorted into visits and flushes."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from geo.phenology.flushes import Flushes, flushes


def sorted_out(rows: list[tuple[int, int, int, float, float]], *, leaf: bool = False) -> Flushes:
    """Sort rows of block, day, flush, progress and share."""
    block, day, flush, progress, weight = np.array(rows, dtype=float).reshape(-1, 5).T
    return flushes(
        block.astype(np.int64),
        day.astype(np.int64),
        flush=flush.astype(np.int64),
        progress=progress,
        weight=weight,
        begins_anew=leaf,
    )


def test_a_visit_holds_its_portions_about_the_mean_of_their_flush() -> None:
    found = sorted_out([(0, 4, 1, 10.0, 1.0), (0, 4, 1, 20.0, 3.0)])
    assert found.seen_progress.tolist() == [17.5]
    np.testing.assert_allclose(found.offset, [[-7.5, 2.5]])
    np.testing.assert_allclose(found.share, [[0.25, 0.75]])


def test_a_later_bloom_is_a_flush_of_its_own() -> None:
    found = sorted_out([(3, 4, 1, 30.0, 0.6), (3, 4, 2, 2.0, 0.4), (3, 9, 2, 8.0, 1.0)])
    assert found.block.tolist() == [3, 3]
    assert found.seen_flush.tolist() == [0, 1, 1]
    np.testing.assert_allclose(found.seen_progress, [30.0, 2.0, 8.0])
    assert found.portion_flush.tolist() == [[0, 1], [1, 0]]
    np.testing.assert_allclose(found.share, [[0.6, 0.4], [1.0, 0.0]])
    np.testing.assert_allclose(found.offset, 0.0)


def test_leaves_that_look_younger_than_before_are_a_new_flush_and_panicles_are_not() -> None:
    rows = [(0, 1, 1, 28.0, 1.0), (0, 9, 1, 7.0, 1.0), (0, 15, 1, 13.0, 1.0)]
    assert sorted_out(rows, leaf=True).seen_flush.tolist() == [0, 1, 1]
    assert sorted_out(rows).seen_flush.tolist() == [0, 0, 0]


def test_nothing_seen_is_no_flush() -> None:
    found = sorted_out([])
    assert found.block.size == found.visit_block.size == found.seen_day.size == 0


ROWS = st.lists(
    st.tuples(
        st.integers(0, 3),
        st.integers(0, 6),
        st.integers(1, 2),
        st.sampled_from([0.0, 7.0, 13.0, 28.0]),
        st.sampled_from([0.25, 0.5, 1.0]),
    ),
    min_size=1,
    max_size=12,
)


@given(rows=ROWS, leaf=st.booleans(), data=st.data())
def test_the_order_of_portions_changes_nothing(rows, leaf, data) -> None:
    turned = sorted_out(data.draw(st.permutations(rows)), leaf=leaf)
    found = sorted_out(rows, leaf=leaf)
    np.testing.assert_allclose(turned.seen_progress, found.seen_progress)
    np.testing.assert_array_equal(turned.seen_flush, found.seen_flush)
    np.testing.assert_array_equal(turned.block, found.block)
    np.testing.assert_allclose(
        np.sort(turned.share * (1.0 + turned.offset), axis=1),
        np.sort(found.share * (1.0 + found.offset), axis=1),
        atol=1e-12,
    )


@given(rows=ROWS, leaf=st.booleans())
def test_a_look_written_in_two_halves_equals_one(rows, leaf) -> None:
    halves = [(*row[:4], row[4] / 2.0) for row in rows for _ in range(2)]
    found, whole = sorted_out(halves, leaf=leaf), sorted_out(rows, leaf=leaf)
    np.testing.assert_allclose(found.seen_progress, whole.seen_progress)
    np.testing.assert_array_equal(found.seen_flush, whole.seen_flush)
    for of_place in (np.cos, np.square):  # any property of the place
        np.testing.assert_allclose(
            (found.share * of_place(found.offset)).sum(axis=1),
            (whole.share * of_place(whole.offset)).sum(axis=1),
        )


@given(rows=ROWS, leaf=st.booleans())
def test_shares_of_a_visit_add_up_to_one(rows, leaf) -> None:
    np.testing.assert_allclose(sorted_out(rows, leaf=leaf).share.sum(axis=1), 1.0)
