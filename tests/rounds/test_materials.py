"""What of the user's label file may go out where, and what is said of it."""

from dataclasses import replace

import numpy as np
import pytest
import xarray as xr

from geo.reference.diseases import DISEASES, Disease
from geo.rounds.held import TOO_SHORT
from geo.rounds.material_words import CHECK, by_use, material_words
from geo.rounds.materials import NO_HOURS, Labelled, labelled_materials
from geo.rounds.slots import slots_of
from geo.season import Farm
from geo.season.label import Label
from geo.windows import spray_windows
from tests.laws.made_farm import made_farm
from tests.laws.made_season import made_through, replaced

FORBIDDEN = ("recommend", " safe", "diagnos")
LABELS = (
    Label("sulfur", ("M02",), season_maximum=np.inf, minimum_interval_days=7.0),
    Label("copper", ("M01",), season_maximum=6.0, minimum_interval_days=1.0),
    Label("tebuconazole", ("3", "11"), season_maximum=3.0, minimum_interval_days=7.0),
    Label("penconazole", ("3",)),
)


@pytest.fixture(scope="module")
def season() -> xr.Dataset:
    return made_through()


def farm_with(*labels: Label, **settings: object) -> Farm:
    return replace(made_farm(**settings), labels=labels)


def found(season: xr.Dataset, *labels: Label, **settings: object) -> list[Labelled]:
    return list(labelled_materials(farm_with(*labels, **settings), season))


def test_a_material_is_open_exactly_where_its_own_rules_leave_enough_hours(season) -> None:
    for material in found(season, *LABELS, sprayer_hours_per_hectare=0.8):
        farm = farm_with(*LABELS, material=material.material)
        windows = spray_windows(farm, season)
        slots = slots_of(windows, season.area.values * 0.8)
        assert [start is not None for start in material.open_from] == slots.is_open.tolist()
        for start, closed in zip(material.open_from, material.closed_by, strict=True):
            assert (start is None) == bool(closed)


def test_without_a_label_file_nothing_is_told(season) -> None:
    assert labelled_materials(made_farm(), season) == ()


def test_what_the_label_does_not_tell_closes_and_says_so(season) -> None:
    (material,) = found(season, Label("penconazole", ("3",)))
    assert set(material.open_from) == {None}
    assert material.closed_by[0].startswith("Uses of penconazole in a year: ")
    assert material.closed_by[0].endswith(", limit not known")


def test_uses_are_counted_for_each_code_of_a_premix(season) -> None:
    sulfur, copper, premix, _ = found(season, *LABELS)
    assert sulfur.uses[0] == "FRAC M02: no rule counts its uses"
    assert copper.uses[1] == (
        "use 2 of 6 in a year, by your label; FRAC M01: no rule counts its uses"
    )
    assert premix.codes == ("3", "11")
    # Penconazole, of the same code, was the last spray of the third block.
    assert premix.uses[2] == (
        "use 1 of 3 in a year, by your label; FRAC 3: use 2 of 3 in a year, use 2 of 2 in a row; "
        "FRAC 11: use 1 of 3 in a year, use 1 of 1 in a row"
    )
    assert "Of the premix only tebuconazole is counted." in material_words(
        premix, 0, "panicle_mildew"
    )


def test_a_block_that_takes_longer_than_the_open_hours_is_told_so(season) -> None:
    (material,) = found(season, LABELS[1], sprayer_hours_per_hectare=6.0)
    assert set(material.closed_by) == {TOO_SHORT}


def test_without_a_forecast_hour_every_material_is_closed(season) -> None:
    measured = replaced(season, is_forecast=np.zeros(season.sizes["hour"], dtype=np.int64))
    for material in found(measured, *LABELS):
        assert set(material.closed_by) == {NO_HOURS}
        assert set(material.cautions) == {""}
        assert NO_HOURS in material_words(material, 0, "panicle_mildew")


def test_a_wind_that_is_not_known_closes_and_says_so(season) -> None:
    unknown = replaced(season, wind_speed=np.full(season.sizes["hour"], np.nan))
    (material,) = found(unknown, LABELS[1])
    assert "not known, limit " in material.closed_by[0]


def test_heat_that_closes_sulfur_is_told_with_its_number(season) -> None:
    hot = replaced(season, day_maximum_temperature=np.full((5, 9), 31.25))
    sulfur, copper = found(hot, *LABELS[:2])
    assert set(sulfur.closed_by) == {"Sulfur and heat: 31.2 °C, limit 29.4 °C"}
    assert set(copper.closed_by) == {""}


def test_copper_in_bloom_warns_with_both_sides_and_closes_nothing(season) -> None:
    bloom = replaced(season, stage_progress=np.full((5, 9), 20.0))
    (copper,) = found(bloom, LABELS[1])
    assert "russets apples" in copper.cautions[0]
    assert "no adverse effect" in material_words(copper, 0, "blossom_anthracnose")
    buds = replaced(season, stage_progress=np.full((5, 9), -3.0))
    assert set(found(buds, LABELS[1])[0].cautions) == {""}


def test_effects_are_the_tables_with_their_doubt_by_disease(season) -> None:
    sulfur = found(season, LABELS[0], sprayer="airblast")[0]
    assert [effect.disease for effect in sulfur.effects] == list(DISEASES)
    mildew = sulfur.against("panicle_mildew")
    assert (mildew.low, mildew.expected) == pytest.approx((0.6 * 0.65, 0.75 * 0.8))
    said = "it prevents 0.6 (0.39 to 0.81; efficacy assumed) of infections when fresh."
    assert said in material_words(sulfur, 0, "panicle_mildew")
    assert (mildew.standing, mildew.source) == ("assumed", "project")
    assert sulfur.against("fruit_anthracnose").expected == 0.0


def test_words_suggest_and_send_to_the_label_and_promise_nothing(season) -> None:
    materials = tuple(found(season, *LABELS))
    for disease in DISEASES:
        for place in range(5):
            _check_words(materials, place, disease)


def _check_words(materials: tuple[Labelled, ...], place: int, disease: Disease) -> None:
    listed = by_use(materials, place, disease.key)
    assert sorted(one.material for one in listed) == sorted(one.material for one in materials)
    shares = [one.against(disease.key).expected for one in listed if one.open_from[place]]
    assert shares == sorted(shares, reverse=True)
    for one in listed:
        said = material_words(one, place, disease.key)
        assert said.endswith(CHECK)
        assert not any(word in said.lower() for word in FORBIDDEN)
        if one.open_from[place] is None:
            assert said.startswith("Closed today: ")
        elif one.against(disease.key).expected > 0.0:
            assert said.startswith("Suggest: passes every rule that was asked, open from Fri 6 Feb")
        else:
            assert said.startswith(f"Open today, but not known to act on {disease.name}.")


def test_a_material_without_a_maximum_and_a_counted_code_counts_no_uses(season) -> None:
    measured = replaced(season, is_forecast=np.zeros(season.sizes["hour"], dtype=np.int64))
    (oil,) = labelled_materials(farm_with(Label("mineral oil", season_maximum=np.inf)), measured)
    assert oil.codes == ("NC",)
    assert oil.uses[0] == "FRAC NC: no rule counts its uses"
