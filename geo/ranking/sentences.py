"""Why, in one plain sentence."""

from collections.abc import Iterable
from math import isnan

import numpy as np

from geo.ranking.comparison import Comparison, FactorRatio
from geo.ranking.factor_words import change_words, uncounted_words, zero_words
from geo.reference.diseases import Disease
from geo.texts import listed, phrase

# Below this a factor is not worth naming: a tenth is within the doubt of every one of them.
WORTH_NAMING = 1.1
MOST_NAMED = 3  # our own choice: more is not read in the field


def times(ratio: float) -> str:
    """
    Return a ratio as people say it.

    Parameters
    ----------
    ratio : float
        Not negative.

    Returns
    -------
    str
        Two significant digits.

    Examples
    --------
    >>> times(12.48), times(0.354), times(1.0)
    ('× 12', '× 0.35', '× 1.0')
    """
    return f"× {two_digits(ratio)}"


def two_digits(number: float) -> str:
    """
    Return a number to two significant digits, without an exponent.

    Parameters
    ----------
    number : float
        Not negative.

    Returns
    -------
    str
        More digits would claim more than anyone knows.

    Examples
    --------
    >>> two_digits(148.2), two_digits(2.34), two_digits(0.0000123)
    ('148', '2.3', '0.000012')
    """
    if number >= 9.95:  # noqa: PLR2004 - from here two digits have no decimals
        return f"{number:.0f}"
    if number >= 0.995:  # noqa: PLR2004 - from here they have one
        return f"{number:.1f}"
    return np.format_float_positional(number, precision=2, fractional=False, trim="-")


def because(comparison: Comparison) -> str:
    """
    Return the sentence that says why one block's hazard is what it is against another's.

    Parameters
    ----------
    comparison : Comparison
        The two blocks.

    Returns
    -------
    str
        One sentence that names at most three factors, the largest first.
    """
    without_ratio = _without_ratio(comparison)
    if without_ratio:
        return without_ratio
    rises = comparison.ratio >= 1
    named = _named(comparison.rows, comparison.disease, rises=rises)[:MOST_NAMED]
    against_it = _named(comparison.rows, comparison.disease, rises=not rises)[:1]
    head = {"times": two_digits(comparison.ratio), "against": comparison.against}
    if not named:
        return phrase("{times} times {against}: no single factor stands out.", **head)
    reasons = listed(named, last="comma")
    if not against_it:
        return phrase("{times} times {against}: {reasons}.", reasons=reasons, **head)
    return phrase(
        "{times} times {against}: {reasons}; yet {reason}.",
        reasons=reasons,
        reason=against_it[0],
        **head,
    )


def _without_ratio(comparison: Comparison) -> str:
    """Return the sentence for two blocks without a ratio to speak of, else nothing."""
    if isnan(comparison.hazard):
        return phrase("Hazard not known: its weather is missing.")
    if comparison.hazard == 0:
        return _nothing_to_fear(comparison)
    if isnan(comparison.against_hazard):
        return phrase(
            "The hazard of {block} is not known, so there is no ratio to it.",
            block=comparison.against,
        )
    if comparison.against_hazard == 0:
        return phrase(
            "{block} has no hazard ahead, so there is no ratio to it.", block=comparison.against
        )
    if comparison.block == comparison.against:
        return phrase("This is the block that it is held against.")
    return ""


def _named(rows: Iterable[FactorRatio], disease: Disease, *, rises: bool) -> list[str]:
    """Return the factors worth naming that push one way, the strongest first."""
    turned = 1.0 if rises else -1.0
    strength = {row: row.ratio**turned for row in rows if row.ratio > 0}
    largest = sorted(strength, key=strength.__getitem__, reverse=True)
    return [
        f"{_words(row, disease, rises=rises)} ({times(row.ratio)})"
        for row in largest
        if strength[row] >= WORTH_NAMING
    ]


def _words(row: FactorRatio, disease: Disease, *, rises: bool) -> str:
    if row.factor.standing == "measured" and row.standing == "assumed":
        return uncounted_words(disease, rises=rises)
    return change_words(row.factor.name, disease, rises=rises)


def _nothing_to_fear(comparison: Comparison) -> str:
    reasons = [
        zero_words(row.factor.name, comparison.disease) for row in comparison.rows if row.value == 0
    ]
    named = listed(filter(None, reasons), last="comma")
    if not named:
        return phrase("No hazard ahead: one of its factors is 0.")
    return phrase("No hazard ahead: {reasons}.", reasons=named)
