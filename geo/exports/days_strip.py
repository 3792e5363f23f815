"""The classes of a block, day by day, as one strip of cells."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.exports.page_classes import CLASS_COLOURS, NOT_KNOWN_COLOUR, NOT_KNOWN_WORD
from geo.exports.season_frame import Frame
from geo.ranking.classes import CLASS_WORDS, NOT_KNOWN, hazard_class
from geo.texts import phrase_of

CELL_HEIGHT = 26.0
LETTER, DIGIT = 7.2, 9.0  # widths of a letter and of a digit alone, with air


@dataclass(frozen=True, slots=True)
class Run:
    """
    Days in a row of the same class.

    Attributes
    ----------
    x, width : float
        Where it is drawn.
    middle : float
        Where its words stand: beside the line before the days ahead, if that crosses it.
    colour : str
        Of its class.
    pattern : str
        Hatch of its class; empty for none.
    words : str
        Its class in words, or in a digit where there is no room; empty where there is none at all.
    is_dark : bool
        Whether the words must be light.
    """

    x: float
    width: float
    middle: float
    colour: str
    pattern: str
    words: str
    is_dark: bool


def strip_of(hazard: FloatArray, frame: Frame) -> tuple[Run, ...]:
    """
    Return a block's days as runs of classes.

    Parameters
    ----------
    hazard : [1]
        Daily hazard index, shape (day,).
    frame : Frame
        The days.

    Returns
    -------
    tuple of Run
        From the first day to the last.
    """
    return tuple(_run(found, first, last, frame) for found, first, last in _runs(hazard))


def number_of(found: int) -> str:
    """
    Return the class as a digit.

    Parameters
    ----------
    found : int
        As `geo.ranking.classes` has it.

    Returns
    -------
    str
        1 for very low to 5 for very high; a question mark where it is not known.

    Examples
    --------
    >>> number_of(0), number_of(4), number_of(-1)
    ('1', '5', '?')
    """
    return "?" if found == NOT_KNOWN else str(found + 1)


def _runs(hazard: FloatArray) -> Iterator[tuple[int, int, int]]:
    classes: IntArray = hazard_class(hazard)
    starts = np.flatnonzero(np.diff(classes, prepend=classes[:1] - 1))
    ends = np.append(starts[1:], len(classes))
    yield from zip(classes[starts].tolist(), starts.tolist(), ends.tolist(), strict=True)


def _run(found: int, first: int, last: int, frame: Frame) -> Run:
    x, width = frame.start(first), round(frame.start(last) - frame.start(first), 1)
    top = len(CLASS_COLOURS) - 1
    word = phrase_of(NOT_KNOWN_WORD if found == NOT_KNOWN else CLASS_WORDS[found])
    digit = number_of(found)
    left, right = _room(x, x + width, frame.ahead)
    long, short = f"{digit} {word}", digit if right - left >= DIGIT else ""
    return Run(
        x=x,
        width=width,
        middle=round((left + right) / 2, 1),
        colour=NOT_KNOWN_COLOUR if found == NOT_KNOWN else CLASS_COLOURS[found],
        pattern="unknown" if found == NOT_KNOWN else "top" if found == top else "",
        words=long if right - left >= len(long) * LETTER else short,
        is_dark=found == top,
    )


def _room(left: float, right: float, line: float) -> tuple[float, float]:
    """Return the larger side of a run that an upright line divides."""
    if not left < line < right:
        return left, right
    return (left, line) if line - left >= right - line else (line, right)
