"""Everything raised or reported on purpose."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from geo.texts import mark, phrase_of

MAX_VALUE_CHARACTERS = 60


class Outcome(StrEnum):
    """
    What became of a fault in the user's data.

    STOP: the run cannot go on. HOLD: this row or block is set aside. FIX: repaired
    without changing its meaning. NOTE: accepted, and said.
    """

    STOP = mark("STOP")
    HOLD = mark("HOLD")
    FIX = mark("FIX")
    NOTE = mark("NOTE")


def quoted(value: object) -> str:
    """
    Return a user's value as it may stand in a one-line message.

    Parameters
    ----------
    value : object
        Anything read from a file.

    Returns
    -------
    str
        Quoted, control characters escaped, cut to 60 characters.

    Examples
    --------
    >>> quoted("Block 7")
    '"Block 7"'
    >>> len(quoted("x" * 500))
    62
    """
    text = "".join(
        character if character.isprintable() else character.encode("unicode_escape").decode()
        for character in str(value)
    )
    if len(text) > MAX_VALUE_CHARACTERS:
        text = text[: MAX_VALUE_CHARACTERS - 1] + "…"
    return f'"{text}"'


@dataclass(frozen=True, slots=True)
class Issue:
    """
    One fault in the user's data, in five parts.

    Attributes
    ----------
    code : str
        Stable name of the kind of fault, such as ``E-CRS-MISSING``.
    outcome : Outcome
        What became of it.
    where : str
        File, and row (as the spreadsheet shows it) or feature, and column.
    found : str
        What is wrong, with the value quoted.
    fix : str
        What to do, in the imperative.
    file : str
        Name of the file, with which ``where`` begins; empty if it is about no file.
    row, column : str
        What ``where`` says in words, for tables: row or feature (``7``, ``3 to 9`` or ``3, 5``)
        and column; empty where it is about none.
    """

    code: str
    outcome: Outcome
    where: str
    found: str
    fix: str
    file: str = ""
    row: str = ""
    column: str = ""

    def __str__(self) -> str:
        """Return the issue as one line."""
        return f"{self.code} {phrase_of(self.outcome)} {self.where}: {self.found}. {self.fix}."


class InputError(ValueError):
    """
    The user's data cannot be used as they stand.

    Parameters
    ----------
    issues : iterable of Issue
        Every fault found, not only the first.
    """

    def __init__(self, issues: Iterable[Issue]) -> None:
        self.issues = tuple(issues)
        super().__init__("\n".join(map(str, self.issues)))


class ContractError(ValueError):
    """A season lacks a variable, or one has the wrong dimensions or range: a fault of ours."""


class SourceError(ValueError):
    """A row of a reference table has no source, no unit or an impossible value."""


def stop(code: str, where: str, found: str, fix: str) -> InputError:
    """
    Return the error for a single fault that ends the run.

    Parameters
    ----------
    code : str
        Stable name of the kind of fault.
    where : str
        File, row or feature, column.
    found : str
        What is wrong, with the value quoted.
    fix : str
        What to do, in the imperative.

    Returns
    -------
    InputError
        Ready to be raised.
    """
    return InputError([Issue(code, Outcome.STOP, where, found, fix)])
