"""A strip of a season's drawing: what it is made of."""

from dataclasses import dataclass
from textwrap import wrap

import numpy as np

from geo.exports.strokes import Scale
from geo.texts import language

HEIGHT, TALL = 50.0, 86.0
LETTER = 8.0  # width of a digit, with air
# Letters of a title that stand beside each other; those of Arabic are wider.
LETTERS = {"ltr": 44, "rtl": 38}


@dataclass(frozen=True, slots=True)
class Tick:
    """
    A value named at the left edge, or a word at the right one.

    Attributes
    ----------
    y : float
        Where.
    words : str
        What.
    """

    y: float
    words: str


@dataclass(frozen=True, slots=True)
class Mark:
    """
    Something written into a strip.

    Attributes
    ----------
    x, y : float
        Where, in the middle.
    words : str
        What.
    """

    x: float
    y: float
    words: str


@dataclass(frozen=True, slots=True)
class Panel:
    """
    One strip.

    Attributes
    ----------
    title : str
        With its unit.
    height : float
        Of the strip.
    ticks : tuple of Tick
        Values at the left.
    shapes : tuple of (str, str)
        Class of the style sheet, and path; drawn in this order.
    marks : tuple of Mark
        Written into it.
    bands : tuple of (str, float, float)
        Colour, top and height of fields behind it.
    words : tuple of Tick
        Words at the right.
    """

    title: str
    height: float
    ticks: tuple[Tick, ...]
    shapes: tuple[tuple[str, str], ...]
    marks: tuple[Mark, ...] = ()
    bands: tuple[tuple[str, float, float], ...] = ()
    words: tuple[Tick, ...] = ()

    @property
    def title_lines(self) -> tuple[str, ...]:
        """
        Return the title as lines that the drawing has room for.

        Returns
        -------
        tuple of str
            One; several in a language of longer words.
        """
        return tuple(wrap(self.title, LETTERS[language().direction]))


@dataclass(frozen=True, slots=True)
class Limits:
    """
    What the strips reach to, so that drawings side by side have the same axes.

    Attributes
    ----------
    cold, warm : float
        Temperatures in degC.
    rain : float
        Largest rain of a day in mm.
    found : float
        Largest share counted, with its interval.
    hazard : float
        Largest hazard index.
    """

    cold: float
    warm: float
    rain: float
    found: float
    hazard: float


def ticks(scale: Scale, values: tuple[float, ...] | None = None) -> tuple[Tick, ...]:
    """
    Return values named at the left edge.

    Parameters
    ----------
    scale : Scale
        Of the strip.
    values : tuple of float, optional
        Which; else those of both edges.

    Returns
    -------
    tuple of Tick
        Where each is drawn.
    """
    shown = values or (scale.low, scale.high)
    places = scale.down(np.array(shown)).round(1).tolist()
    return tuple(Tick(y, f"{value:g}") for y, value in zip(places, shown, strict=True))


def with_room(marks: list[Mark], *, letters: int) -> tuple[Mark, ...]:
    """
    Return the marks that do not stand on the one before.

    Parameters
    ----------
    marks : list of Mark
        From left to right.
    letters : int
        How long each is.

    Returns
    -------
    tuple of Mark
        What is left out stands in the list below the drawing.
    """
    kept: list[Mark] = []
    for mark in marks:
        if not kept or mark.x - kept[-1].x >= letters * LETTER:
            kept.append(mark)
    return tuple(kept)
