"""How susceptible cultivars are: priors with an interval, never constants."""

from dataclasses import dataclass
from functools import cache
from math import log

from geo.reference.diseases import DISEASES, disease_with
from geo.reference.number import Number, numbers, subjects

TABLE = "cultivars"
# A prior's low and high are read as its middle 90 %, which for a normal logarithm are 2 x 1.645
# standard deviations apart.
STANDARD_DEVIATIONS_IN_MIDDLE_90_PERCENT = 3.29
UNKNOWN = "unknown"
AT_ODDS = 0.5  # ratings further apart than from "very" to "moderate" contradict (our choice)
FIRST = DISEASES[0].key  # what is meant where no disease is named


@dataclass(frozen=True, slots=True)
class Rating:
    """
    What one source says, kept beside the others however they differ.

    Attributes
    ----------
    source : str
        Key in ``sources.csv``.
    words : str
        In the source's own terms.
    value : float
        The same from 0, most resistant, to 1; how it was turned into that stands in ``scale``.
    scale : str
        How the words became a number.
    """

    source: str
    words: str
    value: float
    scale: str


@dataclass(frozen=True, slots=True)
class Cultivar:
    """
    A cultivar's rating for one disease.

    Attributes
    ----------
    name : str
        As in the table.
    susceptibility : float
        0 to 1, 1 the most susceptible.
    doubt : float
        Standard deviation of its logarithm.
    tolerance : tuple of float
        Share of the loss that an infected panicle or fruit is spared: low, middle and high.
    note : str
        Where ratings agree and where not.
    ratings : tuple of Rating
        What each source says. Empty where none or only one was found.
    """

    name: str
    susceptibility: float
    doubt: float
    tolerance: tuple[float, float, float]
    note: str
    ratings: tuple[Rating, ...]

    @property
    def are_at_odds(self) -> bool:
        """
        Tell whether sources contradict each other about the cultivar.

        Returns
        -------
        bool
            True if one's rating is more than half of the scale above another's.
        """
        said = [rating.value for rating in self.ratings]
        return bool(said) and max(said) - min(said) > AT_ODDS


@cache
def cultivars(disease: str = FIRST) -> dict[str, Cultivar]:
    """
    Return the cultivars of the table by name.

    Parameters
    ----------
    disease : str
        Key of the disease.

    Returns
    -------
    dict of str to Cultivar
        In the table's order; ``unknown`` is the last. One without a rating for this disease has
        the unknown's.
    """
    return {name: _cultivar(name, disease) for name in subjects(TABLE)}


def cultivar(name: str, disease: str = FIRST) -> Cultivar:
    """
    Return a cultivar's rating, neutral and wide if it is not in the table.

    Parameters
    ----------
    name : str
        As the user wrote it; case does not matter.
    disease : str
        Key of the disease.

    Returns
    -------
    Cultivar
        Never fails.

    Examples
    --------
    >>> cultivar("keitt").susceptibility, cultivar("keitt", "fruit_anthracnose").susceptibility
    (0.6, 0.35)
    >>> cultivar("Grandfather's tree").name
    'unknown'
    """
    by_folded_name = {known.casefold(): known for known in cultivars(disease)}
    return cultivars(disease)[by_folded_name.get(name.strip().casefold(), UNKNOWN)]


def _cultivar(name: str, disease: str) -> Cultivar:
    prior = _row(name, f"{disease}_susceptibility")
    agent = disease_with(disease).agent.replace(" ", "_")
    tolerance = _row(name, f"{agent}_tolerance")
    prefix = f"{disease}_rating_by_"
    return Cultivar(
        name=name,
        susceptibility=prior.value,
        doubt=log(prior.high / prior.low) / STANDARD_DEVIATIONS_IN_MIDDLE_90_PERCENT,
        tolerance=(tolerance.low, tolerance.value, tolerance.high),
        note="; ".join(part for part in (prior.where, prior.note) if part),
        ratings=tuple(
            Rating(source=row.source, words=row.where, value=row.value, scale=row.note)
            for (who, quantity), row in numbers(TABLE).items()
            if who == name and quantity.startswith(prefix)
        ),
    )


def _row(name: str, quantity: str) -> Number:
    table = numbers(TABLE)
    return table.get((name, quantity), table[UNKNOWN, quantity])
