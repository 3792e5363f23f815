"""The four diseases: organ and disease are always named together."""

from geo.reference.diseases import DISEASES, disease_named, disease_with
from geo.texts import phrase_of, speaking


def test_every_key_leads_to_its_disease() -> None:
    assert [disease_with(disease.key) for disease in DISEASES] == list(DISEASES)


def test_every_name_says_disease_and_organ() -> None:
    assert all(disease.name.startswith(f"{disease.agent} on ") for disease in DISEASES)


def test_a_disease_is_known_by_its_name_in_english_and_in_the_language_spoken() -> None:
    with speaking("es"):
        for disease in DISEASES:
            for name in (disease.key, disease.name, phrase_of(disease.name).upper()):
                assert disease_named(name) == disease
    assert disease_named("oídio en hojas") is None
