"""How is a farm called in a title: a made one says so wherever its name stands alone."""

from geo.season.farm import Farm
from geo.texts import phrase


def farm_title(farm: Farm) -> str:
    """
    Return a farm's name for titles.

    Parameters
    ----------
    farm : Farm
        Any.

    Returns
    -------
    str
        Its name, and that it is made if it is; not yet escaped.
    """
    return phrase("{farm} (made scenario)", farm=farm.name) if farm.is_made else farm.name


def scenario_words(farm: Farm) -> str:
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
