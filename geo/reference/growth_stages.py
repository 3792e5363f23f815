"""Stages of the panicle (BBCH codes as text): their order in time and what they mean for mildew."""

from dataclasses import dataclass
from functools import cache

from geo.reference.number import numbers, subjects

TABLE = "growth_stages"


@dataclass(frozen=True, slots=True)
class GrowthStage:
    """
    A stage of the panicle.

    Attributes
    ----------
    code : str
        BBCH code, three digits, as text.
    meaning : str
        In words.
    progress : float
        Days at the reference warmth since bud swelling.
    susceptibility : float
        To panicle mildew, 0 to 1.
    size : float
        Share of the full-grown panicle.
    """

    code: str
    meaning: str
    progress: float
    susceptibility: float
    size: float


@cache
def growth_stages() -> dict[str, GrowthStage]:
    """
    Return the stages in the order of time.

    Returns
    -------
    dict of str to GrowthStage
        By code.
    """
    table = numbers(TABLE)
    codes = [subject for subject in subjects(TABLE) if subject.isdigit()]
    return {
        code: GrowthStage(
            code=code,
            meaning=table[code, "progress"].note.split(";")[0],
            progress=table[code, "progress"].value,
            susceptibility=table[code, "panicle_mildew_susceptibility"].value,
            size=table[code, "panicle_size"].value,
        )
        for code in codes
    }
