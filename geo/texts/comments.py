"""How does a settings file explain itself, and how in another language?"""

import re
from collections.abc import Iterator
from textwrap import wrap

from geo.texts.phrases import language, phrase_of

WIDTH = 98  # of a line of comment, the mark and its blank left out
# What is no prose behind a mark: a key that is left out, a table, a line set in for an example.
_EXAMPLE = re.compile(r"# (\w+ = |\[|  )")


def paragraphs(text: str) -> Iterator[tuple[int, int, str]]:
    r"""
    Yield the prose of a settings file's comments, paragraph by paragraph.

    Parameters
    ----------
    text : str
        A TOML file.

    Yields
    ------
    int
        First line, from 0.
    int
        Line after the last.
    str
        What they say, as one line.

    Examples
    --------
    >>> list(paragraphs('# Days ahead,\n# today included.\nhorizon_days = 3\n# speed = 4'))
    [(0, 2, 'Days ahead, today included.')]
    """
    lines = text.splitlines()
    start = None
    for place, line in enumerate([*lines, ""]):
        is_prose = line.startswith("# ") and not _EXAMPLE.match(line)
        if is_prose and start is None:
            start = place
        elif not is_prose and start is not None:
            yield start, place, " ".join(one[2:] for one in lines[start:place])
            start = None


def with_said_comments(text: str) -> str:
    r"""
    Return a settings file whose comments are in the language spoken now.

    Parameters
    ----------
    text : str
        A TOML file with English comments.

    Returns
    -------
    str
        The same keys and values.

    Examples
    --------
    >>> with_said_comments('# Days ahead.\nhorizon_days = 3\n')
    '# Days ahead.\nhorizon_days = 3\n'
    """
    if language().tag == "en":
        return text
    lines = text.splitlines()
    # From the end, so that the places of the earlier ones hold.
    for start, end, said in reversed(list(paragraphs(text))):
        lines[start:end] = [f"# {line}" for line in wrap(phrase_of(said), WIDTH)]
    return "\n".join(lines) + "\n"
