"""Look at a farm's files without deciding anything, and write down what was found."""

from pathlib import Path

from geo.exports.check_page import write_check_page
from geo.exports.check_table import write_check, write_columns
from geo.exports.out_folder import output_folder
from geo.inputs.survey import survey
from geo.reference import fungicides, growth_stages
from geo.reference.cultivars import cultivars
from geo.season.survey import Survey
from geo.texts import mark


def check(folder: Path) -> Survey:
    """
    Return what is wrong with a farm folder.

    Parameters
    ----------
    folder : pathlib.Path
        Holds ``farm.toml``.

    Returns
    -------
    Survey
        Also of a folder that cannot be used.
    """
    return survey(
        folder,
        materials=fungicides().keys(),
        cultivars=cultivars().keys(),
        stages=growth_stages().keys(),
    )


def write_survey(found: Survey, folder: Path, *, strict: bool = False) -> dict[str, Path]:
    """
    Write what was found as a page and as a table.

    Parameters
    ----------
    found : Survey
        As from ``check``.
    folder : pathlib.Path
        Made if it is not there.
    strict : bool
        As for ``Survey.verdict``.

    Returns
    -------
    dict of str to pathlib.Path
        What each file is for, and where it is.

    Raises
    ------
    InputError
        If the folder cannot be written to, or a file of the farm would be overwritten.
    """
    page, table, columns = mark("the faults"), mark("as a table"), mark("the columns")
    names = {page: "check.html", table: "check.csv", columns: "columns.csv"}
    paths = {what: folder / name for what, name in names.items()}
    with output_folder(folder, read=found.files, paths=paths):
        write_check_page(paths[page], found, strict=strict)
        write_check(paths[table], found)
        write_columns(paths[columns], found)
    return paths
