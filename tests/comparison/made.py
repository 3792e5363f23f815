"""A small season with looks and sprays, put together by hand."""

import numpy as np
import xarray as xr

from geo.comparison.counts import Count

DAYS, TODAY = 30, 24
BLOCKS = ("B1", "B2", "B3", "B4", "B5")


def made_season(
    looks: list[tuple[int, int, int, int]] = (),
    sprays: list[tuple[int, int, str]] = (),
    cultivars: tuple[str, ...] = ("Keitt:1",) * 5,
) -> xr.Dataset:
    """
    Return five blocks over thirty days, the last five of them forecast.

    Looks are (block, day, infected, inspected), sprays (block, day, material), at noon.
    """
    hours = DAYS * 24
    block, day, infected, inspected = np.array(looks, dtype=np.int64).reshape(-1, 4).T
    return xr.Dataset(
        {
            "visit_block": ("visit", block),
            "visit_day": ("visit", day),
            "visit_infected": ("visit", infected),
            "visit_inspected": ("visit", inspected),
            "spray_block": ("spray", np.array([spray[0] for spray in sprays], dtype=np.int64)),
            "spray_hour": ("spray", np.array([spray[1] * 24.0 + 12 for spray in sprays])),
            "spray_material": ("spray", np.array([spray[2] for spray in sprays], dtype=str)),
            "hour_day": ("hour", np.repeat(np.arange(DAYS), 24)),
            "is_forecast": ("hour", (np.arange(hours) >= (TODAY + 1) * 24).astype(np.int64)),
            "cultivar_share_text": ("block", np.array(cultivars)),
            "favourability": (("block", "day"), np.full((5, DAYS), 0.4)),
            "pool_depth": ("block", np.array([0.0, 2.0, 4.0, 6.0, 8.0])),
        },
        coords={
            "block": list(BLOCKS),
            "day": np.datetime64("2026-01-05", "ns") + np.arange(DAYS) * np.timedelta64(1, "D"),
        },
    )


def pairs(*counts: Count | None) -> list[tuple[int, int, int] | None]:
    """Return the day, infected and inspected of each count."""
    return [one and (one.day, one.infected, one.inspected) for one in counts]
