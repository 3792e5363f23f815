"""A farm folder while it is read: its settings and its files."""

from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path

from geo.errors import InputError, Issue, Outcome
from geo.inputs.at import at_key
from geo.inputs.column_map import ROLE, read_column_map
from geo.inputs.reading import Reading, faults_first, tried
from geo.inputs.settings import FILE, FarmFile, read_settings
from geo.season import FileRead
from geo.texts import mark, phrase_of

_ABSENT = {
    "forecast": (
        Outcome.HOLD,
        mark("forecast missing: sulfur and the days ahead unknown = closed"),
        mark("Name a forecast to plan ahead"),
    ),
    "diary": (
        Outcome.NOTE,
        mark("no spray diary: every block counts as unprotected"),
        mark("Name a diary if anything was sprayed"),
    ),
    "scouting": (
        Outcome.NOTE,
        mark("no scouting notes: stages and disease are unknown in every block"),
        mark("Name a file of notes once somebody has looked"),
    ),
}


@dataclass(frozen=True, slots=True)
class Folder:
    """
    A farm folder.

    Attributes
    ----------
    farm : FarmFile
        Its settings.
    settings : Reading
        The file they stand in.
    readings : dict of str to Reading
        The other files by role.
    """

    farm: FarmFile
    settings: Reading
    readings: dict[str, Reading]

    def issues(self) -> tuple[Issue, ...]:
        """
        Return what was said about any of its files.

        Returns
        -------
        tuple of Issue
            Settings first.
        """
        readings = (self.settings, *self.readings.values())
        return tuple(issue for reading in readings for issue in reading.issues)

    def files(self) -> tuple[FileRead, ...]:
        """
        Return its files as the run record names them.

        Returns
        -------
        tuple of FileRead
            Settings first.
        """
        return tuple(reading.file_read() for reading in (self.settings, *self.readings.values()))

    def is_stopped(self) -> bool:
        """
        Return whether a fault of any file stops the run.

        Returns
        -------
        bool
            True if nothing may be decided.
        """
        readings = (self.settings, *self.readings.values())
        return any(reading.is_stopped() for reading in readings)

    def error(self) -> InputError:
        """
        Return the error for a farm that cannot be used.

        Returns
        -------
        InputError
            With every fault of every file, those that stop the run first.
        """
        return faults_first(self.issues())


def open_folder(path: Path, *, materials: Collection[str]) -> Folder:
    """
    Return a farm folder with its settings read.

    Parameters
    ----------
    path : pathlib.Path
        The folder with ``farm.toml``.
    materials : collection of str
        Active ingredients we know.

    Returns
    -------
    Folder
        What it does not name is noted. Faults of the settings stand in their reading, and files
        that are not there are left out.

    Raises
    ------
    InputError
        If there are no settings, or they are no TOML.
    """
    settings = Reading("settings", path / FILE)
    farm = read_settings(settings, materials=materials)
    # Whoever keeps a record of sprays needs no diary.
    there = {*farm.files, *(["diary"] if "records" in farm.files else [])}
    for role, (outcome, found, fix) in _ABSENT.items():
        if role not in there:
            code, at = f"E-{role.upper()}-MISSING", at_key(f"files.{role}")
            settings.add(outcome, code, at, found=phrase_of(found), fix=phrase_of(fix))
    readings = {role: Reading(role, path) for role, path in farm.files.items() if path.is_file()}
    if "outlines" in readings:
        readings["outlines"].layer = farm.layer
        readings["outlines"].closes_lines = farm.closes_lines
    for reading in readings.values():
        reading.all_is_every_block = farm.all_is_every_block
        reading.near = next(((one.longitude, one.latitude) for one in farm.stations), None)
    if ROLE in readings:
        others = {role: other for role, other in readings.items() if role != ROLE}
        tried(lambda: read_column_map(readings[ROLE], others))
    return Folder(farm, settings, readings)
