"""Which known name does the user mean? The nearest ones are suggested, none is guessed."""

import difflib
import re
import unicodedata
from collections.abc import Collection, Iterable

import pandas as pd

from geo.errors import quoted
from geo.texts import phrase_of

SUGGESTIONS = 3
EVERY = ("all", "all blocks", "todos", "todo", "semua", "lahat")  # in the diary, if the farm says
_PADDING = re.compile(r"(?<!\d)0+(?=\d)")


def plain(name: str) -> str:
    """
    Return a name without what people do not mean by it: case, width and stray spaces.

    Parameters
    ----------
    name : str
        As written.

    Returns
    -------
    str
        For comparison only.

    Examples
    --------
    >>> plain(" Block  ７ ")
    'block 7'
    """
    return " ".join(unicodedata.normalize("NFKC", name).casefold().split())


def matched(cells: pd.Series, known: Iterable[str]) -> pd.Series:
    """
    Return the known name that each cell means.

    Parameters
    ----------
    cells : pandas.Series
        Names as written.
    known : iterable of str
        The names as we spell them.

    Returns
    -------
    pandas.Series
        Our spelling, NaN where there is none. Nothing is guessed.
    """
    spelling = {plain(name): name for name in known}
    return cells.map(plain).map(spelling)


def nearest(name: str, known: Collection[str]) -> str:
    """
    Return the known names most like an unknown one, for a message.

    Parameters
    ----------
    name : str
        As written.
    known : collection of str
        The names as we spell them.

    Returns
    -------
    str
        At most three, quoted, the likest first. None is like an empty name.

    Examples
    --------
    >>> nearest("sulphur", ["copper", "sulfur", "mancozeb", "mineral oil"])
    '"sulfur", "copper", "mineral oil"'
    """
    if not plain(name):
        return ""
    named = [text for text in known if plain(text)]
    likest = sorted(named, key=lambda text: (-_likeness(name, text), text))
    return ", ".join(map(quoted, likest[:SUGGESTIONS]))


def explained(known: Iterable[str]) -> str:
    """
    Return names that may be written, each with what it means to who speaks another language.

    Parameters
    ----------
    known : iterable of str
        The names as we spell them, which files have to use.

    Returns
    -------
    str
        In English the names alone.

    Examples
    --------
    >>> explained(["copper", "sulfur"])
    'copper, sulfur'
    """
    said = ((name, phrase_of(name)) for name in known)
    return ", ".join(name if name == words else f"{name} ({words})" for name, words in said)


def _likeness(name: str, text: str) -> float:
    """Return 0 to 1; people forget the zero of B07 first of all."""
    return difflib.SequenceMatcher(a=_unpadded(name), b=_unpadded(text)).ratio()


def _unpadded(name: str) -> str:
    return _PADDING.sub("", plain(name))
