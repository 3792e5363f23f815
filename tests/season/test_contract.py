"""A season out of shape is refused, with every fault named at once."""

import numpy as np
import pytest
import xarray as xr

from geo.errors import ContractError
from geo.season import Variable
from geo.season.contract import check

WARMTH = Variable("warmth", "degC", ("block", "day"), "How warm", -10.0, 50.0)
WORD = Variable("word", "1", ("block",), "A word")
COUNT = Variable("count", "1", ("block",), "How many", 0.0)


def season(warmth: object = 20.0, *, count: object = (1, 2)) -> xr.Dataset:
    return xr.Dataset(
        {
            "warmth": (("block", "day"), np.broadcast_to(warmth, (2, 3))),
            "word": ("block", np.array(["a", "b"])),
            "count": ("block", np.array(count)),
        }
    )


def test_a_season_in_shape_passes() -> None:
    check(season(), (WARMTH, WORD, COUNT), of="layer test")


@pytest.mark.parametrize("warmth", [-10.0, 50.0, np.nan])
def test_the_ends_of_the_range_and_unknown_values_pass(warmth: float) -> None:
    check(season(warmth), (WARMTH,), of="layer test")


def test_an_empty_variable_passes() -> None:
    check(season().isel(block=[]), (WARMTH, WORD, COUNT), of="layer test")


@pytest.mark.parametrize("warmth", [-10.5, [[np.nan, 51.0, 20.0]]])
def test_a_value_out_of_range_is_refused(warmth: object) -> None:
    with pytest.raises(ContractError, match=r"warmth: expected within \[-10, 50\] degC, got"):
        check(season(warmth), (WARMTH,), of="layer test")


def test_every_fault_is_named_at_once() -> None:
    turned = season(count=(-1, 2)).transpose("day", "block")
    with pytest.raises(ContractError) as caught:
        check(turned.drop_vars("word"), (WARMTH, WORD, COUNT), of="layer test needs")
    message = str(caught.value)
    assert message.startswith("layer test needs: warmth: expected dims ('block', 'day')")
    assert "word: expected in the season, found nothing" in message
    assert "count: expected within [0, inf] 1, got [-1, 2]" in message
