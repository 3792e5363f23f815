"""Which material of the user's label file could be sprayed in which block today, as CSV."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from geo.exports.farm_title import scenario_words
from geo.exports.files import write_text
from geo.exports.order_tables import LEVEL, as_csv, hour_text
from geo.reference.diseases import DISEASES
from geo.rounds.material_words import material_words
from geo.rounds.materials import Labelled
from geo.season.farm import Farm
from geo.texts import phrase_of

EFFECTS = ("expected", "low", "high", "standing", "source", "note")
COLUMNS = (
    "farm",
    "today",
    "block_id",
    "name",
    "material",
    "frac_codes",
    "passes_every_rule_asked",
    "first_open",
    "closed_by",
    "uses",
    "cautions",
    *(f"{disease.key} effect {name}" for disease in DISEASES for name in EFFECTS),
    "for_disease",
    "sentence",
    "honesty_level",
    "scenario",
)


def write_materials(path: Path, *, farm: Farm, materials: Sequence[Labelled]) -> None:
    """
    Write one row a block and labelled material.

    Parameters
    ----------
    path : pathlib.Path
        Of the CSV.
    farm : Farm
        For the blocks, and for the disease that the sentences are about.
    materials : sequence of Labelled
        Of the user's label file; without one the table has no rows.
    """
    write_text(path, as_csv(COLUMNS, _rows(farm, materials)))


def _rows(farm: Farm, materials: Sequence[Labelled]) -> Iterator[list[object]]:
    disease = farm.settings.disease
    names = [str(name) for name in farm.blocks["name"]]
    effects = [
        [getattr(effect, name) for effect in material.effects for name in EFFECTS]
        for material in materials
    ]
    for place, block in enumerate(farm.blocks.index.tolist()):
        for material, told in zip(materials, effects, strict=True):
            start = material.open_from[place]
            yield [
                farm.name, farm.today, block, names[place], material.material,
                "+".join(material.codes), "yes" if start else "no", hour_text(start),
                material.closed_by[place], material.uses[place], material.cautions[place], *told,
                disease, material_words(material, place, disease), phrase_of(LEVEL),
                scenario_words(farm),
            ]  # fmt: skip
