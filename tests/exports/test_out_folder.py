"""The door that every folder of outputs goes through."""

import pytest

from geo.errors import InputError
from geo.exports.out_folder import output_folder
from tests.demo_run import demo_outcome


def test_an_input_is_never_overwritten() -> None:
    farm = demo_outcome().farm
    read = farm.files[0].path
    with (
        pytest.raises(InputError, match=r"E-OUT-INPUT STOP .*would be overwritten"),
        output_folder(read.parent, read=farm.files, paths={"page": read}),
    ):
        pytest.fail("nothing may be written")


def test_a_folder_that_cannot_be_made_is_told_in_words(tmp_path) -> None:
    (tmp_path / "taken").write_text("a file")
    with (
        pytest.raises(InputError, match=r"E-OUT-WRITE STOP .*cannot be written to"),
        output_folder(tmp_path / "taken", read=demo_outcome().farm.files, paths={}),
    ):
        pytest.fail("nothing may be written")
