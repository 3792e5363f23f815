"""What is this sentence in the language that is spoken now?"""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

from geo.texts.languages import ENGLISH, Language, language_of

_SPOKEN: ContextVar[Language] = ContextVar("language", default=ENGLISH)


def phrase(text: str, /, **values: object) -> str:
    """
    Return a sentence in the language spoken now, with its values put in.

    Parameters
    ----------
    text : str
        The sentence in English, written out where it is called: the catalogue is collected from
        the source. Values stand in braces, with a format if need be, such as ``{metres:.1f}``.
    **values : object
        What stands for the braces. Braces inside a value stay as they are.

    Returns
    -------
    str
        In English where the catalogue lacks it.

    Examples
    --------
    >>> phrase("{block} is closed until {hour}", block="B7", hour="14:00")
    'B7 is closed until 14:00'
    """
    return _filled(_SPOKEN.get().said(text), values)


def phrase_for(whom: str, text: str, /, **values: object) -> str:
    """
    Return a sentence whose English words mean several things, or agree with what they tell of.

    Parameters
    ----------
    whom : str
        What it is said of, for the translator: English does not change by it.
    text : str
        As `phrase` takes it.
    **values : object
        What stands for the braces.

    Returns
    -------
    str
        In English where the catalogue lacks it.

    Examples
    --------
    >>> phrase_for("an hour", "open")
    'open'
    """
    return _filled(_SPOKEN.get().said(text, whom), values)


def phrases(one: str, many: str, count: int, /, **values: object) -> str:
    """
    Return a sentence that depends on a count.

    Parameters
    ----------
    one, many : str
        In English, for one and for any other number; ``{count}`` stands for it.
    count : int
        How many.
    **values : object
        What else stands in braces.

    Returns
    -------
    str
        In the form that the language has for this number.

    Examples
    --------
    >>> phrases("{count} block", "{count} blocks", 1), phrases("{count} block", "{count} blocks", 3)
    ('1 block', '3 blocks')
    """
    said = _SPOKEN.get().counted(one, many, count)
    return _filled(said, {"count": count, **values})


def mark(text: str) -> str:
    """
    Mark a text for the catalogue where it is written, to be said elsewhere by `phrase_of`.

    Parameters
    ----------
    text : str
        In English. It may be a key besides: it comes back as it is.

    Returns
    -------
    str
        The same.
    """
    return text


def phrase_of(marked: str, /, **values: object) -> str:
    """
    Return in the language spoken now what was marked elsewhere, or stands in a reference table.

    Parameters
    ----------
    marked : str
        A text that went through `mark`, or one of a reference table's columns of words.
    **values : object
        What stands for the braces.

    Returns
    -------
    str
        As it is where the catalogue lacks it, so that a user's own words pass unchanged.
    """
    return _filled(_SPOKEN.get().said(marked), values)


@contextmanager
def speaking(tongue: str | Language) -> Iterator[Language]:
    """
    Speak a language until the end of the block.

    Parameters
    ----------
    tongue : str or Language
        Its tag, such as ``es``, or a catalogue of one's own.

    Yields
    ------
    Language
        The one that is spoken.

    Raises
    ------
    ValueError
        If there is no catalogue of it.
    """
    chosen = language_of(tongue) if isinstance(tongue, str) else tongue
    before = _SPOKEN.set(chosen)
    try:
        yield chosen
    finally:
        _SPOKEN.reset(before)


def language() -> Language:
    """
    Return the language spoken now.

    Returns
    -------
    Language
        English unless somebody asked for another.
    """
    return _SPOKEN.get()


def _filled(said: str, values: dict[str, object]) -> str:
    return said.format(**values) if values else said
