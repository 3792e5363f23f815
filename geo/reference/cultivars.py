"""How susceptible cultivars are: priors with an interval, never constants."""

from dataclasses import dataclass
from functools import cache
from math import log

from geo.reference.number import numbers

# A prior's low and high are read as its middle 90 %, which for a normal logarithm are 2 x 1.645
# standard deviations apart.
STANDARD_DEVIATIONS_IN_MIDDLE_90_PERCENT = 3.29
UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Cultivar:
    """
    A cultivar's rating.

    Attributes
    ----------
    name : str
        As in the table.
    susceptibility : float
        0 to 1, 1 the most susceptible.
    doubt : float
        Standard deviation of its logarithm.
    note : str
        Where ratings agree and where not.
    """

    name: str
    susceptibility: float
    doubt: float
    note: str


@cache
def cultivars() -> dict[str, Cultivar]:
    """
    Return the cultivars of the table by name.

    Returns
    -------
    dict of str to Cultivar
        In the table's order; ``unknown`` is the last.
    """
    return {
        name: Cultivar(
            name=name,
            susceptibility=rating.value,
            doubt=log(rating.high / rating.low) / STANDARD_DEVIATIONS_IN_MIDDLE_90_PERCENT,
            note="; ".join(part for part in (rating.where, rating.note) if part),
        )
        for (name, _), rating in numbers("cultivars").items()
    }


def cultivar(name: str) -> Cultivar:
    """
    Return a cultivar's rating, neutral and wide if it is not in the table.

    Parameters
    ----------
    name : str
        As the user wrote it; case does not matter.

    Returns
    -------
    Cultivar
        Never fails.

    Examples
    --------
    >>> cultivar("keitt").susceptibility
    0.6
    >>> cultivar("Grandfather's tree").name
    'unknown'
    """
    by_folded_name = {known.casefold(): rating for known, rating in cultivars().items()}
    return by_folded_name.get(name.strip().casefold(), cultivars()[UNKNOWN])
