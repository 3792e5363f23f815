"""One file while it is read: what was wrong with it, and how much of it was used."""

import codecs
import hashlib
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TypeVar

import pandas as pd

from geo.errors import InputError, Issue, Outcome, quoted
from geo.inputs.at import WHOLE_FILE, At, at_row, at_span
from geo.inputs.spellings import Heading
from geo.season import FileRead
from geo.texts import phrase, phrase_of

_Read = TypeVar("_Read")
# No farm's table or drawing is so large, and no machine should have to hold a larger (our choice).
LARGEST_BYTES = 200_000_000
_MEGABYTE = 1_000_000
GROUP_FROM = 20  # the same fault in as many rows or more is said once (our choice)


class Reading:
    """
    The faults of one file, gathered before anything is raised.

    ``headings`` says how its columns are understood, ``column_map`` what the user wrote about them
    (our column and its unit, by heading), ``counts_from_1904`` how a workbook counts its days.
    From the settings come ``layer``, ``closes_lines``, ``all_is_every_block`` and ``near``: the
    longitude and latitude of a station.
    The digest of the run record is that of the very bytes read where they are taken from
    ``content`` (tables and settings). Maps and grids are opened by GDAL itself: their digest is
    taken here, before anybody reads them.

    Parameters
    ----------
    role : str
        What the file is read as.
    path : pathlib.Path
        Where it is.
    """

    def __init__(self, role: str, path: Path) -> None:
        self.role = role
        self.path = path
        self.used = 0
        self.held = 0
        self.issues: list[Issue] = []
        self.headings: list[Heading] = []
        self.column_map: dict[str, tuple[str, str]] = {}
        self.counts_from_1904 = False
        self.layer = ""
        self.closes_lines = False
        self.all_is_every_block = False
        self.near: tuple[float, float] | None = None
        self._content: bytes | None = None
        self._size, self._digest = _size_and_digest(path)

    def content(self) -> bytes:
        """
        Return the file's bytes: the same each time, and those of the run record's digest.

        Returns
        -------
        bytes
            As they were when first asked for.

        Raises
        ------
        InputError
            If there are more than any farm's file has.
        """
        if self._content is None:
            self.refuse_large()
            self._content = self.path.read_bytes()
            self._size = len(self._content)
            self._digest = hashlib.sha256(self._content).hexdigest()
        return self._content

    def refuse_large(self) -> None:
        """
        Refuse a file too large to be held in memory.

        Raises
        ------
        InputError
            If it has more than 200 MB.
        """
        if self._size > LARGEST_BYTES:
            found = phrase(
                "{size:.0f} MB, and {most:.0f} MB are the most that is read",
                size=self._size / _MEGABYTE,
                most=LARGEST_BYTES / _MEGABYTE,
            )
            fix = phrase("Keep what this season needs, or split it by farm")
            raise self.refused("E-FILE-LARGE", WHOLE_FILE, found=found, fix=fix)

    def is_blank(self) -> bool:
        """
        Return whether nothing at all is written in the file.

        Returns
        -------
        bool
            True also if it holds only blanks, or the mark that UTF-8 may begin with.
        """
        return not self.content().removeprefix(codecs.BOM_UTF8).strip()

    def add(self, outcome: Outcome, code: str, at: At, *, found: str, fix: str) -> None:
        """
        Write down one fault.

        Parameters
        ----------
        outcome : Outcome
            What becomes of it.
        code : str
            Stable name of the kind of fault.
        at : At
            Row or feature, and column; or the whole file.
        found : str
            What is wrong, with the value quoted.
        fix : str
            What to do, in the imperative, without a full stop.
        """
        name = self.path.name
        where = f"{name} {at.words}".strip()
        self.issues.append(Issue(code, outcome, where, found, fix, name, at.row, at.column))

    def add_rows(
        self,
        outcome: Outcome,
        code: str,
        cells: pd.Series,
        *,
        found: str,
        fix: str,
        **values: object,
    ) -> None:
        """
        Write down the same fault for many cells of one column.

        Parameters
        ----------
        outcome : Outcome
            What becomes of each.
        code : str
            Stable name of the kind of fault.
        cells : pandas.Series
            The faulty cells: the index is the row as the spreadsheet shows it, the name is
            the column's.
        found : str
            What is wrong, in English and marked: ``{value}`` stands for the cell.
        fix : str
            What to do, in the imperative, without a full stop.
        **values : object
            What else stands in braces in ``found``.
        """
        rows = list(cells.index)
        if len(rows) >= GROUP_FROM:
            at = at_span(rows, cells.name, count=len(rows))
            said = phrase_of(found, value=quoted(cells.iloc[0]), **values)
            self.add(outcome, code, at, found=said, fix=fix)
            return
        for row, cell in cells.items():
            at = at_row(row, cells.name)
            said = phrase_of(found, value=quoted(cell), **values)
            self.add(outcome, code, at, found=said, fix=fix)

    def check(self) -> None:
        """
        Stop if anything found so far does not let the run go on.

        Raises
        ------
        InputError
            With every fault of the file, those that stop it first.
        """
        if self.is_stopped():
            raise self._error()

    def is_stopped(self) -> bool:
        """
        Return whether anything found so far does not let the run go on.

        Returns
        -------
        bool
            True if a fault of the file stops it.
        """
        return any(issue.outcome is Outcome.STOP for issue in self.issues)

    def refused(self, code: str, at: At, *, found: str, fix: str) -> InputError:
        """
        Return the error for a fault after which nothing more can be read.

        Parameters
        ----------
        code : str
            Stable name of the kind of fault.
        at : At
            Row or feature, and column; or the whole file.
        found : str
            What is wrong, with the value quoted.
        fix : str
            What to do, in the imperative, without a full stop.

        Returns
        -------
        InputError
            Ready to be raised, with what was found before.
        """
        self.add(Outcome.STOP, code, at, found=found, fix=fix)
        return self._error()

    def _error(self) -> InputError:
        return faults_first(self.issues)

    def file_read(self) -> FileRead:
        """
        Return the file as the run record names it.

        Returns
        -------
        FileRead
            With its size and digest.
        """
        return FileRead(self.role, self.path, self._size, self._digest, self.used, self.held)


def faults_first(issues: Iterable[Issue]) -> InputError:
    """
    Return the error for faults of which at least one stops the run.

    Parameters
    ----------
    issues : iterable of Issue
        In any order.

    Returns
    -------
    InputError
        Those that stop the run first, the others in the order given.
    """
    return InputError(sorted(issues, key=lambda issue: issue.outcome != Outcome.STOP))


def tried(read: Callable[[], _Read]) -> _Read | None:
    """
    Return what a reader gives, or None where its file stopped it.

    So that one faulty file hides none of the faults of the others: what was wrong stands in its
    reading, and whoever puts the files together raises it.

    Parameters
    ----------
    read : callable
        Reads one file, without arguments.

    Returns
    -------
    any
        As read, or None.
    """
    try:
        return read()
    except InputError:
        return None


def _size_and_digest(path: Path) -> tuple[int, str]:
    try:
        with path.open("rb") as opened:
            digest = hashlib.file_digest(opened, "sha256").hexdigest()
            return opened.tell(), digest
    except OSError:
        # Whoever reads it says in words that it is not there.
        return 0, ""
