"""What do the user's own labels say? A row for each material, copied by the user."""

import re
from collections.abc import Collection
from datetime import date
from math import inf, nan

import numpy as np
import pandas as pd

from geo.errors import Outcome
from geo.inputs.names import matched
from geo.inputs.notes import hold_unknown, read_notes
from geo.inputs.reading import Reading
from geo.inputs.tables import MISSING
from geo.reference.forms import FORM_OF_CODE
from geo.season.label import Label, frac_code
from geo.texts import mark, phrase

COLUMNS = (
    ("material",),
    (
        "frac_codes", "rate", "rate_unit", "re_entry_hours", "pre_harvest_days",
        "season_maximum", "minimum_interval_days", "formulation", "country", "label_date",
    ),
)  # fmt: skip
# Highest believable numbers: more is a slip of the pen (our choice).
NUMBERS = {
    "rate": 1e6,
    "re_entry_hours": 24.0 * 60,
    "pre_harvest_days": 400.0,
    "season_maximum": 100.0,
    "minimum_interval_days": 400.0,
}
_NO_NUMBER = {
    "rate": mark("{value} is no rate from 0 to {most:g}: the row is set aside"),
    "re_entry_hours": mark("{value} is no re entry hours from 0 to {most:g}: the row is set aside"),
    "pre_harvest_days": mark(
        "{value} is no pre harvest days from 0 to {most:g}: the row is set aside"
    ),
    "season_maximum": mark("{value} is no season maximum from 0 to {most:g}: the row is set aside"),
    "minimum_interval_days": mark(
        "{value} is no minimum interval days from 0 to {most:g}: the row is set aside"
    ),
}
NO_LIMIT = "none"
STALE_DAYS = 3 * 365  # our choice: labels are changed every few years
_BETWEEN = re.compile(r"[+;,/ ]+")


def read_labels(reading: Reading, *, materials: Collection[str], today: date) -> tuple[Label, ...]:
    """
    Return what labels say of the materials we know.

    Parameters
    ----------
    reading : Reading
        The label file.
    materials : collection of str
        Active ingredients we know.
    today : datetime.date
        To tell stale labels.

    Returns
    -------
    tuple of Label
        One a material. A row with a fault is set aside, and what it would have told is unknown.

    Raises
    ------
    InputError
        If the file is no CSV text or lacks the column of materials.
    """
    taken = phrase("no label is known, and rules that need one are closed")
    table = read_notes(reading, columns=COLUMNS, code="E-LABELS-EMPTY", taken=taken)
    material = matched(table["material"], materials)
    unknown = table["material"][material.isna()]
    hold_unknown(reading, unknown, what="material", known=materials)
    is_again = material.notna() & material.duplicated()
    reading.add_rows(
        Outcome.HOLD,
        "E-ROW-TWICE",
        table["material"][is_again],
        found=mark("{value} has a row already: this one is set aside"),
        fix=phrase("Keep the row of the label in the store"),
    )
    values, is_sound = _values(reading, table)
    days, is_dated = _dates(reading, table["label_date"])
    is_old = _stale(reading, table["label_date"], days, today)
    is_kept = material.notna() & ~is_again & is_sound & is_dated & ~is_old
    forms = _formulations(reading, table["formulation"])
    labels = tuple(
        Label(
            material=str(material[row]),
            frac_codes=_codes(str(table["frac_codes"][row])),
            country=str(table["country"][row]),
            label_date=None if pd.isna(days[row]) else days[row].date(),
            rate_unit=str(table["rate_unit"][row]),
            formulation=forms[row],
            **{name: float(values[name][row]) for name in NUMBERS},
        )
        for row in table.index[is_kept]
    )
    reading.used, reading.held = len(labels), len(table) - len(labels)
    return labels


def _values(reading: Reading, table: pd.DataFrame) -> tuple[dict[str, pd.Series], pd.Series]:
    """Return the numbers of each column, and which rows have no fault in any of them."""
    is_sound = pd.Series(np.ones(len(table), dtype=bool), index=table.index)
    read = {}
    for name, most in NUMBERS.items():
        cells = table[name].astype(str)
        is_missing = cells.str.lower().isin(set(MISSING) - {NO_LIMIT})
        value = pd.to_numeric(cells.where(~is_missing, "nan"), errors="coerce").astype(float)
        value = value.where(np.isfinite(value))
        if name == "season_maximum":
            value = value.mask(cells.str.lower() == NO_LIMIT, inf)
        least = 0.0 if name != "rate" else np.nextafter(0.0, 1.0)
        is_right = is_missing | value.between(least, most) | (value == inf)
        reading.add_rows(
            Outcome.HOLD,
            "E-LABEL-NUMBER",
            cells[~is_right],
            found=_NO_NUMBER[name],
            fix=phrase("Copy the number from the label, or leave the cell empty"),
            most=most,
        )
        is_sound &= is_right
        read[name] = value.where(is_right, nan)
    return read, is_sound


def _dates(reading: Reading, cells: pd.Series) -> tuple[pd.Series, pd.Series]:
    days = pd.to_datetime(cells, format="%Y-%m-%d", errors="coerce")
    is_right = days.notna() | (cells == "")
    reading.add_rows(
        Outcome.HOLD,
        "E-LABEL-DATE",
        cells[~is_right],
        found=mark("{value} is not a date: the row is set aside"),
        fix=phrase("Write it as 2026-02-18: year, month, day"),
    )
    return days, is_right


def _formulations(reading: Reading, cells: pd.Series) -> pd.Series:
    codes = cells.astype(str).str.strip().str.upper()
    is_right = codes.isin(list(FORM_OF_CODE)) | (codes == "")
    reading.add_rows(
        Outcome.NOTE,
        "E-FORMULATION",
        cells[~is_right],
        found=mark("{value} is no code of a formulation that we know: taken as not known"),
        fix=phrase(
            "Copy it from the label: {known}, or leave the cell empty",
            known=", ".join(FORM_OF_CODE),
        ),
    )
    return codes.where(is_right, "")


def _stale(reading: Reading, cells: pd.Series, days: pd.Series, today: date) -> pd.Series:
    """Return which labels are too old to be believed: what they tell is unknown, and closed."""
    is_stale = days < pd.Timestamp(today) - pd.Timedelta(days=STALE_DAYS)
    reading.add_rows(
        Outcome.HOLD,
        "E-LABEL-STALE",
        cells[is_stale],
        found=mark(
            "{value} is the date of a label more than three years old, which may have changed "
            "since: the row is set aside"
        ),
        fix=phrase("Copy the label in the store, with its own date"),
    )
    return is_stale


def _codes(written: str) -> tuple[str, ...]:
    """
    Return the codes of a product, each once.

    Several stand with ``+`` between them. Within one code a blank may stand, as in ``M 02``.
    """
    joined = re.sub(r"\b(M|BM|P|U)[ -](?=\d)", r"\1", written.upper())
    return tuple(dict.fromkeys(frac_code(part) for part in _BETWEEN.split(joined) if part))
