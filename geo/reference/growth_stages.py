"""Stages of panicle, fruit and leaf (BBCH codes as text): their order in time, what they mean."""

from dataclasses import dataclass
from functools import cache

from geo.reference.diseases import disease_with
from geo.reference.number import numbers, subjects, values

TABLE = "growth_stages"
# Fruit follows its panicle; leaves have a time scale of their own.
SCALE_OF_ORGAN = {"panicle": "panicle", "fruit": "panicle", "leaf": "leaf"}
# The second digit of a code tells successive flushes apart: 51x is the terminal bloom, 52x a later
# axillary one. The table holds the first; more than three in a season are not told apart.
FIRST_FLUSH, LATER_FLUSHES = "1", ("2", "3")


@dataclass(frozen=True, slots=True)
class GrowthStage:
    """
    A stage that somebody can write down.

    Attributes
    ----------
    code : str
        BBCH code, three digits, as text; or ``hardened`` for leaves, which have no code for it.
    meaning : str
        In words.
    scale : str
        ``panicle`` (with its fruit) or ``leaf``.
    flush : int
        Which of the successive flushes, from 1.
    progress : float
        Days at the reference warmth since the flush's bud swelled.
    """

    code: str
    meaning: str
    scale: str
    flush: int
    progress: float


@dataclass(frozen=True, slots=True)
class StageScale:
    """
    What the stages mean for a disease, along the time scale of its organ.

    Attributes
    ----------
    scale : str
        ``panicle`` or ``leaf``.
    progress : tuple of float
        Days at the reference warmth, in order.
    susceptibility : tuple of float
        To the disease there, 0 to 1.
    size : tuple of float
        Share of the full-grown organ there.
    unknown_susceptibility : float
        Where nobody wrote a stage down.
    base_temperature, reference_temperature : float
        Warmth in degC at which development stops, and that of a whole day of the scale.
    """

    scale: str
    progress: tuple[float, ...]
    susceptibility: tuple[float, ...]
    size: tuple[float, ...]
    unknown_susceptibility: float
    base_temperature: float
    reference_temperature: float


@cache
def growth_stages() -> dict[str, GrowthStage]:
    """
    Return the stages that a scout may write, each scale in the order of time.

    Returns
    -------
    dict of str to GrowthStage
        By code; those of later flushes follow the first's.
    """
    table = numbers(TABLE)
    found = {}
    for subject in subjects(TABLE):
        if (subject, "progress") not in table:
            continue
        row = table[subject, "progress"]
        for flush, code in enumerate(_codes(subject), start=1):
            found[code] = GrowthStage(
                code=code,
                meaning=row.note.split(";")[0],
                scale="leaf" if (subject, "leaf_size") in table else "panicle",
                flush=flush,
                progress=row.value,
            )
    return found


@cache
def stage_scale(disease: str) -> StageScale:
    """
    Return what the stages mean for a disease.

    Parameters
    ----------
    disease : str
        Key of the disease.

    Returns
    -------
    StageScale
        Along the time scale of its organ.

    Examples
    --------
    >>> stage_scale("leaf_mildew").base_temperature
    15.0
    """
    organ = disease_with(disease).organ
    scale = SCALE_OF_ORGAN[organ]
    table = numbers(TABLE)
    of_scale = (stage for stage in growth_stages().values() if stage.scale == scale)
    # Codes of shoot and leaf share places in time, where their numbers agree.
    stages = sorted(
        (stage for stage in of_scale if stage.flush == 1), key=lambda stage: stage.progress
    )
    clock = values(TABLE, scale)
    return StageScale(
        scale=scale,
        progress=tuple(stage.progress for stage in stages),
        susceptibility=tuple(
            table[stage.code, f"{disease}_susceptibility"].value for stage in stages
        ),
        size=tuple(table[stage.code, f"{organ}_size"].value for stage in stages),
        unknown_susceptibility=values(TABLE, organ)["unknown_susceptibility"],
        base_temperature=clock["base_temperature"],
        reference_temperature=clock["reference_temperature"],
    )


def _codes(first: str) -> tuple[str, ...]:
    """Return the code of the first flush and those of later ones; fruit has only one."""
    if not first.isdigit() or first[1] != FIRST_FLUSH:
        return (first,)
    return (first, *(f"{first[0]}{later}{first[2]}" for later in LATER_FLUSHES))
