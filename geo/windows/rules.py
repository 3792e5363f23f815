"""Which numbers do the rules go by, and where is each of them from?"""

from geo.reference.number import numbers, said
from geo.season.farm import Farm
from geo.texts import mark, phrase
from geo.windows.gate import Rule

TABLE = "spray_rules"
ON_THE_LABEL = mark("from your own label file; the label holds")


def rule_of(key: str, title: str, *, number: tuple[str, str], is_caution: bool = False) -> Rule:
    """
    Return a rule that goes by a number of the reference table.

    Parameters
    ----------
    key : str
        Id of the rule.
    title : str
        What it is about, said already.
    number : tuple of two str
        Subject and quantity of its limit.
    is_caution : bool
        Whether it only warns.

    Returns
    -------
    Rule
        With what is known of the limit.
    """
    found = numbers(TABLE)[number]
    parts = [said(part) for part in (found.where, found.note) if part]
    if found.standing == "published":
        parts.append(found.source)
    standing = "; ".join(parts)
    return Rule(key, title, found.value, found.unit, standing, is_caution)


def heat_limit(farm: Farm) -> tuple[float, str]:
    """
    Return the heat limit for sulfur that holds on this farm, and where it comes from.

    Parameters
    ----------
    farm : Farm
        The user may have set a limit, with a reason.

    Returns
    -------
    float
        [degC] The limit.
    str
        In words.
    """
    settings = farm.settings
    if settings.sulfur_limit is not None:
        return settings.sulfur_limit, phrase(
            "set by the user: {reason}", reason=settings.sulfur_limit_reason
        )
    rule = numbers(TABLE)["sulfur", "heat_limit"]
    return rule.value, f"{said(rule.where)}; {said(rule.note)}"
