"""Long columns come back as they were, by another way than the page's own."""

import json

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.exports.pack import Pack
from geo.exports.pack_steps import EXACT_BLOCKS, LOWEST, Steps, shortened
from geo.ranking.classes import CLASS_BREAKS, hazard_class
from tests.exports.page_columns import opened

numbers = st.one_of(
    st.none(),
    st.integers(-999_999, 999_999),
    st.floats(-1e9, 1e9, allow_nan=False).map(lambda value: float(f"{value:.6g}")),
    st.floats(1e-9, 1.0).map(lambda value: float(f"{value:.6g}")),
)


def back(value: object) -> object:
    pack = Pack()
    return opened(pack.column(value), pack.text)


@given(st.lists(numbers, max_size=60))
def test_numbers_of_up_to_six_figures_come_back_to_the_last_digit(values: list[float]) -> None:
    assert back(values) == values


@given(st.lists(st.one_of(st.none(), st.integers(-(2**29), 2**29)), max_size=60))
def test_whole_numbers_come_back_however_large(values: list[int | None]) -> None:
    assert back(values) == values


@given(st.lists(st.one_of(st.none(), st.text(max_size=20)), min_size=1, max_size=40))
def test_texts_come_back_letter_by_letter(texts: list[str | None]) -> None:
    assert back(["first", *texts]) == ["first", *texts]


def test_texts_that_recur_are_told_once() -> None:
    pack = Pack()
    told = pack.column(["closed by heat"] * 900 + ["open"] * 100)
    assert "which" in told
    assert opened(told, pack.text) == ["closed by heat"] * 900 + ["open"] * 100


def test_more_texts_than_one_chunk_come_back() -> None:
    texts = [f"Block {number} loses {number % 7}." for number in range(1500)]
    assert back(texts) == texts


@pytest.mark.parametrize("kind", ["<u1", "<u2", "<u4", "<i2", "<i4", "<f4"])
def test_arrays_come_back_in_their_own_kind(kind: str) -> None:
    values = np.random.default_rng(3).integers(0, 200, (40, 3)).astype(kind)
    found = back(values)
    assert isinstance(found, np.ndarray)
    assert found.dtype == np.dtype(kind)
    np.testing.assert_array_equal(found, values.ravel())


def test_rows_and_short_lists_come_back() -> None:
    rows = [
        {"block": 3, "reason": "first", "hours": None, "beyond": False},
        {"block": 1, "reason": "second", "hours": 0.25, "beyond": True},
    ]
    pack = Pack()
    assert opened(pack.rows(rows), pack.text) == rows
    assert opened(pack.rows([]), pack.text) == []
    lists = [[[4, 0.5], [0, 0.25]], [], [[1, 0.125]]]
    assert back(lists) == lists
    assert back([[], []]) == [[], []]


def hazards(count: int) -> np.ndarray:
    """Return hazards of twenty days, among them nothing, the unknown, and the very edges."""
    values = np.random.default_rng(7).lognormal(-2.0, 1.5, (count, 20))
    values[::7] = 0.0
    values[3::11, 4:9] = np.nan
    values[5, : len(CLASS_BREAKS)] = CLASS_BREAKS
    values[6, : len(CLASS_BREAKS)] = np.nextafter(CLASS_BREAKS, 0.0)
    return values


@pytest.mark.parametrize(("count", "error"), [(EXACT_BLOCKS, 6e-8), (EXACT_BLOCKS + 1, 2e-4)])
def test_rounded_hazards_stay_in_their_class(count: int, error: float) -> None:
    values = hazards(count)
    found = back(Steps(values, CLASS_BREAKS))
    assert isinstance(found, np.ndarray)
    told = found.reshape(values.shape).astype(float)
    np.testing.assert_array_equal(hazard_class(told), hazard_class(values))
    np.testing.assert_array_equal(told == 0.0, values == 0.0)
    large = values > LOWEST
    # A step where rounding would have crossed an edge.
    np.testing.assert_allclose(told[large], values[large], rtol=2 * error)


@pytest.mark.parametrize(("count", "error"), [(EXACT_BLOCKS, 1e-7), (EXACT_BLOCKS + 1, 2e-5)])
def test_numbers_of_many_blocks_are_shortened_and_unknown_ones_stay_so(
    count: int, error: float
) -> None:
    values = np.random.default_rng(8).lognormal(0.0, 2.0, (8, count))
    values[0, :3] = np.nan, 0.0, 1.0
    told = shortened(values)
    assert told.dtype == np.dtype("<f4")
    np.testing.assert_allclose(told, values, rtol=error)


def test_what_is_packed_is_plain_json() -> None:
    pack = Pack()
    told = pack.column({"a": [1, None], "b": np.arange(3, dtype="<u2"), "c": "as it is"})
    assert json.loads(json.dumps(told, allow_nan=False)) == told
