"""Write a file whole or not at all: a killed run leaves the last good one."""

import os
from collections.abc import Callable
from pathlib import Path


def write_whole(path: Path, write: Callable[[Path], None]) -> None:
    """
    Write beside the target, then put it in place in one step.

    Parameters
    ----------
    path : pathlib.Path
        Where the file shall be. Its folder must exist.
    write : callable
        Writes to the path it is given, which has the same ending.
    """
    beside = path.with_name(f".{path.stem}.{os.getpid()}{path.suffix}")
    try:
        write(beside)
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)


def write_text(path: Path, text: str) -> None:
    """
    Write text as UTF-8 with plain line ends, whole or not at all.

    Parameters
    ----------
    path : pathlib.Path
        Where the file shall be.
    text : str
        What shall be in it.
    """
    write_whole(path, lambda beside: _write_bytes(beside, text))


def _write_bytes(path: Path, text: str) -> None:
    path.write_bytes(text.encode("utf-8"))
