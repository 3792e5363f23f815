"""The four diseases: organ and disease are always named together."""

from geo.reference.diseases import DISEASES, disease_with


def test_every_key_leads_to_its_disease() -> None:
    assert [disease_with(disease.key) for disease in DISEASES] == list(DISEASES)


def test_every_name_says_disease_and_organ() -> None:
    assert all(disease.name.startswith(f"{disease.agent} on ") for disease in DISEASES)
