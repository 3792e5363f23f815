"""Mildew on leaves: the curve of panicles, and rain that washes half as fast."""

from dataclasses import replace

import numpy as np
import pytest

from geo.infection.leaf_mildew import leaf_mildew_parameters
from geo.infection.panicle_mildew import panicle_mildew_parameters, rain_weight

LEAF, PANICLE = leaf_mildew_parameters(), panicle_mildew_parameters()


def test_leaves_differ_from_panicles_in_wash_off_alone() -> None:
    assert replace(LEAF, wash_per_mm=PANICLE.wash_per_mm) == PANICLE


@pytest.mark.published("sivapalan1993", "upper surfaces were affected most; size is ours; abstract")
def test_rain_washes_half_as_fast_from_leaves() -> None:
    rain = np.array([0.0, 8.0])
    leaf, panicle = (rain_weight(rain, one, rain_mode="washoff")[0] for one in (LEAF, PANICLE))
    assert np.log(leaf) == pytest.approx(0.5 * np.log(panicle))
