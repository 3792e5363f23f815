"""One thing that is supposed, and what is said of words that mean nothing."""

from collections.abc import Callable, Collection
from dataclasses import dataclass

import xarray as xr

from geo.errors import InputError, quoted, stop
from geo.inputs.names import nearest, plain
from geo.pipeline.suppose import hours_ahead
from geo.texts import mark, phrase, phrase_of

_NO_SUCH = {
    "block": mark("no block {name}"),
    "stage": mark("no stage {name}"),
    "material": mark("no material {name}"),
    "cultivar": mark("no cultivar {name}"),
    "neighbour": mark("no neighbour {name}"),
    "status": mark("no status {name}"),
}


@dataclass(frozen=True, slots=True)
class Supposition:
    """
    One thing that is supposed.

    Attributes
    ----------
    words : str
        What, as printed.
    change : callable
        From a season as read to another.
    """

    words: str
    change: Callable[[xr.Dataset], xr.Dataset]


@dataclass(frozen=True, slots=True)
class Asked:
    """
    What the words are about.

    Attributes
    ----------
    season : xarray.Dataset
        As read.
    zone : str
        That its clocks go by.
    """

    season: xr.Dataset
    zone: str

    @property
    def blocks(self) -> list[str]:
        """
        Return the farm's blocks.

        Returns
        -------
        list of str
            In the season's order.
        """
        names: list[str] = self.season.block.values.tolist()
        return names

    @property
    def neighbours(self) -> list[str]:
        """
        Return the farm's neighbours.

        Returns
        -------
        list of str
            In the season's order.
        """
        names: list[str] = self.season.source.values.tolist()[self.season.sizes["block"] :]
        return names


def pair(option: str, words: str, fix: str) -> tuple[str, str]:
    """
    Return what stands before and after the last equals sign.

    Parameters
    ----------
    option : str
        Whose words they are.
    words : str
        As typed.
    fix : str
        How to write it.

    Returns
    -------
    tuple of str
        Both.

    Raises
    ------
    InputError
        If one of them is missing.
    """
    name, sign, value = words.rpartition("=")
    if not (name.strip() and sign and value.strip()):
        raise not_understood(option, words, fix)
    return name, value


def one_of(what: str, name: str, known: Collection[str], *, option: str) -> str:
    """
    Return the spelling of a name that is known.

    Parameters
    ----------
    what : str
        Kind of thing, as the codes of faults have it.
    name : str
        As typed.
    known : collection of str
        All names there are.
    option : str
        Whose words they are.

    Returns
    -------
    str
        One of those known.

    Raises
    ------
    InputError
        If it is none of them, with the nearest.
    """
    spelling = {plain(one): one for one in known}
    if plain(name) not in spelling:
        fix = phrase("There is none")
        if known:
            fix = phrase("Nearest: {names}", names=nearest(name, known))
        found = phrase_of(_NO_SUCH[what], name=quoted(name))
        raise stop(f"E-{what.upper()}-UNKNOWN", option, found, fix)
    return spelling[plain(name)]


def check_forecast(option: str, asked: Asked) -> None:
    """
    Refuse to suppose other weather without a forecast.

    Parameters
    ----------
    option : str
        Whose words they are.
    asked : Asked
        With the season.

    Raises
    ------
    InputError
        If no hour of it is forecast.
    """
    if not hours_ahead(asked.season).size:
        found = phrase("there is no forecast hour to change")
        raise stop("E-SUPPOSE-FORECAST", option, found, phrase("Give the farm a forecast"))


def not_understood(option: str, words: str, fix: str) -> InputError:
    """
    Return the error for words that mean nothing.

    Parameters
    ----------
    option : str
        Whose words they are.
    words : str
        As typed.
    fix : str
        How to write it.

    Returns
    -------
    InputError
        Ready to be raised.
    """
    found = phrase("{words} is not understood", words=quoted(words))
    return stop("E-SUPPOSE-FORM", option, found, fix)
