"""What of the user's label file could be sprayed in each block, as the page reads it."""

from collections.abc import Sequence
from typing import Any

from geo.exports.page_orders import finite
from geo.reference.diseases import DISEASES
from geo.rounds.material_words import CHECK, NEED_LABELS
from geo.rounds.materials import Labelled
from geo.texts import phrase_of
from geo.texts.days import hour_words


def materials_data(materials: Sequence[Labelled] | None) -> dict[str, Any]:
    """
    Return what each labelled material may do in each block.

    Parameters
    ----------
    materials : sequence of Labelled or None
        Of the user's label file; None where the farm has none.

    Returns
    -------
    dict
        ``words`` are said of many blocks, so blocks name them by their place among them; -1 is
        nothing. Effects are in the order of the materials, by the key of the disease.
    """
    if materials is None:
        return {
            "need": phrase_of(NEED_LABELS),
            "materials": [],
            "words": [],
            "effects": {},
            "check": phrase_of(CHECK),
        }
    words: dict[str, int] = {}

    def places(texts: Sequence[str]) -> list[int]:
        return [words.setdefault(text, len(words)) if text else -1 for text in texts]

    told = [
        {
            "name": phrase_of(material.material),
            "codes": "+".join(material.codes),
            "premix": len(material.codes) > 1,
            "open": places([hour_words(one) if one else "" for one in material.open_from]),
            "closed": places(material.closed_by),
            "uses": places(material.uses),
            "cautions": places(material.cautions),
        }
        for material in materials
    ]
    return {
        "need": "",
        "materials": told,
        "words": list(words),
        "effects": {
            disease.key: [_effect(material, disease.key) for material in materials]
            for disease in DISEASES
        },
        "check": phrase_of(CHECK),
    }


def _effect(material: Labelled, disease: str) -> dict[str, Any]:
    effect = material.against(disease)
    return {
        "low": finite(effect.low),
        "expected": finite(effect.expected),
        "high": finite(effect.high),
        "standing": effect.standing,
    }
