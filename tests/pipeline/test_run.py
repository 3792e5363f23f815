"""A run goes through every layer, says so, and decides the same each time."""

import shutil
from pathlib import Path

import numpy as np
import pytest

from geo.errors import InputError
from geo.pipeline import run
from geo.pipeline.order import OF_A_DISEASE, OF_THE_CHOSEN, SHARED
from geo.reference.diseases import DISEASES
from tests.demo_run import FARM, demo_outcome


def test_a_run_says_each_question_and_two_runs_decide_the_same() -> None:
    said: list[str] = []
    again, first = run(FARM, say=said.append), demo_outcome()
    assert said == [
        "reading the farm",
        *(layer.question for layer in SHARED),
        *(
            f"{disease.name}: {layer.question}"
            for disease in DISEASES
            for layer in (
                *OF_A_DISEASE,
                *(OF_THE_CHOSEN if disease.key == "panicle_mildew" else ()),
            )
        ),
        "which rule closes which hour",
        "the orders of the day",
    ]
    assert again.spray == first.spray
    assert again.scouting == first.scouting
    assert again.season.identical(first.season)


def test_a_folder_that_is_not_there_is_refused() -> None:
    with pytest.raises(InputError, match="E-FILE-MISSING"):
        run(Path("no such farm"))


def test_a_kernel_that_is_not_there_is_refused_with_those_that_are(tmp_path: Path) -> None:
    farm = Path(shutil.copytree(FARM, tmp_path / "farm"))
    text = (farm / "farm.toml").read_text("utf-8")
    (farm / "farm.toml").write_text(text.replace('"two_dt"', '"magic"'), "utf-8")
    with pytest.raises(
        InputError,
        match=r'"magic" is not known\. Write a known kernel; nearest: ',
    ):
        run(farm)


def test_the_hazard_is_the_product_of_its_four_terms() -> None:
    season = demo_outcome().season
    susceptibility = (
        season.cultivar_susceptibility * season.age_susceptibility * season.stage_susceptibility
    )
    inoculum = season.home_inoculum + season.incoming_inoculum
    unprotected = 1.0 - season.protection_left
    product = season.favourability * susceptibility * inoculum * unprotected
    product = product.transpose(*season.hazard.dims)
    np.testing.assert_allclose(season.hazard.values, product.values, rtol=1e-12)


def test_the_factors_of_each_block_multiply_to_its_hazard_ahead() -> None:
    season = demo_outcome().season
    np.testing.assert_allclose(
        season.factors.values.prod(axis=1), season.hazard_ahead.values, rtol=1e-12
    )


def test_blocks_stand_in_one_order_from_the_outlines_to_the_season() -> None:
    demo = demo_outcome()
    assert demo.farm.blocks.index.tolist() == demo.season.block.values.tolist()


def test_a_sprayer_that_covers_less_is_felt_through_the_whole_run(tmp_path: Path) -> None:
    folder = Path(shutil.copytree(FARM, tmp_path / "farm"))
    text = (folder / "farm.toml").read_text("utf-8")
    changed = text.replace('kind = "airblast"', 'kind = "knapsack"')
    changed = changed.replace("# reapply_line", "reapply_line")
    (folder / "farm.toml").write_text(changed, "utf-8")
    less, usual = run(folder).season, demo_outcome().season
    assert (less.spray_left.values <= usual.spray_left.values).all()
    assert less.spray_left.values.max() < usual.spray_left.values.max()
    assert (less.attrs["sprayer"], less.attrs["reapply_line"]) == ("knapsack", 0.4)
    assert np.nanmax(less.rain_to_reapply.values) < np.nanmax(usual.rain_to_reapply.values)


def test_a_planned_spray_changes_no_hazard(tmp_path: Path) -> None:
    folder = Path(shutil.copytree(FARM, tmp_path / "farm"))
    diary = (folder / "diary.csv").read_text("utf-8")
    planned = diary + "2026-02-25,06:00,B01;B02;B03,sulfur,M02,planned\n"
    (folder / "diary.csv").write_text(planned, "utf-8")
    found, before = run(folder).season, demo_outcome().season
    np.testing.assert_array_equal(found.hazard.values, before.hazard.values)
    np.testing.assert_array_equal(found.cured.values, before.cured.values)
