"""What was found in a farm folder: every fault of every file, and what follows from them."""

from dataclasses import dataclass
from enum import StrEnum

from geo.errors import Issue, Outcome
from geo.season.farm import FileRead


class Verdict(StrEnum):
    """
    What the faults of a farm come to.

    CLEAN: everything is used. PARTIAL: something is set aside, the rest is used. STOPPED: nothing
    can be decided.
    """

    CLEAN = "clean"
    PARTIAL = "partial"
    STOPPED = "stopped"


@dataclass(frozen=True, slots=True)
class ColumnRead:
    """
    How a column of a file was understood.

    Attributes
    ----------
    file, heading : str
        Where it stands, as written.
    means : str
        Our column; empty for one that is not used.
    unit : str
        Of the values in the file; empty for a column without one.
    how : str
        As named, by its spelling, by the column map, or not used.
    """

    file: str
    heading: str
    means: str
    unit: str
    how: str


@dataclass(frozen=True, slots=True)
class Survey:
    """
    What was found in a farm folder.

    Attributes
    ----------
    name : str
        Of the farm; of its folder where the settings do not tell.
    is_made : bool
        True for a made scenario.
    files : tuple of FileRead
        What was looked at.
    issues : tuple of Issue
        Every fault of every file.
    columns : tuple of ColumnRead
        How the columns of its tables were understood.
    hours : str
        In words, to which hour was measured and from which it is forecast; empty if no weather
        can be used.
    """

    name: str
    is_made: bool
    files: tuple[FileRead, ...]
    issues: tuple[Issue, ...]
    columns: tuple[ColumnRead, ...] = ()
    hours: str = ""

    def of(self, outcome: Outcome) -> tuple[Issue, ...]:
        """
        Return the faults of one outcome.

        Parameters
        ----------
        outcome : Outcome
            What became of them.

        Returns
        -------
        tuple of Issue
            In the order of the files.
        """
        return tuple(issue for issue in self.issues if issue.outcome is outcome)

    def verdict(self, *, strict: bool = False) -> Verdict:
        """
        Return what the faults come to.

        Parameters
        ----------
        strict : bool
            Whether what was repaired or only noted counts like what was set aside.

        Returns
        -------
        Verdict
            The worst of them.
        """
        if self.of(Outcome.STOP):
            return Verdict.STOPPED
        counted = self.issues if strict else self.of(Outcome.HOLD)
        return Verdict.PARTIAL if counted else Verdict.CLEAN
