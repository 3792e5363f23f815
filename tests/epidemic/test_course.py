"""The epidemic as a whole: laws, closed forms, and its smoothness in protection."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.epidemic.catching import daily_hazard
from geo.epidemic.counts import NO_COUNTS, Counts
from geo.epidemic.course import State, first_state, one_day, over_days
from geo.epidemic.drivers import Drivers
from tests.epidemic.made import (
    BLOCKS,
    DAYS,
    LATENT_DAYS,
    MILDEW,
    DenseExchange,
    arrays,
    calm_drivers,
    made_drivers,
    made_tissue,
    of_blocks,
    of_days,
    on_a_line,
    run,
    total,
)

seeds = st.integers(0, 2**32 - 1)
NOBODY = DenseExchange(np.zeros((BLOCKS, BLOCKS)))
# Where tissue tires or is cut out, an infection put off may shed at a worse time: no law then.
TIRELESS = replace(MILDEW, infectious_period=1e9)


@given(seeds)
def test_shares_sum_to_one_through_a_whole_season(seed) -> None:
    state, course = run(made_drivers(seed, days=60))
    np.testing.assert_allclose(total(state.tissue), 1.0)
    shown = course.healthy + course.hidden + course.sporulating
    assert (shown <= 1.0 + 1e-12).all()
    assert all((array >= 0).all() for array in arrays(course).values())


def test_nothing_in_means_nothing_out() -> None:
    sterile = replace(MILDEW, background_inoculum=0.0)
    start = first_state(np.zeros(BLOCKS), np.zeros(0), sterile)
    with np.errstate(invalid="ignore"):  # multiples of a background of nothing
        _, course = over_days(start, calm_drivers(), sterile, on_a_line(neighbours=0))
    np.testing.assert_array_equal(course.healthy, 1.0)


def test_background_spores_reach_a_clean_lone_block() -> None:
    _, course = run(calm_drivers(blocks=1), visible=0.0)
    assert course.home_inoculum[0, 0] == 1.0
    assert course.new_infection[0, 0] > 0
    assert course.sporulating[0, -1] > 0


def test_under_a_constant_hazard_healthy_tissue_falls_exponentially() -> None:
    _, course = run(calm_drivers(), exchange=NOBODY, visible=0.0)
    hazard = MILDEW.infection_rate * 0.6 * 0.8 * MILDEW.background_inoculum
    days = np.arange(1, DAYS + 1)
    np.testing.assert_allclose(course.healthy, np.exp(-hazard * days)[None, :].repeat(5, axis=0))


@given(seeds, st.integers(0, BLOCKS - 1), st.integers(0, DAYS - 1))
def test_more_protection_never_means_more_infection(seed, block, day) -> None:
    drivers = replace(made_drivers(seed), counts=NO_COUNTS, removed=np.array(0.0))
    protection = drivers.protection.copy()
    protection[block, day] = 1.0
    _, less = run(drivers, epidemic=TIRELESS)
    _, more = run(replace(drivers, protection=protection), epidemic=TIRELESS)
    infected = [1.0 - course.healthy for course in (less, more)]
    assert (infected[1] <= infected[0] + 1e-12).all()
    assert (more.incoming_inoculum <= less.incoming_inoculum + 1e-12).all()
    assert more.hidden[block, day] <= less.hidden[block, day]


def test_a_protectant_changes_nothing_of_what_is_already_in() -> None:
    drivers = replace(calm_drivers(), favourability=np.zeros((BLOCKS, DAYS)))
    caught = State(made_tissue(3), np.full(BLOCKS, 10.0), np.zeros(BLOCKS))
    sprayed = replace(drivers, protection=np.ones((BLOCKS, DAYS)))
    found = [over_days(caught, one, MILDEW, NOBODY)[1].hidden for one in (drivers, sprayed)]
    np.testing.assert_array_equal(found[0], found[1])
    # Full protection in perfect weather is the same as no weather at all.
    perfect = replace(sprayed, favourability=np.ones((BLOCKS, DAYS)))
    np.testing.assert_array_equal(over_days(caught, perfect, MILDEW, NOBODY)[1].hidden, found[0])


def test_a_curative_material_reaches_back() -> None:
    drivers = calm_drivers()
    cured = np.zeros((BLOCKS, DAYS))
    cured[:, 10] = 0.8
    _, without = run(drivers)
    _, treated = run(replace(drivers, cured=cured, reach=np.array(3.0 / LATENT_DAYS)))
    np.testing.assert_array_equal(treated.hidden[:, :10], without.hidden[:, :10])
    assert (treated.hidden[:, 10] < without.hidden[:, 10]).all()
    # What is older than its reach still comes out.
    assert (treated.sporulating[:, 11] > 0.98 * without.sporulating[:, 11]).all()


def test_removal_and_washing_lower_what_sheds_and_nothing_that_hides() -> None:
    drivers = calm_drivers()
    removed = np.zeros((BLOCKS, DAYS))
    removed[:, 10] = MILDEW.removal_effect
    _, without = run(drivers)
    _, treated = run(replace(drivers, removed=removed))
    np.testing.assert_array_equal(treated.hidden[:, 10], without.hidden[:, 10])
    np.testing.assert_allclose(treated.sporulating[:, 10], 0.7 * without.sporulating[:, 10])
    assert (treated.healthy >= without.healthy).all()


@given(seeds, st.integers(0, DAYS - 2))
def test_an_earlier_outbreak_next_door_is_never_better(seed, day) -> None:
    drivers = replace(made_drivers(seed), counts=NO_COUNTS, removed=np.array(0.0))
    late, early = (np.zeros((2, DAYS)) for _ in range(2))
    late[:, day + 1 :] = 0.3
    early[:, day:] = 0.3
    healthy = [
        run(replace(drivers, neighbours=one), epidemic=TIRELESS)[1].healthy for one in (late, early)
    ]
    assert (healthy[1] <= healthy[0] + 1e-12).all()


def test_spores_of_neighbours_arrive_a_day_later() -> None:
    neighbours = np.zeros((2, DAYS))
    neighbours[:, 5] = 0.3
    _, course = run(replace(calm_drivers(), neighbours=neighbours), visible=0.0)
    _, alone = run(calm_drivers(), visible=0.0)
    more = course.incoming_inoculum - alone.incoming_inoculum
    assert np.flatnonzero((more > 1e-9).any(axis=0))[0] == 6


def test_what_arrives_is_told_in_multiples_of_the_background() -> None:
    _, course = run(calm_drivers(), visible=0.1)
    home, incoming = on_a_line(neighbours=0).received(np.full(BLOCKS, 0.1))
    np.testing.assert_allclose(course.home_inoculum[:, 0], 1.0 + home / 0.05)
    np.testing.assert_allclose(course.incoming_inoculum[:, 0], incoming / 0.05)


def test_heat_halves_what_is_released_that_day() -> None:
    release = np.ones((BLOCKS, DAYS))
    release[:, 4] = 0.5
    _, cool = run(calm_drivers())
    _, hot = run(replace(calm_drivers(), release=release))
    np.testing.assert_allclose(hot.incoming_inoculum[:, 4], 0.5 * cool.incoming_inoculum[:, 4])
    np.testing.assert_array_equal(hot.sporulating[:, :4], cool.sporulating[:, :4])


@given(seeds)
def test_the_order_of_blocks_does_not_matter(seed) -> None:
    order = np.random.default_rng(seed).permutation(BLOCKS)
    drivers, exchange = made_drivers(seed), on_a_line()
    sources = np.append(order, [BLOCKS, BLOCKS + 1])
    moved = DenseExchange(exchange.share[order][:, sources])
    _, course = run(drivers)
    _, other = run(of_blocks(drivers, order), exchange=moved)
    for name, array in arrays(course).items():
        np.testing.assert_allclose(arrays(other)[name], array[order], atol=1e-12, err_msg=name)


@given(seeds, st.integers(1, DAYS - 1))
def test_two_halves_with_the_state_handed_on_are_the_whole(seed, cut) -> None:
    drivers = made_drivers(seed)
    state, course = run(drivers)
    middle, first = run(of_days(drivers, 0, cut))
    end, second = over_days(middle, of_days(drivers, cut, DAYS), MILDEW, on_a_line())
    for name, array in arrays(course).items():
        halves = np.concatenate([arrays(first)[name], arrays(second)[name]], axis=1)
        np.testing.assert_array_equal(halves, array, err_msg=name)
    np.testing.assert_array_equal(end.tissue.spent, state.tissue.spent)


@pytest.mark.parametrize(
    "driver",
    ["favourability", "susceptibility", "protection", "latency_rate", "old_share", "release"],
)
def test_what_is_unknown_stays_in_its_block(driver) -> None:
    drivers = made_drivers(4)
    gap = getattr(drivers, driver).copy()
    gap[2, 10] = np.nan
    _, course = run(replace(drivers, **{driver: gap}))
    for name, array in arrays(course).items():
        unknown = np.isnan(array).any(axis=1)
        assert not unknown[[0, 1, 3, 4]].any(), name
        assert not np.isnan(array[:, :10]).any(), name


def test_an_unknown_block_sheds_what_it_did_when_it_was_known() -> None:
    drivers = replace(calm_drivers(days=12), latency_rate=np.zeros((BLOCKS, 12)))
    gap = drivers.favourability.copy()
    gap[2, 5:] = np.nan
    _, course = run(replace(drivers, favourability=gap), visible=0.2)
    received = course.incoming_inoculum[1]
    assert np.isnan(course.sporulating[2, 5:]).all()
    # Neighbours lose a little each day to exhaustion; the unknown block stands still.
    assert (received[7:] > 0.5 * received[5]).all()


def test_a_block_unknown_from_the_start_sheds_nothing_and_hurts_nobody() -> None:
    visible = np.full(BLOCKS, 0.1)
    visible[0] = np.nan
    _, course = run(calm_drivers(), visible=visible)
    assert np.isnan(course.sporulating[0]).all()
    assert not np.isnan(course.incoming_inoculum[1:]).any()


def test_a_count_sets_the_state_on_its_day_and_is_worth_most_then() -> None:
    counts = Counts(np.array([1]), np.array([8]), np.array([200.0]), np.array([60.0]))
    _, without = run(calm_drivers())
    _, course = run(replace(calm_drivers(), counts=counts))
    np.testing.assert_array_equal(course.sporulating[:, :8], without.sporulating[:, :8])
    assert course.sporulating[1, 8] == pytest.approx(0.3, abs=0.02)
    assert course.hidden[1, 8] > without.hidden[1, 8]
    assert course.strength[1, 8] == pytest.approx(210.0)
    assert (np.diff(course.strength[1, 8:]) < 0).all()
    np.testing.assert_array_equal(np.delete(course.strength, 1, axis=0), 10.0)
    # The neighbour feels it from the next day on.
    assert course.incoming_inoculum[0, 8] == without.incoming_inoculum[0, 8]
    assert course.incoming_inoculum[0, 9] > without.incoming_inoculum[0, 9]


def final_hazard(drivers: Drivers, protection) -> np.ndarray:
    """Return the hazard of the last day as a function of protection, complex numbers too."""
    drivers = replace(drivers, protection=protection)
    state = first_state(np.full(BLOCKS, 0.04), drivers.neighbours[:, 0], MILDEW)
    for day in range(DAYS - 1):
        state, _ = one_day(state, drivers.on(day), MILDEW, on_a_line())
    last = drivers.on(DAYS - 1)
    _, spores = one_day(state, last, MILDEW, on_a_line())
    inoculum = MILDEW.background_inoculum * (spores.home + spores.incoming)
    return daily_hazard(
        last.favourability,
        last.susceptibility,
        inoculum,
        last.protection,
        infection_rate=MILDEW.infection_rate,
    )


@given(seeds, st.integers(0, BLOCKS - 1), st.integers(0, DAYS - 1))
def test_the_final_hazard_is_smooth_in_the_protection_of_each_block_and_day(
    seed, block, day
) -> None:
    drivers = made_drivers(seed)
    here = np.zeros((BLOCKS, DAYS))
    here[block, day] = 1.0
    # A complex step knows no cancellation, so it can be as small as one likes.
    exact = final_hazard(drivers, drivers.protection + 1e-30j * here).imag / 1e-30
    step = 1e-5
    up, down = (final_hazard(drivers, drivers.protection + s * here) for s in (step, -step))
    np.testing.assert_allclose((up - down) / (2.0 * step), exact, atol=1e-9, rtol=1e-5)


def test_protection_today_lowers_the_hazard_of_another_block_weeks_later() -> None:
    drivers = replace(made_drivers(1), counts=NO_COUNTS)
    here = np.zeros((BLOCKS, DAYS))
    here[2, 3] = 1.0
    slope = final_hazard(drivers, drivers.protection + 1e-30j * here).imag
    assert (slope < 0).all()


def test_each_kind_of_array_is_taken(as_array) -> None:
    drivers = calm_drivers()
    kinds = replace(
        drivers,
        favourability=as_array(drivers.favourability),
        latency_rate=as_array(drivers.latency_rate),
    )
    for name, array in arrays(run(kinds)[1]).items():
        np.testing.assert_allclose(array, arrays(run(drivers)[1])[name], rtol=1e-5, err_msg=name)
