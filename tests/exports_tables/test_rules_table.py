"""The table of rival rules holds what the season says, row by row."""

import csv
import io
from pathlib import Path

import numpy as np
import pytest

from geo.exports.rules_data import agreement, our_own, ranks, readings, season_so_far
from geo.exports.rules_table import COLUMNS, write_rules
from geo.rules import RIVALS
from tests.demo_run import demo_outcome


def rows(folder: Path, **settings: int) -> list[dict[str, str]]:
    demo = demo_outcome()
    path = folder / "rules.csv"
    write_rules(path, farm=demo.farm, season=demo.season, disease="a disease", **settings)
    return list(csv.DictReader(io.StringIO(path.read_text("utf-8"))))


def test_there_is_a_row_for_each_block_and_day(tmp_path: Path) -> None:
    season = demo_outcome().season
    found = rows(tmp_path)
    keys = [(row["day"], row["block_id"]) for row in found]
    assert len(set(keys)) == len(keys) == season.sizes["block"] * season.sizes["day"]
    assert tuple(found[0]) == COLUMNS
    assert {row["scenario"] for row in found} == {"made scenario"}
    assert {row["disease_of_ours"] for row in found} == {"a disease"}


def test_each_column_holds_what_the_season_says(tmp_path: Path) -> None:
    season = demo_outcome().season
    found = rows(tmp_path)
    by_column = {rival.column: season.rule_reading.sel(rule=rival.key).values for rival in RIVALS}
    by_column["our_favourability_0_to_1"] = season.favourability.values
    by_column["our_hazard_index"] = season.hazard.values
    for column, expected in by_column.items():
        got = [float(row[column] or "nan") for row in found]
        np.testing.assert_allclose(got, expected.T.ravel(), rtol=1e-5, atol=1e-12, err_msg=column)


def test_days_after_today_say_so(tmp_path: Path) -> None:
    today = demo_outcome().farm.today.isoformat()
    for row in rows(tmp_path):
        assert row["is_after_today"] == str(int(row["day"] > today))


@pytest.mark.parametrize(("most_rows", "days"), [(1, 1), (100_000, None)])
def test_of_a_farm_too_large_only_the_last_whole_days_are_written(
    most_rows: int, days: int | None, tmp_path: Path
) -> None:
    season = demo_outcome().season
    found = rows(tmp_path, most_rows=most_rows)
    all_days = season["day"].values.astype("datetime64[D]").astype(str).tolist()
    assert sorted({row["day"] for row in found}) == all_days[-(days or len(all_days)) :]
    assert len(found) % season.sizes["block"] == 0


def test_ours_come_first_and_are_the_seasons_own() -> None:
    season = demo_outcome().season
    keys = [reading.key for reading in readings(season)]
    assert keys == [*our_own(season), *(rival.key for rival in RIVALS)]


def test_places_begin_at_1_and_skip_what_is_not_known() -> None:
    assert ranks(np.array([0.1, 0.1 + 1e-13, np.nan, 5.0])) == [2, 2, None, 1]


def test_blocks_that_read_alike_have_no_places() -> None:
    assert ranks(np.array([3.0, 3.0, np.nan])) == [None] * 3


def test_the_season_so_far_is_the_mean_of_the_days_up_to_today() -> None:
    season = demo_outcome().season
    days = season["day"].values.astype("datetime64[D]")
    is_past = days <= np.datetime64(demo_outcome().farm.today)
    expected = season.rule_reading.sel(rule="field_rule").values[:, is_past].mean(axis=1)
    np.testing.assert_allclose(season_so_far(season)["field_rule"], expected)


def test_orders_agree_reverse_or_do_not_exist() -> None:
    up = np.array([1.0, 2.0, 3.0, np.nan])
    assert agreement(up, -up) == pytest.approx(-1.0)
    # By hand: of three pairs one ties in the second column; tau-b is 2 / sqrt(3 x 2).
    assert agreement(up, np.array([1.0, 1.0, 2.0, 9.0])) == pytest.approx(2.0 / np.sqrt(6.0))
    assert agreement(up, np.full(4, np.nan)) is None
    assert agreement(up, np.ones(4)) is None
