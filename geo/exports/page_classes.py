"""How the classes look on the page: word, colour and range."""

from itertools import pairwise

import numpy as np

from geo.ranking.classes import CLASS_BREAKS, CLASS_WORDS, NOT_KNOWN, hazard_class
from geo.texts import mark, phrase, phrase_of

# YlOrBr of ColorBrewer, five classes: light to dark, so that it survives a grey printer and the
# common kinds of colour blindness.
CLASS_COLOURS = ("#ffffd4", "#fed98e", "#fe9929", "#d95f0e", "#993404")
NOT_KNOWN_WORD = mark("Not known")
NOT_KNOWN_COLOUR = "#d9d7d0"


def class_key() -> list[dict[str, str]]:
    """
    Return the classes with their ranges, worst first.

    Returns
    -------
    list of dict
        ``word``, ``colour`` and ``range``.
    """
    edges = ("0", *(f"{edge:g}" for edge in CLASS_BREAKS))
    ranges = [phrase("{low} to {high}", low=low, high=high) for low, high in pairwise(edges)]
    ranges[0] = phrase("below {edge}", edge=edges[1])
    ranges.append(phrase("{edge} and more", edge=edges[-1]))
    triples = zip(CLASS_WORDS, CLASS_COLOURS, ranges, strict=True)
    return [{"word": phrase_of(w), "colour": c, "range": r} for w, c, r in triples][::-1]


def class_of(hazard: float) -> int:
    """
    Return the class of one hazard.

    Parameters
    ----------
    hazard : float
        Daily hazard index.

    Returns
    -------
    int
        0 to 4, -1 if not known.
    """
    return int(hazard_class(np.asarray(hazard)))


def class_word(hazard: float) -> str:
    """
    Return the class of one hazard in words.

    Parameters
    ----------
    hazard : float
        Daily hazard index.

    Returns
    -------
    str
        As in the key.

    Examples
    --------
    >>> class_word(0.5), class_word(float("nan"))
    ('High', 'Not known')
    """
    found = class_of(hazard)
    return NOT_KNOWN_WORD if found == NOT_KNOWN else CLASS_WORDS[found]
