"""What goes into a tank in which order, and what to beware of until it is empty?"""

from collections.abc import Iterator, Sequence

from geo.errors import quoted
from geo.reference.forms import FORMS, form_of, is_settling
from geo.reference.number import numbers
from geo.rounds.day_round import Ingredient
from geo.rounds.rates import amount_of, rate_of
from geo.season.label import Label
from geo.texts import listed, phrase, phrase_of

TABLE = "rounds"


def ingredients_of_load(
    materials: Sequence[str], labels: Sequence[Label], *, hectares: float, litres: float
) -> tuple[Ingredient, ...]:
    """
    Return what goes into a load.

    Parameters
    ----------
    materials : sequence of str
        Active ingredients in the tank.
    labels : sequence of Label
        What the user's label file says.
    hectares : [ha]
        Sprayed from the load: a part load takes its part.
    litres : [L]
        Of the load.

    Returns
    -------
    tuple of Ingredient
        In the order of mixing; what is not known of a rate is no amount.
    """
    told = []
    for material in mixing_order(materials, labels):
        rate = rate_of(_label(material, labels))
        if rate is None:
            told.append(Ingredient(material=material, amount=None, unit=""))
            continue
        amount = amount_of(rate, hectares=hectares, litres=litres)
        told.append(Ingredient(material=material, amount=amount, unit=rate.unit))
    return tuple(told)


def mixing_order(materials: Sequence[str], labels: Sequence[Label]) -> tuple[str, ...]:
    """
    Return the order in which materials go into the water.

    Parameters
    ----------
    materials : sequence of str
        Active ingredients in the tank.
    labels : sequence of Label
        What the user's label file says of how they are formulated.

    Returns
    -------
    tuple of str
        Each once, dry ones first and oil last; of one form in the order given; those of unknown
        form at the end.
    """

    def place(material: str) -> int:
        form = form_of(material, _label(material, labels))
        return len(FORMS) if form is None else FORMS.index(form)

    return tuple(sorted(dict.fromkeys(materials), key=place))


def mixing_notes(materials: Sequence[str], labels: Sequence[Label]) -> tuple[str, ...]:
    """
    Return what to beware of when a tank is mixed and driven.

    Parameters
    ----------
    materials : sequence of str
        Active ingredients in the tank.
    labels : sequence of Label
        What the user's label file says.

    Returns
    -------
    tuple of str
        Plain sentences, the order of mixing first.
    """
    order = mixing_order(materials, labels)
    return (*_order_notes(order, labels), *_settling_notes(order, labels))


def label_notes(materials: Sequence[str], labels: Sequence[Label]) -> tuple[str, ...]:
    """
    Return what the label file leaves open of a tank, or asks to be watched.

    Parameters
    ----------
    materials : sequence of str
        Active ingredients in the tank.
    labels : sequence of Label
        What the user's label file says.

    Returns
    -------
    tuple of str
        Plain sentences: rates first, then formulations.
    """
    order = mixing_order(materials, labels)
    return (
        *(note for material in order for note in _rate_notes(material, labels)),
        *_form_notes(order, labels),
    )


def standing_caution(
    materials: Sequence[str], labels: Sequence[Label], *, minutes: float
) -> str | None:
    """
    Return a warning if a loaded tank stands too long.

    Parameters
    ----------
    materials : sequence of str
        Active ingredients in the tank.
    labels : sequence of Label
        What the user's label file says.
    minutes : [min]
        That the loaded tank stands.

    Returns
    -------
    str or None
        None where it stands no longer than is assumed to do no harm, or nothing in it settles.
    """
    most = numbers(TABLE)["tank", "loaded_wait"].value
    settling = [one for one in materials if is_settling(one, _label(one, labels)) is not False]
    if minutes <= most or not settling:
        return None
    return phrase(
        "The loaded tank stands {minutes:.0f} min (more than {most:.0f}, assumed): {materials} may "
        "settle.",
        minutes=minutes,
        most=most,
        materials=_listed(settling),
    )


def may_carry(materials: Sequence[str], *, keeps_stirred: bool | None) -> bool | None:
    """
    Return whether a sprayer may carry what is in the tank.

    Parameters
    ----------
    materials : sequence of str
        Active ingredients in the tank.
    keeps_stirred : bool or None
        Whether its tank is kept stirred; None where it is not known.

    Returns
    -------
    bool or None
        False if one of them needs stirring (as the gate of agitation has it) and gets none; None
        if that is not known.
    """
    rules = numbers("spray_rules")
    is_needed = any((material, "needs_agitation") in rules for material in materials)
    return keeps_stirred if is_needed else True


def _label(material: str, labels: Sequence[Label]) -> Label | None:
    return next((label for label in labels if label.material == material), None)


def _order_notes(order: Sequence[str], labels: Sequence[Label]) -> Iterator[str]:
    yield phrase(
        "Order of mixing (common practice; the order on the label comes first): half the water, "
        "stirring, {materials}, the rest of the water.",
        materials=", ".join(map(phrase_of, order)),
    )
    if any(form_of(one, _label(one, labels)) == "wettable" for one in order):
        yield phrase(
            "Stir powders into a little water before they go in; granules go in as they are."
        )
    if len(order) > 1:
        yield phrase("Try the mixture in a jar first, in the proportions of the tank.")


def _form_notes(order: Sequence[str], labels: Sequence[Label]) -> Iterator[str]:
    unknown = [one for one in order if form_of(one, _label(one, labels)) is None]
    if unknown:
        yield phrase(
            "How {materials} is formulated is not known, and so its place in the order and whether "
            "it settles: write its formulation (WP, WG, SC, EC, SL) into the label file.",
            materials=_listed(unknown),
        )


def _rate_notes(material: str, labels: Sequence[Label]) -> Iterator[str]:
    label = _label(material, labels)
    rate = rate_of(label)
    if rate is None and label is not None and label.rate > 0.0 and label.rate_unit:
        yield phrase(
            "Unit {unit} of the rate of {material} is not understood, no amount is told: write "
            "kg/ha, L/ha, g/100 L or lb/acre.",
            unit=quoted(label.rate_unit),
            material=phrase_of(material),
        )
    elif rate is None:
        yield phrase(
            "No rate of {material} is known, no amount is told: copy rate and rate_unit from the "
            "label into the label file.",
            material=phrase_of(material),
        )
    elif rate.litres is not None:
        yield phrase(
            "The rate of {material} is for a volume of liquid: with less water a hectare gets less "
            "of it. Check the label.",
            material=phrase_of(material),
        )


def _settling_notes(order: Sequence[str], labels: Sequence[Label]) -> Iterator[str]:
    settling = [one for one in order if is_settling(one, _label(one, labels))]
    if settling:
        yield phrase(
            "Settles if it is not stirred: {materials}. Keep stirring from filling to the last "
            "row, on the road and at row ends too, and never park a loaded tank.",
            materials=_listed(settling),
        )


def _listed(materials: Sequence[str]) -> str:
    return listed([phrase_of(material) for material in materials])
