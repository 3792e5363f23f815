"""What a command is asked about: which farm, which block, which disease."""

from collections.abc import Collection
from importlib.resources import files
from pathlib import Path
from typing import Annotated

import typer

from geo.errors import quoted, stop
from geo.reference.diseases import DISEASES, Disease, disease_named, disease_with

FarmOption = Annotated[
    Path | None, typer.Option(help="Farm folder; else the one you are in, else the demo.")
]
DiseaseOption = Annotated[
    str | None, typer.Option(help="Disease, by key or name; else the one of farm.toml.")
]
SinceOption = Annotated[
    Path | None,
    typer.Option(
        help="Record of an earlier run to hold the map against; else the one in the folder.",
        metavar="RUN.JSON",
    ),
]
DEFAULT_OUT = Path("outputs")
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


def farm_here() -> Path:
    """
    Return the farm a command answers for where none is named.

    Returns
    -------
    pathlib.Path
        The folder the user is in if it is a farm, else the made farm, which is then said.
    """
    here = Path.cwd()
    if (here / "farm.toml").exists():
        return here
    typer.echo("No farm.toml in this folder: answering for the made demo farm.", err=True)
    return demo_farm()


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
        raise stop("E-BLOCK-UNKNOWN", where, f"no block {quoted(name)}", f"Try: {listed}")


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
        found = f"no disease {quoted(name)}"
        raise stop("E-DISEASE-UNKNOWN", "--disease", found, f"Try: {listed}")
    return disease
