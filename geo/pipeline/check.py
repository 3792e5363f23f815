"""Look at a farm's files without deciding anything, and write down what was found."""

from pathlib import Path

from geo.errors import stop
from geo.exports.check_page import write_check_page
from geo.exports.check_table import write_check, write_columns
from geo.exports.lock import alone_in
from geo.inputs.survey import survey
from geo.reference import fungicides, growth_stages
from geo.reference.cultivars import cultivars
from geo.season.survey import Survey


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
    paths = {"the faults": folder / "check.html", "as a table": folder / "check.csv"}
    paths["the columns"] = folder / "columns.csv"
    read = {file.path.resolve() for file in found.files}
    for path in paths.values():
        if path.resolve() in read:
            words = "is a file of the farm, and would be overwritten"
            raise stop("E-OUT-INPUT", str(path), words, "Name another folder with --out")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with alone_in(folder):
            write_check_page(paths["the faults"], found, strict=strict)
            write_check(paths["as a table"], found)
            write_columns(paths["the columns"], found)
    except OSError as error:
        words = f"cannot be written to ({error.strerror or error})"
        fix = "Name another folder with --out, or free some space"
        raise stop("E-OUT-WRITE", str(folder), words, fix) from error
    return paths
