"""Sides and distances of spores in a sentence."""

import numpy as np
import pytest
import xarray as xr

from geo.ranking.arrival_words import arrival_words

NEAR, FAR = [0.1, 0.6, 0.2, 0.1], [0.0, 0.1, 0.1, 0.8]


def words(compass: list[float], band: list[float], *, incoming: float = 0.4) -> str:
    season = xr.Dataset(
        {
            "arrival_from_compass": (("block", "compass"), incoming * np.array([compass])),
            "arrival_from_band": (("block", "band"), incoming * np.array([band])),
        }
    )
    return arrival_words(season, 0)


@pytest.mark.parametrize(
    ("compass", "band", "expected"),
    [
        (
            [0.1, 0.7, 0.1, 0.1, 0, 0, 0, 0],
            NEAR,
            "mostly from the north-east, most of them from within 300 m",
        ),
        (
            [0.4, 0, 0, 0.1, 0.1, 0, 0.1, 0.3],
            NEAR,
            "mostly from the north-west and the north, most",
        ),
        ([0.125] * 8, FAR, "from several sides, most of them from more than 1000 m away"),
    ],
)
def test_the_side_and_the_distance_of_most_spores_are_named(
    compass: list[float], band: list[float], expected: str
) -> None:
    assert words(compass, band).startswith(f"Other outlines' spores come {expected}")


def test_few_spores_are_said_to_be_few_and_unknown_ones_nothing() -> None:
    assert words([0.125] * 8, NEAR, incoming=1e-4).startswith("Hardly any")
    assert words([0.125] * 8, NEAR, incoming=np.nan) == ""
