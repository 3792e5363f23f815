"""Does another run write into the folder? Of two, pages and tables would not belong together."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from geo.errors import stop
from geo.texts import phrase

NAME = ".mangoblock-writing"


@contextmanager
def alone_in(folder: Path) -> Iterator[None]:
    """
    Hold a folder while files are written into it.

    Parameters
    ----------
    folder : pathlib.Path
        It must exist.

    Yields
    ------
    None
        Once nobody else holds it. What a killed run left behind is taken over.

    Raises
    ------
    InputError
        If another run is writing there: with its process.
    """
    mark = folder / NAME
    holder = _holder(mark)
    if holder:
        found = phrase("another run (process {number}) is writing into it", number=holder)
        fix = phrase("Wait for it, or name another folder with --out")
        raise stop("E-OUT-BUSY", str(folder), found, fix)
    mark.unlink(missing_ok=True)
    with mark.open("x", encoding="ascii") as opened:
        opened.write(str(os.getpid()))
    try:
        yield
    finally:
        mark.unlink(missing_ok=True)


def _holder(mark: Path) -> int:
    """Return the process that holds a folder; 0 if there is none that still runs."""
    try:
        process = int(mark.read_text("ascii"))
    except (FileNotFoundError, ValueError):
        return 0
    try:
        os.kill(process, 0)  # asks whether it is there, and does nothing to it
    except (ProcessLookupError, OverflowError):
        return 0
    except PermissionError:
        return process  # it belongs to somebody else
    return process
