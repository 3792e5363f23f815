"""Why, in one plain sentence."""

from collections.abc import Iterable
from math import isnan

import numpy as np

from geo.ranking.comparison import Comparison, FactorRatio

# Below this a factor is not worth naming: a tenth is within the doubt of every one of them.
WORTH_NAMING = 1.1
MOST_NAMED = 3  # our own choice: more is not read in the field

MORE = {
    "site weather": "its weather favours mildew more",
    "cool pool": "its cool pool favours mildew more",
    "cultivar": "its cultivars are more susceptible",
    "stage": "more of its bloom is at a susceptible stage",
    "age": "its age weighs more",
    "home inoculum": "more of its own panicles carry mildew",
    "neighbours": "more spores blow in from its neighbours",
    "unprotected share": "less protection is left on it",
}
LESS = {
    "site weather": "its weather favours mildew less",
    "cool pool": "its cool pool favours mildew less",
    "cultivar": "its cultivars are less susceptible",
    "stage": "less of its bloom is at a susceptible stage",
    "age": "its age weighs less",
    "home inoculum": "fewer of its own panicles carry mildew",
    "neighbours": "fewer spores blow in from its neighbours",
    "unprotected share": "more protection is left on it",
}
ZERO = {
    "site weather": "no hour ahead favours mildew",
    "stage": "no tissue is at a susceptible stage",
}


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
    named = _named(comparison.rows, rises=rises)[:MOST_NAMED]
    against_it = _named(comparison.rows, rises=not rises)[:1]
    head = f"{two_digits(comparison.ratio)} times {comparison.against}"
    if not named:
        return f"{head}: no single factor stands out."
    turn = f"; yet {against_it[0]}" if against_it else ""
    return f"{head}: {', '.join(named)}{turn}."


def _without_ratio(comparison: Comparison) -> str:
    """Return the sentence for two blocks without a ratio to speak of, else nothing."""
    if isnan(comparison.hazard):
        return "Hazard not known: its weather is missing."
    if comparison.hazard == 0:
        return _nothing_to_fear(comparison)
    if isnan(comparison.against_hazard):
        return f"The hazard of {comparison.against} is not known, so there is no ratio to it."
    if comparison.against_hazard == 0:
        return f"{comparison.against} has no hazard ahead, so there is no ratio to it."
    if comparison.block == comparison.against:
        return "This is the block that it is held against."
    return ""


def _named(rows: Iterable[FactorRatio], *, rises: bool) -> list[str]:
    """Return the factors worth naming that push one way, the strongest first."""
    turned = 1.0 if rises else -1.0
    strength = {row: row.ratio**turned for row in rows if row.ratio > 0}
    largest = sorted(strength, key=strength.__getitem__, reverse=True)
    return [
        f"{_words(row, rises=rises)} ({times(row.ratio)})"
        for row in largest
        if strength[row] >= WORTH_NAMING
    ]


def _words(row: FactorRatio, *, rises: bool) -> str:
    if row.factor.standing == "measured" and row.standing == "assumed":
        amount = "more" if rises else "less"
        return f"{amount} mildew on its panicles, as far as anyone counted"
    return (MORE if rises else LESS)[row.factor.name]


def _nothing_to_fear(comparison: Comparison) -> str:
    reasons = [
        ZERO[row.factor.name]
        for row in comparison.rows
        if row.value == 0 and row.factor.name in ZERO
    ]
    return f"No hazard ahead: {', '.join(reasons) or 'one of its factors is 0'}."
