"""The faults of a farm as CSV: a row for each, its place in columns of its own."""

import re
from pathlib import Path

from geo.errors import Issue, Outcome
from geo.exports.files import write_text
from geo.exports.order_tables import as_csv
from geo.season.survey import Survey
from geo.texts import phrase_of

COLUMNS = ("outcome", "code", "file", "row", "column", "value", "at", "found", "fix")
_VALUE = re.compile(r'"([^"]*)"')  # as `quoted` writes it, whatever the language around it


def write_check(path: Path, survey: Survey) -> None:
    """
    Write every fault, those that stop the run first.

    Parameters
    ----------
    path : pathlib.Path
        Of the CSV.
    survey : Survey
        What was found.
    """
    rows = [cells(issue) for outcome in Outcome for issue in survey.of(outcome)]
    write_text(path, as_csv(COLUMNS, rows))


def write_columns(path: Path, survey: Survey) -> None:
    """
    Write how each column was understood, as a map that the user may correct and give back.

    Parameters
    ----------
    path : pathlib.Path
        Of the CSV.
    survey : Survey
        What was found.
    """
    rows = [
        [column.file, column.heading, column.means, column.unit, phrase_of(column.how)]
        for column in survey.columns
    ]
    write_text(path, as_csv(("file", "heading", "means", "unit", "how"), rows))


def cells(issue: Issue) -> list[str]:
    """
    Return the parts of a fault.

    Parameters
    ----------
    issue : Issue
        One fault.

    Returns
    -------
    list of str
        A cell for each of ``COLUMNS``; empty where the fault has no such part.
    """
    at = issue.where.removeprefix(issue.file).strip()
    return [
        str(issue.outcome),
        issue.code,
        issue.file,
        issue.row,
        issue.column,
        _value(issue.found),
        at,
        issue.found,
        issue.fix,
    ]


def _value(found: str) -> str:
    match = _VALUE.search(found)
    return match.group(1) if match else ""
