"""How is a material formulated: what settles in a tank, and what goes in first?"""

from functools import cache

from geo.reference.number import read_rows
from geo.season.label import Label

# In the order of mixing that most guides give: dry before flowable before emulsion before solution,
# oil last (common practice, no source). The label's own order holds before it.
FORMS = ("wettable", "flowable", "emulsion", "solution", "oil")
SETTLING = ("wettable", "flowable")
# Two-letter codes of the international catalogue of formulations, and two that American labels
# write; from memory.
FORM_OF_CODE = {
    "WP": "wettable",
    "WG": "wettable",
    "WDG": "wettable",
    "DF": "wettable",
    "SC": "flowable",
    "SE": "flowable",
    "OD": "flowable",
    "EC": "emulsion",
    "EW": "emulsion",
    "SL": "solution",
    "SP": "solution",
    "SG": "solution",
}


@cache
def usual_forms() -> dict[str, str]:
    """
    Return how materials are usually formulated.

    Returns
    -------
    dict of str to str
        One of `FORMS`, by material; only those with a usual form, all assumed.
    """
    return {row["material"]: row["form"] for row in read_rows("materials") if row["form"]}


def form_of(material: str, label: Label | None) -> str | None:
    """
    Return how a material is formulated.

    Parameters
    ----------
    material : str
        As in the table.
    label : Label or None
        The user's row of it.

    Returns
    -------
    str or None
        By the label, else the usual one; None where neither tells.

    Examples
    --------
    >>> form_of("sulfur", None), form_of("sulfur", Label("sulfur", formulation="SC"))
    ('wettable', 'flowable')
    """
    code = "" if label is None else label.formulation
    return FORM_OF_CODE.get(code) or usual_forms().get(material)


def is_settling(material: str, label: Label | None) -> bool | None:
    """
    Return whether a material settles in a tank that is not stirred.

    Parameters
    ----------
    material : str
        As in the table.
    label : Label or None
        The user's row of it.

    Returns
    -------
    bool or None
        None where its form is not known.
    """
    form = form_of(material, label)
    return None if form is None else form in SETTLING
