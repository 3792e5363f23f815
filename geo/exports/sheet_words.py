"""What the day sheet says in words: cautions, amounts and names."""

import unicodedata
from collections.abc import Iterable
from datetime import date

from geo.reference.fungicides import fungicides
from geo.reference.number import numbers
from geo.rounds.day_round import Stop
from geo.season.farm import Farm
from geo.texts import mark

# Our own choice: a longer name does not fit a column of the sheet.
LONGEST_NAME = 80
# Joiners that scripts of India and Persia are written with.
_JOINERS = "\u200c\u200d"
_WHOLE_FROM = 100.0
# Printed each time. What is fact among them (metres, three days) is in spray_rules.csv with source.
CAUTIONS = (
    mark("Planning aid: the label is the law, and a licensed applicator decides."),
    mark("Check the label: product, crop, rate, re-entry, picking, uses left."),
    mark("Wear what the label asks. Wash water, data sheet, emergency number."),
    mark("Nobody in the exclusion zone (US airblast: 100 ft, 30 m): else stop."),
    mark("Measure wind and Delta T here, look for inversion; stop on a change."),
    mark("No drift onto water, houses, schools, hives, neighbours: keep away."),
    mark("Tell workers, pickers, beekeeper, neighbours first. Post the signs."),
    mark("Mix in order, jar-test, agitate. Never leave or park a loaded tank."),
    mark("Rinse in the field, never near water. Fill by a backflow preventer."),
    mark("In a mixture the longest re-entry and the longest wait to pick hold."),
    mark(
        "Sulfur burns in heat (3 days on too) and near oil; copper on wet leaves and in acid water."
    ),
    mark("Rain coming: stop at the row's end, note the row, rinse, ask again."),
    mark("Write the record after each tank: start, finish, wind, left out."),
)


def shown(text: object) -> str:
    r"""
    Return a name as it may be printed: without control characters, and not too long.

    Parameters
    ----------
    text : object
        As the user wrote it.

    Returns
    -------
    str
        At most 80 characters; nothing that turns the direction of writing, and no character that
        XML forbids. It still has to be escaped.

    Examples
    --------
    >>> shown("River\u202e bend\x07")
    'River bend'
    """
    spaced = ("".join(" " if c.isspace() else c for c in str(text))).strip()
    kept = "".join(c for c in spaced if c in _JOINERS or unicodedata.category(c)[0] != "C")
    return kept if len(kept) <= LONGEST_NAME else kept[: LONGEST_NAME - 1] + "…"


def block_names(farm: Farm) -> dict[str, str]:
    """
    Return what each block is called besides its id.

    Parameters
    ----------
    farm : Farm
        With its blocks.

    Returns
    -------
    dict of str to str
        By id; empty where the name says no more than the id.
    """
    pairs = zip(map(str, farm.blocks.index), map(str, farm.blocks["name"]), strict=True)
    return {block: "" if name == block else shown(name) for block, name in pairs}


def amount_words(amount: float, unit: str) -> str:
    """
    Return an amount as on the sheet.

    Parameters
    ----------
    amount : float
        Of product.
    unit : str
        Its unit.

    Returns
    -------
    str
        Three digits, and never fewer than the whole number.

    Examples
    --------
    >>> amount_words(1234.5, "g"), amount_words(2.5, "kg")
    ('1234 g', '2.5 kg')
    """
    number = f"{amount:.0f}" if amount >= _WHOLE_FROM else f"{amount:.3g}"
    return f"{number} {shown(unit)}".strip()


def pick_from(stop: Stop) -> date | None:
    """
    Return the first day on which a stop's rows may be picked.

    Parameters
    ----------
    stop : Stop
        With the ends that labels tell.

    Returns
    -------
    datetime.date or None
        Never before the day on which people may enter again; None where no label tells.
    """
    if stop.pre_harvest_ends is None or stop.re_entry_ends is None:
        return stop.pre_harvest_ends
    return max(stop.pre_harvest_ends, stop.re_entry_ends.date())


def codes_of(farm: Farm, material: str) -> tuple[str, ...]:
    """
    Return the FRAC codes of a material.

    Parameters
    ----------
    farm : Farm
        With what the user's labels say.
    material : str
        Active ingredient.

    Returns
    -------
    tuple of str
        The label's, else those of the list of materials; empty where neither knows it.
    """
    for label in farm.labels or ():
        if label.material == material and label.frac_codes:
            return label.frac_codes
    known = fungicides().get(material)
    return () if known is None else (known.frac_code,)


def settling(materials: Iterable[str]) -> list[str]:
    """
    Return the materials that settle in a tank that is not stirred.

    Parameters
    ----------
    materials : iterable of str
        In the tank.

    Returns
    -------
    list of str
        In the same order.
    """
    rules = numbers("spray_rules")
    return [material for material in materials if rules.get((material, "needs_agitation"))]
