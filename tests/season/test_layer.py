"""A layer keeps its word or is refused."""

import numpy as np
import pytest
import xarray as xr

from geo.errors import ContractError
from geo.season import Layer, Variable

GIVEN = Variable("found", "m", ("block",), "What was found", 0.0)
NEEDED = Variable("asked", "m", ("block",), "What is asked")
SEASON = xr.Dataset({"asked": ("block", np.array([1.0, 2.0]))}, coords={"block": ["a", "b"]})


def layer(given: dict[str, object]) -> Layer:
    return Layer("test", "what it is", (NEEDED,), (GIVEN,), lambda _: xr.Dataset(given))


def test_what_is_given_is_added_with_its_unit_meaning_and_maker() -> None:
    after = layer({"found": ("block", np.ones(2))}).add_to(SEASON)
    assert after.found.attrs == {
        "units": "m",
        "long_name": "What was found",
        "made_by": "test",
    }
    assert "found" not in SEASON


def test_a_missing_need_is_named() -> None:
    with pytest.raises(ContractError, match="layer test needs: asked: expected in the season"):
        layer({}).add_to(xr.Dataset())


@pytest.mark.parametrize("name", ["other", "found and more"])
def test_giving_something_else_is_refused(name: str) -> None:
    with pytest.raises(ContractError, match="layer test: promised and given differ in"):
        layer({name: ("block", np.ones(2))}).add_to(SEASON)


def test_giving_an_impossible_value_is_refused() -> None:
    with pytest.raises(ContractError, match="layer test gives: found: expected within"):
        layer({"found": ("block", np.array([-1.0, 1.0]))}).add_to(SEASON)


def test_a_need_is_looked_at_for_its_shape_since_its_values_were_when_it_was_given() -> None:
    asked = Variable("asked", "m", ("block",), "What is asked", low=5.0)
    one = Layer("test", "what it is", (asked,), (), lambda _: xr.Dataset())
    assert one.add_to(SEASON).equals(SEASON)
    with pytest.raises(ContractError, match=r"asked: expected dims \('block',\)"):
        one.add_to(SEASON.expand_dims("day"))
