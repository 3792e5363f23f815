"""The ranking layer of the season: the hazard to come, its factors and its doubt."""

import numpy as np
import xarray as xr

from geo.arrays import FloatArray
from geo.infection.anthracnose_parameters import late_rain_parameters
from geo.infection.quiescent_load import quiescent_load
from geo.ranking.doubt import count_doubt
from geo.ranking.factors import FACTORS, factor_table
from geo.reference.diseases import disease_with
from geo.reference.number import values
from geo.season import variables as v
from geo.season.disease import disease_key
from geo.season.layer import Layer
from geo.season.today import today_index, today_of
from geo.texts import mark


def days_ahead(season: xr.Dataset) -> slice:
    """
    Return the days the orders look at: today and the next, as far as weather is known.

    Parameters
    ----------
    season : xarray.Dataset
        With ``horizon_days`` among its attributes.

    Returns
    -------
    slice
        Of the day dimension; at least one day.
    """
    today = today_index(season)
    return slice(today, min(today + int(season.attrs["horizon_days"]), season.sizes["day"]))


def _compute(season: xr.Dataset) -> xr.Dataset:
    ahead = days_ahead(season)
    table = factor_table(
        site_favourability=season.site_favourability.values[:, ahead],
        favourability=season.favourability.values[:, ahead],
        constant_susceptibility=(
            season.cultivar_susceptibility.values,
            season.age_susceptibility.values,
        ),
        stage=season.stage_susceptibility.values[:, ahead],
        home=season.home_inoculum.values[:, ahead],
        incoming=season.incoming_inoculum.values[:, ahead],
        protection=season.protection_left.values[:, ahead],
    )
    return xr.Dataset(
        {
            v.FACTORS.name: (v.FACTORS.dims, table),
            v.HAZARD_AHEAD.name: (
                v.HAZARD_AHEAD.dims,
                season.hazard.values[:, ahead].mean(axis=1),
            ),
            v.DOUBT.name: (v.DOUBT.dims, _doubt(season, table)),
            v.DAYS_SINCE_LOOK.name: (v.DAYS_SINCE_LOOK.dims, _days_since_look(season)),
            **_load_of_fruit(season),
        },
        coords={"factor": [factor.name for factor in FACTORS]},
    )


def _load_of_fruit(season: xr.Dataset) -> dict[str, tuple[tuple[str, ...], FloatArray]]:
    """Return what fruit carries hidden in its peel today; no other organ carries any."""
    nothing = np.full(season.sizes["block"], np.nan)
    if disease_with(disease_key(season)).organ != "fruit":
        loads = (nothing, nothing)
    else:
        found = quiescent_load(
            season.hazard.values,
            season.stage_susceptibility.values > 0.0,
            season.event_rain.values,
            late_rain_parameters(),
        )
        today = today_index(season)
        loads = (found.load[:, today], found.late_extra[:, today])
    pair = (v.QUIESCENT_LOAD, v.LATE_LOAD)
    return {item.name: (item.dims, load) for item, load in zip(pair, loads, strict=True)}


def _days_since_look(season: xr.Dataset) -> FloatArray:
    newest = np.full(season.sizes["source"], -np.inf)
    np.maximum.at(newest, season.visit_block.values, season.visit_day.values)
    since = np.maximum(today_of(season) - newest[: season.sizes["block"]], 0.0)
    return np.where(np.isinf(since), np.nan, since)


def spores_doubt(
    season: xr.Dataset, table: FloatArray, *, counted: float | FloatArray = 0.0
) -> FloatArray:
    """
    Return how doubtful all spores of a block are because its own disease is.

    Parameters
    ----------
    season : xarray.Dataset
        With what a block's computed share is worth in counted organs.
    table : [1]
        Factors, shape (block, factor).
    counted : [1]
        Organs that a look would add, as if drawn one by one.

    Returns
    -------
    [1]
        Standard deviation of the logarithm, shape (block,).
    """
    today = today_index(season)
    worth = season.count_worth.values[:, today] + counted
    shed = season.sporulating.values[: season.sizes["block"], today]
    inoculum = count_doubt(worth * shed, worth)
    names = [factor.name for factor in FACTORS]
    home = table[:, names.index("home inoculum")]
    total = home * table[:, names.index("neighbours")]
    # Doubt about the own spores counts by their share of all that arrive (delta method).
    own_share = (home - 1.0) / total
    doubt: FloatArray = own_share * inoculum
    return doubt


def stage_doubt_ahead(season: xr.Dataset) -> FloatArray:
    """
    Return how doubtful the stages of the days ahead are.

    Parameters
    ----------
    season : xarray.Dataset
        With the stages' doubt.

    Returns
    -------
    [1]
        Standard deviation of the logarithm, shape (block,). One look settles the stage of all
        days ahead: their doubts are one and the same.
    """
    doubt: FloatArray = season.stage_doubt.values[:, days_ahead(season)].mean(axis=1)
    return doubt


def _doubt(season: xr.Dataset, table: FloatArray) -> FloatArray:
    mildew = values("mildew", "panicle mildew")
    parts = (
        season.cultivar_doubt.values,
        mildew["age_doubt"],
        stage_doubt_ahead(season),
        spores_doubt(season, table),
        season.terrain_doubt.values,
    )
    return np.sqrt(sum(np.square(part) for part in parts))


RANKING = Layer(
    name="ranking",
    question=mark("which block comes first, and why"),
    needs=(
        v.SITE_FAVOURABILITY,
        v.FAVOURABILITY,
        v.CULTIVAR_SUSCEPTIBILITY,
        v.CULTIVAR_DOUBT,
        v.TERRAIN_DOUBT,
        v.AGE_SUSCEPTIBILITY,
        v.STAGE_SUSCEPTIBILITY,
        v.STAGE_DOUBT,
        v.HOME_INOCULUM,
        v.INCOMING_INOCULUM,
        v.PROTECTION_LEFT,
        v.HAZARD,
        v.EVENT_RAIN,
        v.SPORULATING,
        v.COUNT_WORTH,
        v.VISIT_BLOCK,
        v.VISIT_DAY,
        v.HOUR_DAY,
        v.IS_FORECAST,
    ),
    gives=(
        v.FACTORS,
        v.HAZARD_AHEAD,
        v.DOUBT,
        v.DAYS_SINCE_LOOK,
        v.QUIESCENT_LOAD,
        v.LATE_LOAD,
    ),
    compute=_compute,
)
