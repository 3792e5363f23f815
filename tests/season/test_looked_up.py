"""A season whose variables are looked up once."""

import numpy as np
import xarray as xr

from geo.season.looked_up import LookedUp


def test_it_holds_what_the_season_holds_and_gives_the_same_object_again() -> None:
    season = xr.Dataset(
        {"hazard": ("block", np.array([0.5, 0.25]))},
        coords={"block": ["B1", "B2"]},
        attrs={"horizon_days": 3},
    )
    looked_up = LookedUp(season)
    assert {name: looked_up[name].values.tolist() for name in looked_up.variables} == {
        name: season[name].values.tolist() for name in season.variables
    }
    assert looked_up.attrs == season.attrs
    assert looked_up["hazard"] is looked_up["hazard"]
    assert looked_up.block is looked_up["block"]
    assert looked_up.block.values is looked_up.block.values
    assert looked_up["block"].values.tolist() == ["B1", "B2"]
    assert looked_up[["hazard"]].sizes == {"block": 2}
    assert looked_up.sizes == season.sizes
    assert "hazard" in looked_up


def test_a_part_of_it_looks_up_its_own() -> None:
    season = LookedUp(xr.Dataset({"hazard": ("block", np.array([0.5, 0.25]))}))
    assert season["hazard"].sizes == {"block": 2}
    part = season.isel(block=[1])
    assert part["hazard"].values.tolist() == [0.25]
    assert season.assign(hazard=2 * season["hazard"])["hazard"].values.tolist() == [1.0, 0.5]
