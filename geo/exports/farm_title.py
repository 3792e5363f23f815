"""How is a farm called in a title: a made one says so wherever its name stands alone."""

from typing import TYPE_CHECKING

from geo.texts import phrase

if TYPE_CHECKING:
    from geo.season.farm import Farm
    from geo.season.survey import Survey


def farm_title(farm: "Farm | Survey") -> str:
    """
    Return a farm's name for titles.

    Parameters
    ----------
    farm : Farm or Survey
        Any.

    Returns
    -------
    str
        Its name, and that it is made if it is; not yet escaped.
    """
    return phrase("{farm} (made scenario)", farm=farm.name) if farm.is_made else farm.name


def scenario_words(farm: "Farm") -> str:
    """
    Return what a table says of a farm that is made.

    Parameters
    ----------
    farm : Farm
        Any.

    Returns
    -------
    str
        Empty for a real one.
    """
    return phrase("made scenario") if farm.is_made else ""
