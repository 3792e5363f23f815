"""What is wrong with a farm folder, all of it at once?"""

from collections.abc import Collection
from contextlib import suppress
from pathlib import Path

from geo.errors import InputError
from geo.inputs.column_map import ROLE
from geo.inputs.folder import Folder, open_folder
from geo.inputs.parts import Known, read_parts
from geo.season.survey import ColumnRead, Survey


def survey(
    folder: Path,
    *,
    materials: Collection[str],
    cultivars: Collection[str],
    stages: Collection[str],
) -> Survey:
    """
    Return what is wrong with a farm folder, without deciding anything.

    Parameters
    ----------
    folder : pathlib.Path
        The farm folder. Nothing in it is changed.
    materials, cultivars, stages : collection of str
        As for `geo.inputs.season.read_farm`.

    Returns
    -------
    Survey
        Also of a folder that cannot be used.
    """
    try:
        opened = open_folder(folder, materials=materials)
    except InputError as error:
        return Survey(folder.resolve().name, is_made=False, files=(), issues=error.issues)
    # Each fault stands in the reading of its file.
    with suppress(InputError):
        read_parts(opened, Known(materials, cultivars, stages))
    name = opened.farm.name or folder.resolve().name
    return Survey(name, opened.farm.is_made, opened.files(), opened.issues(), columns_of(opened))


def columns_of(folder: Folder) -> tuple[ColumnRead, ...]:
    """
    Return how the columns of a farm's tables were understood.

    Parameters
    ----------
    folder : Folder
        After its files were read.

    Returns
    -------
    tuple of ColumnRead
        File by file.
    """
    return tuple(
        ColumnRead(reading.path.name, heading.written, heading.means, heading.unit, heading.how)
        for role, reading in folder.readings.items()
        for heading in reading.headings
        if role != ROLE
    )
