"""All outputs of a run land in one folder, or one line says why not."""

from dataclasses import replace
from pathlib import Path

import pytest

from geo.errors import InputError
from geo.pipeline import write
from geo.season import FileRead
from tests.demo_run import NAMES, demo_outcome


def names(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


def test_the_folder_is_made_and_holds_all_files_and_nothing_else(tmp_path: Path) -> None:
    said: list[str] = []
    folder = tmp_path / "deep" / "outputs"
    paths = write(demo_outcome(), folder, say=said.append)
    assert names(folder) == NAMES
    assert {path.name for path in paths.values()} == NAMES
    assert said == ["writing the tables", "drawing the map"]


def test_files_of_others_in_the_folder_are_left_alone(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine", "utf-8")
    write(demo_outcome(), tmp_path)
    assert (tmp_path / "notes.txt").read_text("utf-8") == "mine"
    assert names(tmp_path) == NAMES | {"notes.txt"}


# Not by permissions: who runs as root may write anywhere.
@pytest.mark.parametrize("place", ["taken", "taken/below"])
def test_a_folder_that_cannot_be_made_is_one_line(place: str, tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file", "utf-8")
    with pytest.raises(InputError, match=r"^E-OUT-WRITE STOP .*cannot be written to") as caught:
        write(demo_outcome(), tmp_path / place)
    assert "\n" not in str(caught.value)
    assert "--out" in str(caught.value)


def test_a_file_that_cannot_be_replaced_is_one_line_and_leaves_no_debris(tmp_path: Path) -> None:
    (tmp_path / "blocks.gpkg").mkdir()
    (tmp_path / "blocks.gpkg" / "mine.txt").write_text("mine", "utf-8")
    with pytest.raises(InputError, match="E-OUT-WRITE"):
        write(demo_outcome(), tmp_path)
    assert names(tmp_path) <= NAMES


def test_a_file_of_the_farm_is_never_overwritten(tmp_path: Path) -> None:
    demo = demo_outcome()
    mine = tmp_path / "blocks.gpkg"
    mine.write_text("the grower's own outlines", "utf-8")
    read = FileRead("outlines", mine, size=1, sha256="0" * 64, used=1, held=0)
    outcome = replace(demo, farm=replace(demo.farm, files=(read,)))
    with pytest.raises(InputError, match=r"E-OUT-INPUT STOP .*blocks\.gpkg: is a file of the farm"):
        write(outcome, tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["blocks.gpkg"]
    assert mine.read_text("utf-8") == "the grower's own outlines"
