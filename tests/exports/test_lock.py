"""One run at a time: a second is told who holds the folder, a dead one holds nothing."""

import os
import subprocess
import sys

import pytest

from geo.errors import InputError
from geo.exports.lock import NAME, alone_in


def test_a_held_folder_names_its_holder_and_is_free_afterwards(tmp_path):
    held = pytest.raises(InputError, match=f"process {os.getpid()}")
    with alone_in(tmp_path), held as raised, alone_in(tmp_path):
        pass
    assert raised.value.issues[0].code == "E-OUT-BUSY"
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("left", ["", "no number", "9" * 30])
def test_what_a_killed_run_left_is_taken_over(tmp_path, left):
    (tmp_path / NAME).write_text(left, "ascii")
    with alone_in(tmp_path):
        assert (tmp_path / NAME).read_text("ascii") == str(os.getpid())


def test_a_process_that_has_ended_holds_nothing(tmp_path):
    ended = subprocess.Popen([sys.executable, "-c", ""])
    ended.wait()
    (tmp_path / NAME).write_text(str(ended.pid), "ascii")
    with alone_in(tmp_path):
        pass


def test_another_users_run_is_respected(tmp_path, monkeypatch):
    def refuse(*_):
        raise PermissionError

    monkeypatch.setattr(os, "kill", refuse)
    (tmp_path / NAME).write_text("1", "ascii")
    with pytest.raises(InputError, match="process 1"), alone_in(tmp_path):
        pass
