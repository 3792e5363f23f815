"""As what is each file of a farm read? Keys of the run record, and their words."""

from geo.texts import mark, phrase, phrase_of

ROLES = (
    mark("settings"),
    mark("outlines"),
    mark("elevation"),
    mark("weather"),
    mark("forecast"),
    mark("loggers"),
    mark("diary"),
    mark("records"),
    mark("scouting"),
    mark("neighbours"),
    mark("places"),
    mark("labels"),
    mark("crews"),
    mark("columns"),
    mark("completed rows"),
)
_OF_STATION = "weather of "


def station_role(name: str) -> str:
    """
    Return the role of one station's weather file, where there are several.

    Parameters
    ----------
    name : str
        Of the station.

    Returns
    -------
    str
        The key.

    Examples
    --------
    >>> station_role("Ridge")
    'weather of Ridge'
    """
    return _OF_STATION + name


def role_words(role: str) -> str:
    """
    Return what a file is read as, for people.

    Parameters
    ----------
    role : str
        One of `ROLES`, or that of a station's weather file.

    Returns
    -------
    str
        In the language spoken now.

    Examples
    --------
    >>> role_words("diary"), role_words("weather of Ridge")
    ('diary', 'weather of Ridge')
    """
    if role.startswith(_OF_STATION):
        return phrase("weather of {station}", station=role.removeprefix(_OF_STATION))
    return phrase_of(role)
