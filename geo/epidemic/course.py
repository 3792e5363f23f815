"""How does the epidemic run through the blocks, day by day?"""

from collections.abc import Callable
from dataclasses import dataclass, fields

import numpy as np

from geo.arrays import FloatArray
from geo.epidemic.catching import cured, daily_hazard, infected
from geo.epidemic.counts import corrected, strength_tomorrow
from geo.epidemic.drivers import Day, Drivers
from geo.epidemic.exchange import Exchange
from geo.epidemic.parameters import Epidemic
from geo.epidemic.ripening import exhausted, ripened, taken_out
from geo.epidemic.tissue import Tissue, first_tissue, grown

DAYS_AT_ONCE = 16  # two lines of a processor's cache; faster than one or than single columns


@dataclass(frozen=True, slots=True)
class State:
    """
    All that one day hands to the next.

    Attributes
    ----------
    tissue : Tissue
        At the end of the day.
    strength : numpy.ndarray
        [1] What its sporulating share is worth in inspected organs, shape (block,).
    shed : numpy.ndarray
        [1] What each source shed when that was last known, shape (source,): blocks, neighbours.
    """

    tissue: Tissue
    strength: FloatArray
    shed: FloatArray


@dataclass(frozen=True, slots=True)
class Spores:
    """
    What reached each block, and what it did there.

    Attributes
    ----------
    home, incoming : numpy.ndarray
        [1] Inoculum in multiples of the background, shape (block,): of the block itself with the
        background, and of the other sources on the map.
    new_infection : numpy.ndarray
        [1] Share of the tissue newly infected, shape (block,).
    """

    home: FloatArray
    incoming: FloatArray
    new_infection: FloatArray


@dataclass(frozen=True, slots=True)
class Course:
    """
    The epidemic over all days, each array of shape (block, day), at the end of the day.

    Attributes
    ----------
    home_inoculum, incoming_inoculum : numpy.ndarray
        [1] In multiples of the background; home holds the background's own 1.
    healthy, hidden, sporulating : numpy.ndarray
        [1] Shares of the day's tissue; what they leave of 1 is spent.
    new_infection : numpy.ndarray
        [1] Share newly infected on the day.
    strength : numpy.ndarray
        [1] Inspected organs that the sporulating share is worth: the doubt of it.
    """

    home_inoculum: FloatArray
    incoming_inoculum: FloatArray
    healthy: FloatArray
    hidden: FloatArray
    sporulating: FloatArray
    new_infection: FloatArray
    strength: FloatArray


def first_state(start_visible: FloatArray, neighbours: FloatArray, epidemic: Epidemic) -> State:
    """
    Return the state before the first day.

    Parameters
    ----------
    start_visible : [1]
        Sporulating share of each block, from its status and from last season, shape (block,).
    neighbours : [1]
        Of each neighbour, shape (neighbour,).
    epidemic : Epidemic
        Parameters.

    Returns
    -------
    State
        Nothing hidden; the share is worth what the model is worth.
    """
    return State(
        tissue=first_tissue(start_visible, latent_stages=epidemic.latent_stages),
        strength=np.full(start_visible.size, epidemic.scouting_worth),
        shed=np.concatenate([np.nan_to_num(start_visible), neighbours]),
    )


def one_day(state: State, day: Day, epidemic: Epidemic, exchange: Exchange) -> tuple[State, Spores]:
    """
    Return the next state, and the spores of the day.

    Parameters
    ----------
    state : State
        Of yesterday.
    day : Day
        What drives today.
    epidemic : Epidemic
        Parameters.
    exchange : Exchange
        How spores travel.

    Returns
    -------
    state : State
        Of today.
    spores : Spores
        What arrived and infected.

    Notes
    -----
    In this order: growth, inoculum of yesterday's sporulation, cure of young infection, new
    infection, latency, exhaustion, acts, counts. Each is smooth in the state but for minima and
    maxima at the ends of the shares.
    """
    block_count = state.strength.size
    shed = np.concatenate([state.tissue.sporulating * day.release, state.shed[block_count:]])
    # An unknown block sheds what it shed when it was known, so that its neighbours stay known.
    shed = np.where(np.isnan(shed), state.shed, shed)
    home, incoming = exchange.received(shed)
    background = epidemic.background_inoculum
    hazard = daily_hazard(
        day.favourability,
        day.susceptibility,
        background + home + incoming,
        day.protection,
        infection_rate=epidemic.infection_rate,
    )
    tissue = grown(state.tissue, day.old_share)
    if day.cured.any():
        tissue = cured(tissue, day.cured, day.reach)
    tissue, new = infected(tissue, hazard)
    tissue = ripened(tissue, day.latency_rate)
    tissue = exhausted(tissue, infectious_period=epidemic.infectious_period)
    if day.removed.any():
        tissue = taken_out(tissue, day.removed)
    strength = strength_tomorrow(
        state.strength, day.latency_rate, scouting_worth=epidemic.scouting_worth
    )
    if day.inspected.any():
        tissue = corrected(tissue, strength, inspected=day.inspected, infected=day.infected)
        strength = strength + day.inspected
    tomorrow = np.concatenate([shed[:block_count], day.neighbours])
    return (
        State(tissue, strength, tomorrow),
        Spores(1.0 + home / background, incoming / background, new),
    )


def over_days(
    state: State,
    drivers: Drivers,
    epidemic: Epidemic,
    exchange: Exchange | Callable[[int], Exchange],
) -> tuple[State, Course]:
    """
    Return the epidemic over all days.

    Parameters
    ----------
    state : State
        Before the first of them.
    drivers : Drivers
        What drives them.
    epidemic : Epidemic
        Parameters.
    exchange : Exchange or callable
        How spores travel; or how they do on a day, by its index.

    Returns
    -------
    state : State
        After the last day: handed on, it makes two halves of a season the whole.
    course : Course
        Day by day.
    """
    block_count, day_count = drivers.favourability.shape
    # A day at a time is written, so a day lies in one piece; what is handed back is turned.
    course = {field.name: np.empty((day_count, block_count)) for field in fields(Course)}
    near = drivers
    for day in range(day_count):
        if day % DAYS_AT_ONCE == 0:
            near = drivers.between(day, day + DAYS_AT_ONCE)
        today = exchange(day) if callable(exchange) else exchange
        state, spores = one_day(state, near.on(day % DAYS_AT_ONCE), epidemic, today)
        course["home_inoculum"][day] = spores.home
        course["incoming_inoculum"][day] = spores.incoming
        course["healthy"][day] = state.tissue.healthy
        course["hidden"][day] = state.tissue.hidden.sum(axis=0)
        course["sporulating"][day] = state.tissue.sporulating
        course["new_infection"][day] = spores.new_infection
        course["strength"][day] = state.strength
    return state, Course(**{name: by_day.T for name, by_day in course.items()})
