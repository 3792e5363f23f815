"""A published or assumed number with everything that vouches for it, and the tables of them."""

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from geo.errors import SourceError
from geo.texts import mark, phrase_of

# The parameter set: every table of numbers.
TABLES = (
    "mildew",
    "anthracnose",
    "growth_stages",
    "cultivars",
    "fungicides",
    "microclimate",
    "dispersal",
    "spray_rules",
    "epidemic",
    "rival_rules",
    "scouting",
    "rounds",
)
STANDINGS = (mark("measured"), mark("published"), mark("label"), mark("assumed"))
UNITS = frozenset(
    {
        "1",
        "%",
        "K",
        "K m-1",
        "K s m-1",
        "W m-2",
        "a",
        "d",
        "d-1",
        "degC",
        "degree",
        "degree-1",
        "h",
        "m",
        "m-1",
        "m2",
        "m s-1",
        "km h-1",
        "min",
        "mm",
        "mm-1",
        "s",
    }
)


@dataclass(frozen=True, slots=True)
class Number:
    """
    One number of a reference table.

    Attributes
    ----------
    value : float
        In ``unit``.
    unit : str
        One of `UNITS`.
    low, high : float
        Plausible range; equal to the value where the table gives none.
    source : str
        Key in ``sources.csv``.
    where : str
        Page, table or words in the source.
    standing : str
        One of `STANDINGS`.
    note : str
        Doubts. Never empty for an assumed number.
    """

    value: float
    unit: str
    low: float
    high: float
    source: str
    where: str
    standing: str
    note: str


@cache
def sources() -> dict[str, dict[str, str]]:
    """
    Return the list of sources by key.

    Returns
    -------
    dict of str to dict
        Columns of ``sources.csv``.
    """
    return {row["source"]: row for row in read_rows("sources")}


@cache
def numbers(table: str) -> dict[tuple[str, str], Number]:
    """
    Return a reference table by subject and quantity.

    Parameters
    ----------
    table : str
        File name without its ending.

    Returns
    -------
    dict of tuple to Number
        Keys are (subject, quantity).

    Raises
    ------
    SourceError
        If a row has no known source, unit or standing, or lies outside its own range.
    """
    return {(row["subject"], row["quantity"]): _number(row, table) for row in read_rows(table)}


def values(table: str, subject: str) -> dict[str, float]:
    """
    Return the bare values of one subject, for a kernel's arguments.

    Parameters
    ----------
    table : str
        File name without its ending.
    subject : str
        As in the table's first column.

    Returns
    -------
    dict of str to float
        By quantity.
    """
    return {what: found.value for (who, what), found in numbers(table).items() if who == subject}


def subjects(table: str) -> tuple[str, ...]:
    """
    Return who or what a table is about, in its own order.

    Parameters
    ----------
    table : str
        File name without its ending.

    Returns
    -------
    tuple of str
        Each subject once.
    """
    return tuple(dict.fromkeys(subject for subject, _ in numbers(table)))


def read_rows(table: str) -> list[dict[str, str]]:
    """
    Return the rows of a reference table as they stand.

    Parameters
    ----------
    table : str
        File name without its ending.

    Returns
    -------
    list of dict
        Column to text.
    """
    with (files("geo.reference") / "tables" / f"{table}.csv").open(encoding="utf-8") as lines:
        return list(csv.DictReader(lines))


def said(words: str) -> str:
    """
    Return what stands in a table's column of words, in the language spoken.

    Parameters
    ----------
    words : str
        Such as a number's ``where`` or ``note``.

    Returns
    -------
    str
        Part by part, as semicolons part them: many rows share parts.
    """
    return "; ".join(phrase_of(part) for part in words.split("; "))


def _number(row: dict[str, str], table: str) -> Number:
    value = float(row["value"])
    number = Number(
        value=value,
        unit=row["unit"],
        low=float(row["low"] or value),
        high=float(row["high"] or value),
        source=row["source"],
        where=row["where"],
        standing=row["standing"],
        note=row["note"],
    )
    faults = [
        fault
        for fault, is_wrong in {
            f"unknown source {number.source}": number.source not in sources(),
            f"unknown unit {number.unit}": number.unit not in UNITS,
            f"unknown standing {number.standing}": number.standing not in STANDINGS,
            f"{value} lies outside {number.low} to {number.high}": not (
                number.low <= value <= number.high
            ),
        }.items()
        if is_wrong
    ]
    if faults:
        place = f"{table}.csv, {row['subject']}, {row['quantity']}"
        raise SourceError(f"{place}: {'; '.join(faults)}")
    return number
