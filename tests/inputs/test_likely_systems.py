"""Systems in which bare numbers lie near the farm are told; where none is known, nothing is."""

import pytest
from pyproj import Transformer
from pyproj.exceptions import ProjError

from geo.inputs.likely_systems import SHOWN, likely_systems

HERE = (121.04, 14.6)


def test_systems_are_told_by_name_and_number():
    found = likely_systems(288_900.0, 1_614_600.0, near=HERE)
    assert "WGS 84 / UTM zone 51N (EPSG:32651)" in found
    at_home = Transformer.from_crs(4326, 32631, always_xy=True).transform(4.9, 52.4)
    assert len(likely_systems(*at_home, near=(4.9, 52.4))) == SHOWN


@pytest.mark.parametrize(
    ("x", "y", "near"),
    [
        (288_900.0, 1_614_600.0, None),
        (float("inf"), 0.0, HERE),
        (1e12, 1e12, HERE),
        (12.0, 14.6, HERE),
    ],
)
def test_what_lies_nowhere_near_is_not_named(x, y, near):
    assert likely_systems(x, y, near=near) == []


def test_a_system_that_leads_nowhere_is_passed_over(monkeypatch):
    def fail(*_, **__):
        raise ProjError("made")

    monkeypatch.setattr(Transformer, "from_crs", fail)
    assert likely_systems(288_900.0, 1_614_600.0, near=HERE) == []
