"""The epidemic layer of the season: spores, hidden infection and the daily hazard."""

import numpy as np
import xarray as xr

from geo.arrays import FloatArray
from geo.dispersal.arrivals import arrivals
from geo.dispersal.build import OUTLINES, SPLASH, WIND, exchange_by_day
from geo.epidemic.counts import Counts
from geo.epidemic.course import first_state, over_days
from geo.epidemic.drivers import Drivers
from geo.epidemic.hazard import hazard_index
from geo.epidemic.outlook import outlook
from geo.epidemic.parameters import epidemic_parameters
from geo.epidemic.ripening import acts_together
from geo.epidemic.shed import shed_on
from geo.epidemic.sporulation import infected_share, sporulating_share
from geo.epidemic.tissue import old_share
from geo.reference.diseases import disease_with
from geo.reference.number import values
from geo.season import variables as v
from geo.season.acts import ACTS, WASHING
from geo.season.days import day_starts
from geo.season.disease import disease_key
from geo.season.layer import Layer
from geo.season.today import today_index
from geo.season.visits import looks
from geo.texts import mark


def _compute(season: xr.Dataset) -> xr.Dataset:
    epidemic = epidemic_parameters(disease_key(season))
    block_count, today = season.sizes["block"], today_index(season)
    unseen = _unseen(season)
    neighbours = _neighbours(season, unseen)
    drivers = _drivers(season, neighbours)
    exchange_on = exchange_by_day(season)
    start = first_state(unseen[:block_count], neighbours[:, 0], epidemic)
    _, course = over_days(start, drivers, epidemic, exchange_on)
    shed = shed_on(today, course, start, season.spore_release.values, neighbours)
    arrived = arrivals(exchange_on(today), shed, background=epidemic.background_inoculum)
    ahead = outlook(course.hidden, course.new_infection, today=today, epidemic=epidemic)
    given = {
        v.SPORULATING: np.concatenate([course.sporulating, neighbours]),
        v.HIDDEN_INFECTION: course.hidden,
        v.NEW_INFECTION: course.new_infection,
        v.COUNT_WORTH: course.strength,
        v.HOME_INOCULUM: course.home_inoculum,
        v.INCOMING_INOCULUM: course.incoming_inoculum,
        v.HAZARD: hazard_index(
            drivers.favourability,
            drivers.susceptibility,
            course.home_inoculum + course.incoming_inoculum,
            drivers.protection,
        ),
        v.ALREADY_IN: ahead.already_in,
        v.TO_COME: ahead.to_come,
        v.ARRIVAL_BLOCK: arrived.block,
        v.ARRIVAL_SOURCE: arrived.source,
        v.ARRIVAL_SHARE: arrived.share,
        v.ARRIVAL_REST: arrived.rest,
        v.ARRIVAL_HOME: arrived.home,
        v.ARRIVAL_BACKGROUND: arrived.background,
        v.ARRIVAL_FROM_BAND: arrived.from_band,
        v.ARRIVAL_FROM_COMPASS: arrived.from_compass,
    }
    return xr.Dataset({variable.name: (variable.dims, array) for variable, array in given.items()})


def _drivers(season: xr.Dataset, neighbours: FloatArray) -> Drivers:
    constant = season.cultivar_susceptibility.values * season.age_susceptibility.values
    source = season.visit_block.values.astype(np.int64)
    is_own = source < season.sizes["block"]
    # A look of today counts on the last day there is, though that may be yesterday.
    day = np.clip(season.visit_day.values, 0, season.sizes["day"] - 1).astype(np.int64)
    return Drivers(
        favourability=season.favourability.values,
        susceptibility=constant[:, None] * season.stage_susceptibility.values,
        protection=season.protection_left.values,
        latency_rate=season.latency_rate.values,
        old_share=old_share(season.organ_size.values),
        cured=season.cured.values,
        reach=season.cured_age.values / float(season.latent_days),
        removed=_removed(season),
        release=season.spore_release.values,
        neighbours=neighbours,
        counts=Counts(
            block=source[is_own],
            day=day[is_own],
            inspected=season.visit_inspected.values[is_own].astype(float),
            infected=season.visit_infected.values[is_own].astype(float),
        ),
    )


def _removed(season: xr.Dataset) -> FloatArray:
    """Return what acts of the diary take out of the tissue that sheds spores, (block, day)."""
    organ = disease_with(disease_key(season)).organ
    epidemic = epidemic_parameters(disease_key(season))
    first = day_starts(season.hour_day.values)
    if not season.sizes["act"]:
        return np.array(0.0)
    counts = np.zeros((2, season.sizes["block"], season.sizes["day"]))
    kinds = season.act_kind.values.tolist()
    hour = season.act_hour.values
    counted = np.array([organ in ACTS.get(kind, ()) for kind in kinds], dtype=bool) & (hour >= 0)
    day = np.searchsorted(first, hour, side="right") - 1
    is_washing = np.array([kind == WASHING for kind in kinds], dtype=np.int64)
    where = (is_washing[counted], season.act_block.values[counted], day[counted])
    np.add.at(counts, where, 1.0)
    return acts_together(
        *counts,
        removal_effect=epidemic.removal_effect,
        washing_effect=epidemic.washing_effect,
    )


def _unseen(season: xr.Dataset) -> FloatArray:
    """Return what is taken for each source before anybody looked."""
    status = values("mildew", "panicle mildew")
    block_count = season.sizes["block"]
    is_own = season.visit_block.values < block_count
    unseen_by_status = {
        "scouted": _mean_of_scouted(
            season.visit_infected.values[is_own],
            season.visit_inspected.values[is_own],
            otherwise=status["status_unknown"],
        ),
        "unknown": status["status_unknown"],
        "suspected": status["status_suspected"],
        "known": status["status_known"],
    }
    unseen = np.array([unseen_by_status[name] for name in season.source_status.values.tolist()])
    # Disease of last season stands for what nobody has counted yet; a count replaces it.
    unseen[:block_count] += status["carry_over_inoculum"] * season.had_mildew_last_season.values
    return unseen


def _mean_of_scouted(infected: FloatArray, inspected: FloatArray, *, otherwise: float) -> float:
    """Return the mean of the farm's own counts, which a block without one is taken to have."""
    if inspected.size == 0:
        return otherwise
    return float(infected_share(infected.sum(), inspected.sum()))


def _neighbours(season: xr.Dataset, unseen: FloatArray) -> FloatArray:
    """Return what each neighbour sheds: the last look, held, since its sprays are not known."""
    block_count = season.sizes["block"]
    is_theirs = season.visit_block.values >= block_count
    day, source = season.visit_day.values[is_theirs], season.visit_block.values[is_theirs]
    order = np.lexsort((day, source))
    seen = looks(
        source[order].astype(np.int64) - block_count,
        day[order].astype(np.int64),
        subject_count=season.sizes["source"] - block_count,
        day_count=season.sizes["day"],
    )
    share = infected_share(
        season.visit_infected.values[is_theirs][order].astype(float),
        season.visit_inspected.values[is_theirs][order].astype(float),
    )
    return sporulating_share(seen, share, unseen[block_count:])


EPIDEMIC = Layer(
    name="epidemic",
    question=mark("what is already in, and how large the hazard is"),
    needs=(
        *OUTLINES,
        *WIND.variables,
        *SPLASH.variables,
        v.FAVOURABILITY,
        v.LATENCY_RATE,
        v.LATENT_DAYS,
        v.CURED,
        v.CURED_AGE,
        v.SPORE_RELEASE,
        v.CULTIVAR_SUSCEPTIBILITY,
        v.AGE_SUSCEPTIBILITY,
        v.STAGE_SUSCEPTIBILITY,
        v.ORGAN_SIZE,
        v.PROTECTION_LEFT,
        v.ACT_BLOCK,
        v.ACT_HOUR,
        v.ACT_KIND,
        v.VISIT_BLOCK,
        v.VISIT_DAY,
        v.VISIT_INSPECTED,
        v.VISIT_INFECTED,
        v.SOURCE_STATUS,
        v.HAD_MILDEW_LAST_SEASON,
        v.HOUR_DAY,
        v.IS_FORECAST,
    ),
    gives=(
        v.SPORULATING,
        v.HIDDEN_INFECTION,
        v.NEW_INFECTION,
        v.COUNT_WORTH,
        v.HOME_INOCULUM,
        v.INCOMING_INOCULUM,
        v.HAZARD,
        v.ALREADY_IN,
        v.TO_COME,
        v.ARRIVAL_BLOCK,
        v.ARRIVAL_SOURCE,
        v.ARRIVAL_SHARE,
        v.ARRIVAL_REST,
        v.ARRIVAL_HOME,
        v.ARRIVAL_BACKGROUND,
        v.ARRIVAL_FROM_BAND,
        v.ARRIVAL_FROM_COMPASS,
    ),
    compute=_compute,
)
