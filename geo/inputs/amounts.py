"""Do rate, area and total of a spray agree with each other, with the label and with the blocks?"""

import re
from collections.abc import Mapping

import numpy as np
import pandas as pd

from geo.errors import Outcome, quoted
from geo.inputs.at import at_row
from geo.inputs.reading import Reading
from geo.season.label import Label
from geo.texts import mark, phrase, phrase_of

COLUMNS = ("rate", "rate_unit", "area_ha", "total_amount")
# How far a rate may be from the label's, an area from the outlines' and a total from its parts
# before it is said (the catalogue of faults; our choice).
FARTHEST_FROM_LABEL, FARTHEST_AREA, FARTHEST_TOTAL = 3.0, 0.10, 0.10
_PER_AREA = re.compile(r"^\s*\S+\s*(?:/|per)\s*(?:ha|hectare|acre)\s*$", re.IGNORECASE)
_LACKS = (
    (
        re.compile(r"100\s*l|/\s*l\b|litre|liter|%", re.IGNORECASE),
        mark("{unit} cannot be compared: the water volume per hectare is not known"),
    ),
    (
        re.compile(r"tree|plant", re.IGNORECASE),
        mark("{unit} cannot be compared: the trees per hectare is not known"),
    ),
    (
        re.compile(r"tank|pump|load", re.IGNORECASE),
        mark("{unit} cannot be compared: the tank's size and the area it did is not known"),
    ),
)
_NO_UNIT = mark("{unit} cannot be compared: its unit is not known")
_NO_SUCH_UNIT = mark("{unit} cannot be compared: such a unit is not known")


def check_amounts(
    reading: Reading,
    rows: pd.DataFrame,
    *,
    labels: Mapping[str, Label],
    area: Mapping[str, float],
) -> None:
    """
    Hold what the diary says of amounts against label and outlines.

    Nothing that is ranked is reckoned from a rate: a spray counts whatever is said here.

    Parameters
    ----------
    reading : Reading
        The diary.
    rows : pandas.DataFrame
        A row of the file each: ``material``, ``blocks`` (tuple of ids), and ``COLUMNS`` as text.
    labels : mapping of str to Label
        By material.
    area : mapping of str to float
        Of each block, ha.
    """
    rate, size, total = (_number(rows[name]) for name in ("rate", "area_ha", "total_amount"))
    _check_rates(reading, rows, rate, labels)
    known = pd.Series(
        [sum(area.get(block, np.nan) for block in blocks) for blocks in rows["blocks"]],
        index=rows.index,
        dtype=float,
    )
    _check_areas(reading, rows["area_ha"], size / known - 1.0, known)
    is_off = (total / (rate * size) - 1.0).abs() > FARTHEST_TOTAL
    is_plain = rows["rate_unit"].str.fullmatch(_PER_AREA.pattern, case=False)
    for row in rows.index[is_off & is_plain]:
        found = phrase(
            "{total} is not rate × area = {product:.3g}",
            total=quoted(rows["total_amount"][row]),
            product=rate[row] * size[row],
        )
        fix = phrase("Check the three; none of them is changed")
        at = at_row(row, "total_amount")
        reading.add(Outcome.NOTE, "E-TOTAL", at, found=found, fix=fix)


def _number(cells: pd.Series) -> pd.Series:
    return pd.to_numeric(cells.str.replace(",", ".", regex=False), errors="coerce").astype(float)


def _check_rates(
    reading: Reading, rows: pd.DataFrame, rate: pd.Series, labels: Mapping[str, Label]
) -> None:
    is_bad = (rows["rate"] != "") & ~(rate > 0.0)
    reading.add_rows(
        Outcome.HOLD,
        "E-RATE",
        rows["rate"][is_bad],
        found=mark("{value} is no rate: it is set aside, and the spray counts all the same"),
        fix=phrase("Write what was used, above 0"),
    )
    for row in rows.index[rate > 0.0]:
        unit, label = rows["rate_unit"][row], labels.get(rows["material"][row])
        missing = _missing(unit)
        if missing:
            found = phrase_of(missing, unit=quoted(unit))
            at, fix = at_row(row, "rate_unit"), phrase("Write the rate per hectare")
            reading.add(Outcome.HOLD, "E-RATE-UNIT", at, found=found, fix=fix)
        elif label is not None and unit.casefold() == label.rate_unit.casefold():
            _against_label(reading, row, rows["rate"][row], rate[row], label)


def _missing(unit: str) -> str:
    """Return what is said of a number that is lacking for a rate per area; empty if none is."""
    if not unit:
        return _NO_UNIT
    lacks = (words for pattern, words in _LACKS if pattern.search(unit))
    return "" if _PER_AREA.match(unit) else next(lacks, _NO_SUCH_UNIT)


def _against_label(reading: Reading, row: object, text: str, rate: float, label: Label) -> None:
    ratio = rate / label.rate
    if not np.isfinite(ratio) or 1.0 / FARTHEST_FROM_LABEL <= ratio <= FARTHEST_FROM_LABEL:
        return
    numbers = {
        "rate": quoted(text),
        "times": ratio,
        "label": f"{label.rate:g} {label.rate_unit}",
    }
    found = phrase(
        "{rate} is {times:.2g} times the label's {label}: it is set aside, and the spray counts "
        "all the same",
        **numbers,
    )
    if "," in text:
        found = phrase(
            "{rate} is {times:.2g} times the label's {label} (read as {read:g}; it may mean "
            "{other}): it is set aside, and the spray counts all the same",
            read=rate,
            other=text.replace(",", ""),
            **numbers,
        )
    at, fix = at_row(row, "rate"), phrase("Check decimal mark and unit")
    reading.add(Outcome.HOLD, "E-RATE", at, found=found, fix=fix)


def _check_areas(reading: Reading, cells: pd.Series, excess: pd.Series, known: pd.Series) -> None:
    least = 0.005  # what is lost by writing two decimals
    for row in cells.index[excess > least]:
        is_far = excess[row] > FARTHEST_AREA
        areas = {"written": quoted(cells[row]), "drawn": known[row]}
        found = phrase("{written} ha is more than the {drawn:.2f} ha of the blocks named", **areas)
        if is_far:
            found = phrase(
                "{written} ha is more than the {drawn:.2f} ha of the blocks named: it is set "
                "aside, and the spray counts all the same",
                **areas,
            )
        at = at_row(row, "area_ha")
        fix = phrase("Check the area, or whether a block is missing")
        outcome = Outcome.HOLD if is_far else Outcome.NOTE
        reading.add(outcome, "E-AREA-SPRAYED", at, found=found, fix=fix)
