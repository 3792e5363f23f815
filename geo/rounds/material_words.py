"""What a labelled material would do in a block, in plain sentences: a suggestion, never more."""

from datetime import datetime

from geo.ranking.sentences import two_digits
from geo.rounds.materials import Effect, Labelled

NEED_LABELS = (
    "Suggestions need your own label file: name it as labels in farm.toml, a row for each material "
    "you may use."
)
CHECK = "Check the label."


def material_words(material: Labelled, place: int, disease: str) -> str:
    """
    Return what is said of a material in a block.

    Parameters
    ----------
    material : Labelled
        Of the user's label file.
    place : int
        Of the block.
    disease : str
        Key of the disease to spray against.

    Returns
    -------
    str
        Plain sentences that end with a look at the label.
    """
    effect, start = material.against(disease), material.open_from[place]
    if start is None:
        said = f"Closed today: {material.closed_by[place]}."
    elif effect.expected <= 0.0:
        said = f"Open today, but not known to act on {effect.disease.name}."
    else:
        said = f"Suggest: passes every rule that was asked, open from {_hour(start)}."
    return " ".join([said, *_tail(material, effect, place), CHECK])


def _tail(material: Labelled, effect: Effect, place: int) -> list[str]:
    told = []
    if effect.expected > 0.0:
        told.append(f"Against {effect.disease.name} it prevents {effect_words(effect)} when fresh.")
    if len(material.codes) > 1:
        told.append(f"Of the premix only {material.material} is counted.")
    if material.cautions[place]:
        told.append(f"Caution: {material.cautions[place]}.")
    if material.uses[place]:
        told.append(f"With this spray: {material.uses[place]}.")
    return told


def effect_words(effect: Effect) -> str:
    """
    Return how much of the infections a material prevents.

    Parameters
    ----------
    effect : Effect
        Of the material.

    Returns
    -------
    str
        Expected share with its doubt, and what it rests on.
    """
    low, expected, high = map(two_digits, (effect.low, effect.expected, effect.high))
    return f"{expected} ({low} to {high}; efficacy {effect.standing}) of infections"


def by_use(materials: tuple[Labelled, ...], place: int, disease: str) -> list[Labelled]:
    """
    Return the materials as they are listed for a block.

    Parameters
    ----------
    materials : tuple of Labelled
        Of the user's label file.
    place : int
        Of the block.
    disease : str
        Key of the disease to spray against.

    Returns
    -------
    list of Labelled
        Those that pass every rule first, and of them what does most; nothing is left out.
    """
    return sorted(
        materials,
        key=lambda one: (one.open_from[place] is None, -one.against(disease).expected),
    )


def _hour(moment: datetime) -> str:
    return f"{moment:%Y-%m-%d %H:%M}"
