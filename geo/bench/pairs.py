"""Two ways to the same end, timed in turn so that a busy machine slows both."""

from collections.abc import Callable
from statistics import median
from time import perf_counter

PAIRS = 5


def ratio(first: Callable[[], object], second: Callable[[], object], *, pairs: int = PAIRS) -> str:
    """
    Return how many times as long the first takes as the second.

    Parameters
    ----------
    first, second : callable
        Both run once before anything counts.
    pairs : int
        How often both run, one after the other.

    Returns
    -------
    str
        Median of the pairs' ratios, with the lowest and the highest.
    """
    first(), second()
    ratios = sorted(_seconds(first) / _seconds(second) for _ in range(pairs))
    return f"{median(ratios):.3g} ({ratios[0]:.3g} to {ratios[-1]:.3g} in {pairs} pairs)"


def _seconds(deed: Callable[[], object]) -> float:
    start = perf_counter()
    deed()
    return perf_counter() - start
