"""Made orchards of any size: clustered rectangles, and a season of notes and weather on them."""

import numpy as np
import xarray as xr

from geo.arrays import AnyArray, FloatArray
from geo.dispersal.layer import DISPERSAL
from geo.pipeline.order import OF_A_DISEASE
from geo.season import VOCABULARY

SEED = 20260218
HOURS_PER_DAY, SPOTS = 24, 1089  # spots: a grid of 33 pool depths by 33 heights
SHARE_OF_WET_HOURS = 0.02
CORNER_X, CORNER_Y = np.array([-1, 1, 1, -1]) / 2.0, np.array([-1, -1, 1, 1]) / 2.0
PLACES = (np.arange(4) + 0.5) / 4.0 - 0.5
# Blocks of a district: twenty thousand on forty by forty kilometres, a hundred to a cluster.
DISTRICT_M, DISTRICT_BLOCKS, OF_A_CLUSTER, CLUSTER_M = 40_000.0, 20_000, 100, 700.0


def clustered(count: int, *, seed: int = SEED) -> tuple[FloatArray, FloatArray]:
    """
    Return middles and sizes of rectangles in clusters.

    Parameters
    ----------
    count : int
        How many.
    seed : int
        Of the chance they are drawn by.

    Returns
    -------
    [m]
        Middles, shape (block, 2).
    [m]
        Width and height, shape (block, 2).
    """
    chance = np.random.default_rng(seed)
    side = DISTRICT_M * np.sqrt(count / DISTRICT_BLOCKS)
    clusters = chance.uniform(0.0, side, (max(1, count // OF_A_CLUSTER), 2))
    middle = clusters[chance.integers(0, len(clusters), count)]
    middle = middle + chance.normal(0.0, CLUSTER_M, (count, 2))
    return middle, chance.uniform(60.0, 180.0, (count, 2))


def outlines(middle: FloatArray, size: FloatArray) -> dict[str, AnyArray]:
    """
    Return edges and sample points of rectangles, by the vocabulary's names.

    Parameters
    ----------
    middle, size : [m]
        Shape (block, 2).

    Returns
    -------
    dict of str to ndarray
        [m] As the readers give them.
    """
    count = len(middle)
    x = middle[:, :1] + size[:, :1] * CORNER_X
    y = middle[:, 1:] + size[:, 1:] * CORNER_Y
    east, north = (part.ravel() for part in np.meshgrid(PLACES, PLACES))
    return {
        "edge_source": np.repeat(np.arange(count), CORNER_X.size),
        "edge_start_x": x.ravel(),
        "edge_start_y": y.ravel(),
        "edge_end_x": np.roll(x, -1, axis=1).ravel(),
        "edge_end_y": np.roll(y, -1, axis=1).ravel(),
        "point_block": np.repeat(np.arange(count), east.size),
        "point_x": (middle[:, :1] + size[:, :1] * east).ravel(),
        "point_y": (middle[:, 1:] + size[:, 1:] * north).ravel(),
        "point_share": np.full(count * east.size, 1.0 / east.size),
    }


def made_season(count: int, days: int, *, seed: int = SEED) -> xr.Dataset:
    """
    Return a season as the layers of a disease find it, weather at spots included.

    Parameters
    ----------
    count : int
        Blocks.
    days : int
        Days; the last five are forecast.
    seed : int
        Of the chance it is drawn by.

    Returns
    -------
    xarray.Dataset
        Two sprays, two counts and two stages a block.
    """
    chance = np.random.default_rng(seed)
    hours = days * HOURS_PER_DAY
    clock = np.arange(hours) % HOURS_PER_DAY
    season = 22.0 + 4.0 * np.sin(2.0 * np.pi * np.arange(hours) / 8760.0)
    air = season - 6.0 * np.cos(2.0 * np.pi * (clock - 14.0) / HOURS_PER_DAY + np.pi)
    rain = np.where(chance.random(hours) < SHARE_OF_WET_HOURS, chance.gamma(1.0, 4.0, hours), 0.0)
    cooler = np.linspace(0.0, 3.0, SPOTS)[:, None]
    spot = chance.integers(0, SPOTS, (count, 4))
    block = np.arange(count)
    known: dict[str, AnyArray] = {
        **outlines(*clustered(count, seed=seed)),
        "air_temperature_at_spot": air - cooler,
        "relative_humidity_at_spot": np.clip(120.0 - 2.5 * (air - cooler), 20.0, 100.0),
        "day_mean_temperature": air.reshape(days, -1).mean(axis=1)
        - chance.uniform(0, 3, (count, 1)),
        "hour_day": np.arange(hours) // HOURS_PER_DAY,
        "is_forecast": (np.arange(hours) >= hours - 5 * HOURS_PER_DAY).astype(np.int64),
        "precipitation": rain,
        "wind_from_direction": chance.uniform(0.0, 360.0, hours),
        "spot_of_block": spot,
        "spot_weight": np.full((count, 4), 0.25),
        "spot_of_site": spot,
        "site_weight": np.full((count, 4), 0.25),
        "cultivar_share_text": chance.choice(["Keitt:1", "Kent:1", "Haden:1", "Alphonso:1"], count),
        "had_mildew_last_season": chance.integers(0, 2, count),
        "terrain_doubt": np.zeros(count),
        "source_status": np.full(count, "scouted"),
        "act_kind": np.zeros(0, dtype="<U15"),
        "act_block": np.zeros(0, dtype=np.int64),
        "act_hour": np.zeros(0),
        "spray_block": np.repeat(block, 2),
        "spray_hour": chance.uniform(0.0, hours, 2 * count),
        "spray_material": chance.choice(["sulfur", "copper", "penconazole"], 2 * count),
        "visit_block": np.repeat(block, 2),
        "visit_day": chance.integers(0, days, 2 * count),
        "visit_inspected": np.full(2 * count, 100),
        "visit_infected": chance.integers(0, 20, 2 * count),
        "visit_disease": np.full(2 * count, "panicle_mildew"),
        "portion_block": np.repeat(block, 2),
        "portion_day": chance.integers(0, days, 2 * count),
        "portion_stage": chance.choice(["513", "515", "611", "615", "619"], 2 * count),
        "portion_share": np.ones(2 * count),
    }
    given = {variable.name for layer in (DISPERSAL, *OF_A_DISEASE) for variable in layer.gives}
    missing = (
        {variable.name for layer in (DISPERSAL, *OF_A_DISEASE) for variable in layer.needs}
        - given
        - known.keys()
    )
    if missing:
        raise ValueError(f"the made season lacks {sorted(missing)}")
    return xr.Dataset(
        {name: (VOCABULARY[name].dims, array) for name, array in known.items()},
        coords={
            "block": [f"B{number}" for number in range(count)],
            "day": np.datetime64("2025-01-01", "ns") + np.arange(days) * np.timedelta64(1, "D"),
        },
        attrs={
            "horizon_days": 3,
            "kernel": "two_dt",
            "rain_mode": "washoff",
            "wetness_rule": "conservative",
        },
    )
