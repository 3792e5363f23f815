"""A file is written whole or not at all."""

from pathlib import Path

import pytest

from geo.exports.files import write_text, write_whole


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_text_is_written_as_utf_8_with_plain_line_ends(tmp_path: Path) -> None:
    write_text(tmp_path / "a.txt", "29,4 °C\n")
    assert (tmp_path / "a.txt").read_bytes() == b"29,4 \xc2\xb0C\n"
    assert names(tmp_path) == ["a.txt"]


def test_a_second_write_replaces_the_first(tmp_path: Path) -> None:
    write_text(tmp_path / "a.txt", "yesterday, and longer")
    write_text(tmp_path / "a.txt", "today")
    assert (tmp_path / "a.txt").read_text("utf-8") == "today"


def test_the_writer_sees_the_ending_it_shall_write(tmp_path: Path) -> None:
    seen: list[Path] = []

    def write(beside: Path) -> None:
        seen.append(beside)
        beside.write_text("x", "utf-8")

    write_whole(tmp_path / "blocks.gpkg", write)
    assert seen[0].suffix == ".gpkg"
    assert seen[0].parent == tmp_path


@pytest.mark.parametrize("failure", [OSError("disk is full"), KeyboardInterrupt()])
def test_a_write_that_stops_half_way_leaves_the_old_file_and_no_debris(
    failure: BaseException, tmp_path: Path
) -> None:
    write_text(tmp_path / "a.csv", "the last good one")

    def write(beside: Path) -> None:
        beside.write_text("half", "utf-8")
        raise failure

    with pytest.raises(type(failure)):
        write_whole(tmp_path / "a.csv", write)
    assert (tmp_path / "a.csv").read_text("utf-8") == "the last good one"
    assert names(tmp_path) == ["a.csv"]


def test_a_write_that_stops_before_it_began_leaves_nothing(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        write_text(tmp_path / "no such folder" / "a.csv", "x")
    assert names(tmp_path) == []
