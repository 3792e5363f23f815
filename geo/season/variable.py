"""What is said of a quantity once, for every room."""

from dataclasses import dataclass
from math import inf


@dataclass(frozen=True, slots=True)
class Variable:
    """
    A quantity of the season.

    Attributes
    ----------
    name : str
        The word used for it everywhere, without its unit.
    unit : str
        Its one unit.
    dims : tuple of str
        Its dimensions, in order.
    meaning : str
        One sentence for the glossary.
    low, high : float
        The range outside which a value is a fault of ours.
    """

    name: str
    unit: str
    dims: tuple[str, ...]
    meaning: str
    low: float = -inf
    high: float = inf
