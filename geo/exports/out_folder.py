"""The door that every folder of outputs goes through: no input overwritten, failures in words."""

from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from geo.errors import stop
from geo.exports.lock import alone_in
from geo.season.farm import FileRead
from geo.texts import phrase


@contextmanager
def output_folder(
    folder: Path, *, read: Iterable[FileRead], paths: Mapping[str, Path]
) -> Iterator[None]:
    """
    Make a folder and say in words what went wrong while files were written to it.

    Parameters
    ----------
    folder : pathlib.Path
        Made if it is not there.
    read : iterable of FileRead
        The farm's own files, which may not be overwritten.
    paths : mapping of str to pathlib.Path
        What will be written.

    Yields
    ------
    None
        Write within.

    Raises
    ------
    InputError
        If the folder cannot be written to, another run is writing to it, or a file in it is one
        of the farm's own.
    """
    own = {file.path.resolve() for file in read}
    for path in paths.values():
        if path.resolve() in own:
            found = phrase("is a file of the farm, and would be overwritten")
            raise stop("E-OUT-INPUT", str(path), found, phrase("Name another folder with --out"))
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with alone_in(folder):
            yield
    except OSError as error:
        found = phrase("cannot be written to ({reason})", reason=error.strerror or error)
        fix = phrase("Name another folder with --out, or free some space")
        raise stop("E-OUT-WRITE", str(folder), found, fix) from error
