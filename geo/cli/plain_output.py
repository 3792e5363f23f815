"""Does what a name holds reach the terminal as a command to it? No: as characters one can see."""

import re
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, TextIO

# What moves, colours or renames a terminal (ECMA-48: C0 and C1), breaks lines, or turns the
# direction of the text around it (Unicode bidirectional overrides and isolates; CWE-150).
_COMMANDS = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069]")


def plain(text: str) -> str:
    r"""
    Return a text in which nothing commands a terminal.

    Parameters
    ----------
    text : str
        Of our own, with names from files in it.

    Returns
    -------
    str
        Commands written out; line ends stay.

    Examples
    --------
    >>> plain("Block \x1b[31m7\n")
    'Block \\x1b[31m7\n'
    """
    return _COMMANDS.sub(lambda found: found.group().encode("unicode_escape").decode(), text)


class PlainStream:
    """
    A stream through which no command passes.

    Parameters
    ----------
    stream : TextIO
        Written to.

    Attributes
    ----------
    commanded : TextIO
        The stream itself, for our own moving line of progress.
    """

    def __init__(self, stream: TextIO) -> None:
        self.commanded = stream

    def write(self, text: str) -> int:
        """
        Write a text with its commands written out.

        Parameters
        ----------
        text : str
            Any.

        Returns
        -------
        int
            Characters written.
        """
        return self.commanded.write(plain(text))

    def __getattr__(self, name: str) -> Any:  # noqa: ANN401 - whatever the stream has
        """
        Return everything else as the stream has it.

        Parameters
        ----------
        name : str
            Of an attribute.

        Returns
        -------
        Any
            The stream's own.
        """
        return getattr(self.commanded, name)


@contextmanager
def plain_output() -> Iterator[None]:
    """
    Let all that is printed meanwhile be plain.

    Yields
    ------
    None
        Print within.
    """
    before = sys.stdout, sys.stderr
    sys.stdout, sys.stderr = map(PlainStream, before)
    try:
        yield
    finally:
        sys.stdout, sys.stderr = before
