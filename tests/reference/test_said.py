"""What the reference tables tell people is in the catalogue, part by part."""

import pytest

from geo.reference.cultivars import cultivars
from geo.reference.diseases import DISEASES
from geo.reference.fungicides import fungicides, reports
from geo.reference.growth_stages import growth_stages
from geo.reference.number import numbers, said
from geo.texts import language_of, speaking

SPANISH = language_of("es").sentences


def of_cultivars() -> list[str]:
    rated = [one for disease in DISEASES for one in cultivars(disease.key).values()]
    return [rating.words for one in rated for rating in one.ratings]


def of_materials() -> list[str]:
    known = [row for one in fungicides().values() for row in one.efficacy.values()]
    known += [row for material in fungicides() for row in reports(material).values()]
    return [words for row in known for words in (row.where, row.note) if words]


def of_rules() -> list[str]:
    rows = numbers("spray_rules").values()
    return [words for row in rows for words in (row.where, row.note) if words]


def of_stages() -> list[str]:
    return [stage.meaning for stage in growth_stages().values()]


@pytest.mark.parametrize("found", [of_cultivars, of_materials, of_rules, of_stages])
def test_every_part_of_what_is_shown_is_translated(found) -> None:
    parts = {part for words in found() for part in words.split("; ")}
    assert parts
    assert parts <= SPANISH.keys()


def test_parts_are_said_one_by_one() -> None:
    words = "common practice, no source; a word of the user"
    assert said(words) == words
    with speaking("es"):
        assert said(words) == "práctica común, sin fuente; a word of the user"
