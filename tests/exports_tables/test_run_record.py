"""The run record: what was read, assumed and computed, as strict JSON and the same each time."""

import hashlib
import json
from dataclasses import fields
from importlib.metadata import version
from importlib.resources import files
from math import nan, prod
from pathlib import Path
from typing import Any, NoReturn

import pytest
import shapely

from geo import __version__
from geo.exports.run_record import parameter_hashes, run_record, write_run_record
from geo.pipeline import write
from geo.pipeline.closing import record_of
from geo.pipeline.order import ORDER
from geo.pipeline.today import today_of, write_today
from geo.season.farm import Settings
from geo.texts import speaking
from tests.demo_run import FARM, NAMES, OF_TODAY, demo_folder, demo_outcome, with_other


def refuse(word: str) -> NoReturn:
    message = f"{word} is not JSON (RFC 8259)"
    raise ValueError(message)


@pytest.fixture
def record() -> dict[str, Any]:
    text = (demo_folder() / "run.json").read_text("utf-8")
    read: dict[str, Any] = json.loads(text, parse_constant=refuse)
    return read


def record_of_demo(**changes: Any) -> dict[str, object]:
    return record_of(with_other(demo_outcome(), **changes))


def test_labels_are_on_record_with_null_for_what_sets_no_limit() -> None:
    demo = demo_outcome()
    record = run_record(demo.farm, demo.season, spray=demo.spray, scouting=demo.scouting, layers=[])
    labels = record["settings"]["labels"]
    sulfur = next(label for label in labels if label["material"] == "sulfur")
    assert (sulfur["re_entry_hours"], sulfur["season_maximum"]) == (24.0, None)
    assert sulfur["label_date"] == "2025-06-01"
    json.dumps(record, allow_nan=False)


def test_sprayers_and_the_round_are_on_record_as_the_user_set_them() -> None:
    demo = demo_outcome()
    record = run_record(demo.farm, demo.season, spray=demo.spray, scouting=demo.scouting, layers=[])
    sprayers, day_round = record["settings"]["sprayers"], record["settings"]["round"]
    assert [(one["name"], one["tank_litres"], one["speed"]) for one in sprayers] == [
        ("Large sprayer", 2000.0, None),
        ("Small sprayer", 1000.0, None),
    ]
    assert (day_round["start"], day_round["litres_per_hectare"]) == ("06:30:00", 1000.0)
    assert day_round["turn_seconds"] is None


def test_each_input_file_is_named_with_its_size_and_digest(record: dict[str, Any]) -> None:
    assert {file["role"] for file in record["files"]} >= {"outlines", "elevation", "weather"}
    for file in record["files"]:
        content = (FARM / file["name"]).read_bytes()
        assert file["bytes"] == len(content)
        assert file["sha256"] == hashlib.sha256(content).hexdigest()


def test_each_reference_table_is_named_with_its_digest(record: dict[str, Any]) -> None:
    tables = Path(str(files("geo.reference") / "tables"))
    assert record["parameter_set"] == {
        path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in tables.glob("*.csv")
    }
    assert record["parameter_set"] == parameter_hashes()


def test_versions_are_those_that_ran(record: dict[str, Any]) -> None:
    assert record["software"]["mangoblock-risk"] == __version__
    assert record["software"]["rasterio"] == version("rasterio")
    assert record["software"]["GEOS"] == shapely.geos_version_string


def test_the_orders_are_those_decided(record: dict[str, Any]) -> None:
    demo = demo_outcome()
    assert record["spray_order"] == [entry.block for entry in demo.spray.entries]
    assert record["cannot_now"] == [held.block for held in demo.spray.cannot_now]
    assert record["scouting_order"] == [entry.block for entry in demo.scouting.entries]
    assert record["layers"] == [layer.name for layer in ORDER]


def test_the_factors_of_each_block_multiply_to_its_hazard(record: dict[str, Any]) -> None:
    assert len(record["factors"]) == len(demo_outcome().farm.blocks)
    for block, factors in record["factors"].items():
        assert prod(factors.values()) == pytest.approx(record["hazard_ahead"][block], rel=1e-12)


def test_it_names_no_folder_of_this_machine() -> None:
    text = (demo_folder() / "run.json").read_text("utf-8")
    assert str(FARM.parent) not in text
    assert str(Path.home()) + "/" not in text


def test_what_is_not_known_is_null_never_nan(tmp_path: Path) -> None:
    season = demo_outcome().season
    hazard = season.hazard_ahead.copy()
    hazard[0] = nan
    path = tmp_path / "run.json"
    write_run_record(path, record_of_demo(season=season.assign(hazard_ahead=hazard)))
    read = json.loads(path.read_text("utf-8"), parse_constant=refuse)
    assert read["hazard_ahead"][season.block.values[0]] is None


def test_a_nan_that_slipped_through_is_never_written(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        write_run_record(tmp_path / "run.json", {"hazard": nan})
    assert list(tmp_path.iterdir()) == []


def test_equal_runs_have_equal_records(tmp_path: Path) -> None:
    write(demo_outcome(), tmp_path)
    assert (tmp_path / "run.json").read_bytes() == (demo_folder() / "run.json").read_bytes()


def test_each_file_that_was_written_is_named_with_its_size_and_digest(
    record: dict[str, Any],
) -> None:
    assert [file["name"] for file in record["outputs"]] == sorted(NAMES - {"run.json"})
    for file in record["outputs"]:
        content = (demo_folder() / file["name"]).read_bytes()
        assert file["bytes"] == len(content)
        assert file["sha256"] == hashlib.sha256(content).hexdigest()


def test_the_record_of_a_day_names_the_sheets_too_and_what_was_asked(tmp_path: Path) -> None:
    plan = today_of(demo_outcome(), walk_hours=1.5)
    write_today(demo_outcome(), plan, tmp_path, semicolons=True)
    record = json.loads((tmp_path / "run.json").read_text("utf-8"))
    assert record["asked"] == {
        "job": "today",
        "semicolons": True,
        "since": None,
        "walk_hours": 1.5,
    }
    written = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    assert written.keys() == NAMES | OF_TODAY
    del written["run.json"]
    assert {file["name"]: file["sha256"] for file in record["outputs"]} == {
        name: hashlib.sha256(content).hexdigest() for name, content in written.items()
    }


def test_the_language_of_its_sentences_is_named(record: dict[str, Any]) -> None:
    assert record["language"] == "en"
    with speaking("es"):
        assert record_of_demo()["language"] == "es"


def test_each_part_says_what_it_is(record: dict[str, Any]) -> None:
    assert record["parts"].keys() == record.keys() - {"parts"}
    assert all(record["parts"].values())


def test_each_setting_is_on_record_with_where_it_comes_from(record: dict[str, Any]) -> None:
    called = {
        "sulfur_limit": "sulfur_limit_degC",
        "sulfur_limit_reason": "sulfur_limit_from",
        "vertical_error": "vertical_error_m",
        "day_round": "round",
    }
    names = {field.name for field in fields(Settings)}
    assert {called.get(name, name) for name in names} <= record["settings"].keys()
    standing = record["settings_standing"]
    assert standing.keys() == names
    # The demo's own farm.toml names its sprayers and leaves the kernel alone.
    assert (standing["sprayers"], standing["kernel"]) == ("set in farm.toml", "default")


def test_stations_and_pools_are_on_record(record: dict[str, Any]) -> None:
    season = demo_outcome().season
    assert record["weather"]["station_shares"] == {"station": 1.0}
    pools = record["cool_pools"]
    assert pools["loggers"] == season.logger.values.tolist()
    for name, key in (
        ("pool_full_strength", "full_strength_K"),
        ("pool_scale_depth", "scale_depth_m"),
    ):
        assert pools[key]["value"] == float(season[name])
        assert pools[key]["low_90"] <= pools[key]["value"] <= pools[key]["high_90"]
        assert 0.0 < pools[key]["prior_share"] <= 1.0
