"""What a command is asked about: which farm, which block, which disease."""

from collections.abc import Collection
from importlib.resources import files
from pathlib import Path
from typing import Annotated

import typer

from geo.cli.tongue import speak_of
from geo.errors import quoted, stop
from geo.reference.diseases import DISEASES, Disease, disease_named, disease_with
from geo.texts import phrase

FarmArgument = Annotated[
    Path | None,
    typer.Argument(help=phrase("Farm folder; else the one you are in, else the demo.")),
]
FarmOption = Annotated[
    Path | None, typer.Option(help=phrase("Farm folder; else the one you are in, else the demo."))
]
DiseaseOption = Annotated[
    str | None, typer.Option(help=phrase("Disease, by key or name; else the one of farm.toml."))
]
SinceOption = Annotated[
    Path | None,
    typer.Option(
        help=phrase(
            "Record of an earlier run to hold the map against; else the one in the folder."
        ),
        metavar="RUN.JSON",
    ),
]
DEFAULT_OUT = Path("outputs")
OutOption = Annotated[Path, typer.Option("--out", help=phrase("Folder for the outputs."))]
SheetsOption = Annotated[Path, typer.Option("--out", help=phrase("Folder for the sheets."))]
SemicolonsOption = Annotated[
    bool, typer.Option("--semicolons", help=phrase("CSV with ; and decimal commas."))
]
MOST_LISTED = 12  # our own choice: a line holds no more names


def demo_farm() -> Path:
    """
    Return the folder of the made farm that comes with the tool.

    Returns
    -------
    pathlib.Path
        Beside the package in a checkout, inside the environment once installed.
    """
    return Path(str(files("layers_demo") / "valley_farm"))


def farm_asked(farm: Path | None) -> Path:
    """
    Return the farm a command answers for, and speak its language from here on.

    Parameters
    ----------
    farm : pathlib.Path or None
        As typed.

    Returns
    -------
    pathlib.Path
        Where none is named the folder the user is in if it is a farm, else the made farm, which
        is then said.
    """
    here = Path.cwd()
    if farm is None and not (here / "farm.toml").exists():
        words = phrase("No farm.toml in this folder: answering for the made demo farm.")
        typer.echo(words, err=True)
        return demo_farm()
    folder = farm or here
    speak_of(folder)
    return folder


def check_block(name: str, known: Collection[str], where: str) -> None:
    """
    Refuse a block that is not there.

    Parameters
    ----------
    name : str
        As typed.
    known : collection of str
        Ids of the farm's blocks.
    where : str
        Of what is said: the farm's folder, or the option.

    Raises
    ------
    InputError
        One line that lists some of those that are there.
    """
    if name not in known:
        listed = ", ".join(list(known)[:MOST_LISTED]) + (", …" if len(known) > MOST_LISTED else "")
        found = phrase("no block {block}", block=quoted(name))
        raise stop("E-BLOCK-UNKNOWN", where, found, phrase("Try: {names}", names=listed))


def disease_asked(name: str | None, chosen: str) -> Disease:
    """
    Return the disease that a command is asked about.

    Parameters
    ----------
    name : str or None
        As typed: its key, or its name as printed. None for the one of the farm's settings.
    chosen : str
        Key of that one.

    Returns
    -------
    Disease
        The disease.

    Raises
    ------
    InputError
        One line that lists those that the model knows.
    """
    if name is None:
        return disease_with(chosen)
    disease = disease_named(name)
    if disease is None:
        listed = ", ".join(disease.key for disease in DISEASES)
        found = phrase("no disease {disease}", disease=quoted(name))
        fix = phrase("Try: {names}", names=listed)
        raise stop("E-DISEASE-UNKNOWN", "--disease", found, fix)
    return disease
