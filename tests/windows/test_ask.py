"""All rules asked of a small made season: which closes what, and what it says of its limit."""

from dataclasses import replace
from datetime import date

import geopandas as gpd
import numpy as np
import pytest
import xarray as xr
from shapely import Point

from geo.season import Farm
from geo.season.crews import Crews
from geo.season.label import Label
from geo.texts import speaking
from geo.windows import Windows, spray_windows, windows_of_labels
from geo.windows.ask_places import drift_at
from geo.windows.gate import Gate
from geo.windows.rules import heat_limit
from tests.laws.made_farm import made_farm
from tests.laws.made_season import (
    BLOCK_CELLS,
    CELL,
    CORNERS,
    made_season,
    made_through,
    permuted,
    replaced,
    through,
)

NOW = 5 * 24 + 6  # the first forecast hour
COPPER = Label(
    "copper", ("M01",), 24.0, 3.0, 10.0, 4.0, country="made", label_date=date(2025, 1, 1)
)


@pytest.fixture(scope="module")
def season() -> xr.Dataset:
    return made_through()


def gate(windows: Windows, key: str) -> Gate:
    (found,) = [one for one in windows.gates if one.rule.key == key]
    return found


def keys(windows: Windows) -> set[str]:
    return {one.rule.key for one in windows.gates}


def sprayed(season: xr.Dataset, *sprays: tuple[int, float, str]) -> xr.Dataset:
    """Return the season with these sprays only: block, hour and material."""
    block, hour, material = zip(*sprays, strict=True)
    bare = season.drop_dims("spray")
    return bare.assign(
        spray_block=("spray", np.array(block)),
        spray_hour=("spray", np.array(hour, dtype=float)),
        spray_material=("spray", np.array(material)),
    )


def hourly(season: xr.Dataset, **values: float) -> xr.Dataset:
    """Return the season with series that have one value in all forecast hours."""
    changed = {}
    for name, value in values.items():
        array = season[name].values.astype(float).copy()
        array[..., NOW:] = value
        changed[name] = array
    return replaced(season, **changed)


def test_hours_are_those_of_the_forecast_from_today_on(season) -> None:
    windows = spray_windows(made_farm(), season)
    assert windows.start[0].isoformat() == "2026-02-06T06:00:00+00:00"
    assert (len(windows.start), windows.hours_of_day, windows.day) == (90, 18, date(2026, 2, 6))
    assert windows.is_closed.shape == (5, 90)
    late = spray_windows(replace(made_farm(), today=date(2026, 2, 10)), season)
    assert (late.start, late.day, late.hours_of_day) == ((), None, 0)


def test_an_hour_is_closed_by_any_rule_that_closes_and_by_no_caution(season) -> None:
    windows = spray_windows(made_farm(), season)
    any_of = np.zeros((5, 90), dtype=bool)
    for one in windows.closing:
        any_of |= one.is_closed
    assert (windows.is_closed == any_of).all()
    assert {"bees", "delta-t-ideal", "rain-later", "agitation"} <= keys(windows)
    assert not {one.rule.key for one in windows.closing} & {"bees", "delta-t-ideal", "rain-later"}


@pytest.mark.parametrize(
    ("key", "name", "open_value", "closed_value"),
    [
        ("wind-low", "wind_speed", 0.84, 0.82),
        ("wind-high", "wind_speed", 4.16, 4.18),
        ("rain-free", "precipitation", 0.09, 0.11),
        ("wet-leaves", "relative_humidity_at_spot", 89.9, 90.1),
    ],
)
def test_each_weather_limit_flips(season, key, name, open_value, closed_value) -> None:
    bare = replaced(season, wind_share=np.ones((5, 16)))
    for value, is_closed in ((open_value, False), (closed_value, True), (np.nan, True)):
        found = gate(spray_windows(made_farm(), hourly(bare, **{name: value})), key)
        # The last two hours of a forecast have no two dry hours known after them.
        assert (found.is_closed[:, :-2] == is_closed).all(), value


@pytest.mark.parametrize(
    ("key", "humidity", "is_closed"),
    [("delta-t-low", 82.0, False), ("delta-t-low", 86.0, True), ("delta-t-high", 42.0, False),
     ("delta-t-high", 33.0, True), ("delta-t-ideal", 52.0, False), ("delta-t-ideal", 46.0, True)],
)  # fmt: skip
def test_delta_t_flips_with_humidity(season, key, humidity, is_closed) -> None:
    air = hourly(season, air_temperature_at_spot=27.5, relative_humidity_at_spot=humidity)
    assert (gate(spray_windows(made_farm(), air), key).is_closed == is_closed).all()


@pytest.mark.parametrize(("warmth", "is_closed"), [(31.9, False), (32.1, True)])
def test_the_users_heat_limit_flips(season, warmth, is_closed) -> None:
    farm = made_farm(sulfur_limit=32.0, sulfur_limit_reason="the label in the store")
    hot = replaced(season, day_maximum_temperature=np.full((5, 9), warmth))
    found = gate(spray_windows(farm, hot), "sulfur-heat")
    assert found.is_closed[0, 0] == is_closed
    assert found.rule.standing == "set by the user: the label in the store"


def test_the_cost_of_the_heat_rule_is_counted_over_the_month(season) -> None:
    warmth = np.full((5, 9), 25.0)
    warmth[1, 4] = 31.0  # closes the day itself and the three before it
    windows = spray_windows(made_farm(), replaced(season, day_maximum_temperature=warmth))
    assert windows.hot_days.tolist() == [0, 4, 0, 0, 0]
    assert windows.month_days == 9
    assert heat_limit(made_farm())[0] == 29.4


@pytest.mark.parametrize(("days", "is_closed"), [(13.0, True), (14.0, False)])
@pytest.mark.parametrize(
    ("planned", "before"), [("sulfur", "mineral oil"), ("mineral oil", "sulfur")]
)
def test_oil_and_sulfur_keep_fourteen_days_apart(season, planned, before, days, is_closed) -> None:
    diary = sprayed(season, (2, NOW - 24.0 * days, before))
    found = gate(spray_windows(made_farm(material=planned), diary), "sulfur-oil")
    assert found.is_closed[:, 0].tolist() == [False, False, is_closed, False, False]


def test_sulfur_and_oil_in_one_tank_are_closed_everywhere(season) -> None:
    windows = spray_windows(made_farm(mixed_with="mineral oil"), season)
    assert windows.is_closed.all()
    assert gate(windows, "sulfur-oil").rule.title.startswith("Sulfur and oil in one tank")


@pytest.mark.parametrize(
    ("settings", "is_closed", "is_caution"),
    [
        ({"agitated": True}, False, False),
        ({"agitated": False, "sprayer": "airblast"}, True, False),
        ({"sprayer": "hose_end"}, True, False),
        ({"sprayer": "knapsack"}, True, True),
        ({}, True, True),
    ],
)
def test_a_suspension_needs_an_agitated_tank(season, settings, is_closed, is_caution) -> None:
    found = gate(spray_windows(made_farm(**settings), season), "agitation")
    assert (bool(found.is_closed.all()), found.rule.is_caution) == (is_closed, is_caution)


def test_a_hose_end_sprayer_may_take_copper(season) -> None:
    assert "agitation" not in keys(
        spray_windows(made_farm(material="copper", sprayer="hose_end"), season)
    )


@pytest.mark.published("agnote_i33", "no adverse effect of copper on mango flowers")
def test_copper_in_open_bloom_is_a_caution_with_both_sides(season) -> None:
    stages = np.full((5, 9), 20.0)
    stages[1], stages[2] = -3.0, np.nan
    bloom = replaced(season, stage_progress=stages)
    found = gate(spray_windows(made_farm(material="copper"), bloom), "copper-bloom")
    assert found.rule.is_caution
    assert found.is_closed[:3, 0].tolist() == [True, False, True]
    for side in ("no adverse effect", "apples russet", "spike emergence", "small fruit"):
        assert side in found.rule.standing


def test_bees_are_warned_of_in_bloom_by_day_when_it_is_warm(season) -> None:
    bloom = replaced(season, stage_progress=np.full((5, 9), 20.0))
    for warmth, may_fly in ((12.9, False), (13.1, True), (np.nan, True)):
        air = hourly(bloom, air_temperature_at_spot=warmth)
        found = gate(spray_windows(made_farm(), air), "bees").is_closed
        assert found[:, 6].tolist() == [may_fly] * 5  # noon
        assert not found[:, 16].any()  # ten at night
    buds = replaced(season, stage_progress=np.full((5, 9), -3.0))
    assert not gate(spray_windows(made_farm(), buds), "bees").is_closed.any()


def test_codes_are_counted_from_the_diary_and_the_label(season) -> None:
    farm = made_farm(material="azoxystrobin")
    once = sprayed(season, (0, NOW - 300.0, "azoxystrobin"), (1, NOW - 300.0, "sulfur"))
    windows = spray_windows(farm, once)
    assert gate(windows, "frac-running-11").is_closed[:, 0].tolist() == [True] + [False] * 4
    assert not gate(windows, "frac-season-11").is_closed.any()
    premix = replace(farm, labels=(Label("tebuconazole", ("3", "11"), season_maximum=9.0),))
    of_premix = sprayed(season, (3, NOW - 300.0, "tebuconazole"))
    assert gate(spray_windows(premix, of_premix), "frac-running-11").is_closed[3, 0]
    assert "frac-season-11" not in keys(spray_windows(made_farm(), season))


def test_a_label_sets_interval_and_season_maximum(season) -> None:
    farm = replace(made_farm(material="copper"), labels=(COPPER,))
    ago = [(0, NOW - 24.0 * 9.99), (1, NOW - 24.0 * 10.0)]
    ago += [(2, NOW - 24.0 * days) for days in (20, 40, 60, 80)]
    windows = spray_windows(farm, sprayed(season, *((*one, "copper") for one in ago)))
    assert gate(windows, "interval").is_closed[:3, 0].tolist() == [True, False, False]
    assert gate(windows, "season-maximum").is_closed[:3, 0].tolist() == [False, False, True]
    assert gate(windows, "interval").rule.standing == (
        "from your own label file; the label holds (made, 2025-01-01)"
    )


def test_no_row_on_the_label_file_closes_what_needs_one_and_says_so(season) -> None:
    farm = replace(made_farm(material="sulfur"), labels=(COPPER,))
    windows = spray_windows(farm, season)
    assert windows.is_closed.all()
    for key in ("interval", "season-maximum"):
        found = gate(windows, key)
        assert found.is_closed.all()
        assert found.rule.standing == "no label file with a row for it, and unknown is closed"
    cell = replace(farm, labels=(Label("sulfur", season_maximum=np.inf),))
    windows = spray_windows(cell, season)
    assert not gate(windows, "season-maximum").is_closed.any()
    assert gate(windows, "interval").is_closed.all()
    assert gate(windows, "interval").rule.standing.startswith("not written down")


def test_without_files_the_rules_that_need_them_are_named_as_not_asked(season) -> None:
    windows = spray_windows(made_farm(), season)
    assert len(windows.not_asked) == 3
    assert "no label file is named" in windows.not_asked[0].words
    assert not keys(windows) & {"interval", "season-maximum", "re-entry", "pre-harvest"}


def test_rules_are_asked_in_the_language_spoken(season) -> None:
    with speaking("es"):
        windows = spray_windows(made_farm(), season)
    heat = gate(windows, "sulfur-heat").rule
    assert heat.title.startswith("Azufre y calor: cerrado si")
    assert heat.about == "Azufre y calor"
    assert "práctica común, sin fuente" in heat.standing
    assert [unasked.about for unasked in windows.not_asked] == [
        "reglas de la etiqueta",
        "reingreso y precosecha",
        "casas",
    ]


def crews(*, is_picking: bool = False, start: float = NOW + 30.0) -> Crews:
    return Crews(
        block=np.array([1]),
        start=np.array([start]),
        end=np.array([start + 4.0]),
        day=np.array([int(start // 24)]),
        is_picking=np.array([is_picking]),
    )


def test_re_entry_flips_at_the_hours_of_the_label(season) -> None:
    farm = replace(made_farm(material="copper"), labels=(COPPER,), crews=crews())
    found = gate(spray_windows(farm, season), "re-entry")
    # 24 hours must lie between the end of the spraying hour and the crew, 30 hours from now.
    assert found.is_closed[1, :8].tolist() == [False] * 6 + [True] * 2
    assert not found.is_closed[1, 34:].any()
    assert not found.is_closed[[0, 2, 3, 4]].any()
    no_label = replace(farm, labels=None)
    found = gate(spray_windows(no_label, season), "re-entry")
    assert found.is_closed[1, :34].all()
    assert not found.is_closed[0].any()
    nobody = replace(farm, crews=replace(crews(), **{
        name: getattr(crews(), name)[:0] for name in ("block", "start", "end", "day", "is_picking")
    }))  # fmt: skip
    assert "re-entry" not in keys(spray_windows(nobody, season))


def test_pre_harvest_flips_at_the_days_of_the_label(season) -> None:
    picking = crews(is_picking=True, start=8 * 24 + 6.0)  # three days from today
    farm = replace(made_farm(material="copper"), labels=(COPPER,), crews=picking)
    found = gate(spray_windows(farm, season), "pre-harvest")
    assert not found.is_closed[1, :18].any()
    assert found.is_closed[1, 18:].all()
    assert not found.is_closed[0].any()


def with_place(kind: str, *, metres_east: float, **settings: object) -> Farm:
    """Return the farm with one place east of the second block."""
    farm = made_farm(**settings)
    column, row = CORNERS[1]
    spot = Point((column + BLOCK_CELLS[1]) * CELL + metres_east, (row + 3) * CELL)
    places = gpd.GeoDataFrame({"kind": [kind], "name": [kind]}, geometry=[spot], crs=farm.crs)
    return replace(farm, places=places)


@pytest.mark.parametrize(
    ("sprayer", "metres", "is_closed"),
    [("airblast", 30.4, True), ("airblast", 30.5, False), (None, 30.4, True),
     ("handgun", 7.6, True), ("handgun", 7.7, False)],
)  # fmt: skip
def test_nobody_may_be_within_the_exclusion_zone(season, sprayer, metres, is_closed) -> None:
    farm = with_place("house", metres_east=metres, sprayer=sprayer)
    found = gate(spray_windows(farm, season), "exclusion")
    assert found.is_closed[1].all() == is_closed
    assert not found.is_closed[[0, 2, 3, 4]].any()


@pytest.mark.parametrize("kind", ["water", "hive"])
def test_water_and_hives_close_while_wind_may_blow_towards_them(season, kind) -> None:
    for metres, wind_from, is_closed in (
        (29.9, 270.0, True), (30.1, 270.0, False), (29.9, 80.0, False), (29.9, np.nan, True),
    ):  # fmt: skip
        farm = with_place(kind, metres_east=metres)
        found = gate(spray_windows(farm, hourly(season, wind_from_direction=wind_from)), "buffer")
        assert (found.is_closed[1] == is_closed).all(), (metres, wind_from)
        assert not found.is_closed[0].any()
    assert drift_at(20.0) == pytest.approx(2.7618, abs=1e-3)


def test_permuting_blocks_permutes_the_verdict() -> None:
    turn = [3, 0, 4, 2, 1]
    straight = spray_windows(made_farm(), made_through())
    turned = spray_windows(made_farm(), through(permuted(made_season(), turn)))
    assert (turned.is_closed == straight.is_closed[turn]).all()


def test_a_forecast_of_two_days_closes_what_it_does_not_reach(season) -> None:
    short = season.isel(hour=slice(0, 7 * 24), day=slice(0, 7))
    windows = spray_windows(made_farm(), short)
    assert len(windows.start) == 42
    assert windows.is_closed.all()  # sulfur needs three days after
    copper = spray_windows(made_farm(material="copper"), short)
    assert not copper.is_closed.all()
    assert copper.is_closed[:, -2:].all()  # two dry hours are not known


def test_each_labelled_material_is_asked_what_it_would_be_asked_if_it_were_planned(season) -> None:
    labels = (COPPER, Label("sulfur", ("M02",), season_maximum=np.inf), Label("penconazole"))
    farm = replace(made_farm(material="sulfur", mixed_with="mineral oil"), labels=labels)
    asked = list(windows_of_labels(farm, season))
    assert [label for label, _ in asked] == list(labels)
    for label, windows in asked:
        planned = replace(farm, settings=replace(farm.settings, material=label.material))
        planned = replace(planned, settings=replace(planned.settings, mixed_with=""))
        alone = spray_windows(planned, season)
        assert [one.rule for one in windows.gates] == [one.rule for one in alone.gates]
        assert (windows.is_closed == alone.is_closed).all()
    assert list(windows_of_labels(made_farm(), season)) == []
