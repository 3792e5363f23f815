"""What a labelled material would do in a block, in plain sentences: a suggestion, never more."""

from collections.abc import Sequence
from functools import reduce

from geo.ranking.sentences import two_digits
from geo.rounds.materials import Effect, Labelled
from geo.texts import mark, phrase, phrase_of
from geo.texts.days import hour_words

NEED_LABELS = mark(
    "Suggestions need your own label file: name it as labels in farm.toml, a row for each material "
    "you may use."
)
CHECK = mark("Check the label.")


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
        said = phrase("Closed today: {rule}.", rule=material.closed_by[place])
    elif effect.expected <= 0.0:
        said = phrase(
            "Open today, but not known to act on {disease}.",
            disease=phrase_of(effect.disease.name),
        )
    else:
        said = phrase(
            "Suggest: passes every rule that was asked, open from {start}.",
            start=hour_words(start),
        )
    return " ".join([said, *_tail(material, effect, place), phrase_of(CHECK)])


def _tail(material: Labelled, effect: Effect, place: int) -> list[str]:
    told = []
    if effect.expected > 0.0:
        told.append(_effect_words(effect))
    if len(material.codes) > 1:
        told.append(
            phrase(
                "Of the premix only {material} is counted.", material=phrase_of(material.material)
            )
        )
    if material.cautions[place]:
        told.append(phrase("Caution: {caution}.", caution=material.cautions[place]))
    if material.uses[place]:
        told.append(phrase("With this spray: {uses}.", uses=material.uses[place]))
    return told


def _effect_words(effect: Effect) -> str:
    """Return how much a material prevents, with its doubt, and what that rests on."""
    low, expected, high = map(two_digits, (effect.low, effect.expected, effect.high))
    return phrase(
        "Against {disease} it prevents {expected} ({low} to {high}; efficacy {standing}) of "
        "infections when fresh.",
        disease=phrase_of(effect.disease.name),
        expected=expected,
        low=low,
        high=high,
        standing=phrase_of(effect.standing),
    )


def tank_words(materials: Sequence[str]) -> str:
    """
    Return what is in a tank, to stand within a sentence.

    Parameters
    ----------
    materials : sequence of str
        Active ingredients: one at least.

    Returns
    -------
    str
        In the order given.

    Examples
    --------
    >>> tank_words(("copper", "mineral oil"))
    'copper with mineral oil'
    """
    return reduce(
        lambda tank, material: phrase("{tank} with {material}", tank=tank, material=material),
        map(phrase_of, materials),
    )


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
