"""Which diseases on which organs the model knows: always named together."""

from dataclasses import dataclass

from geo.texts import mark, phrase_of


@dataclass(frozen=True, slots=True)
class Disease:
    """
    A disease on an organ.

    Its words are in English: `geo.texts.phrase_of` says them.

    Attributes
    ----------
    key : str
        As the tables and the season name it: quantities of the tables begin with it.
    name : str
        As printed.
    agent : str
        ``powdery mildew`` or ``anthracnose``.
    organ : str
        ``panicle``, ``leaf`` or ``fruit``: whose stages and whose tissue count.
    short : str
        The agent in a word, within a sentence.
    organs : str
        What people look at and count.
    """

    key: str
    name: str
    agent: str
    organ: str
    short: str
    organs: str


DISEASES = (
    Disease(
        "panicle_mildew",
        mark("powdery mildew on panicles"),
        mark("powdery mildew"),
        "panicle",
        mark("mildew"),
        mark("panicles"),
    ),
    Disease(
        "leaf_mildew",
        mark("powdery mildew on leaves"),
        "powdery mildew",
        "leaf",
        "mildew",
        mark("leaves"),
    ),
    Disease(
        "blossom_anthracnose",
        mark("anthracnose on blossom"),
        mark("anthracnose"),
        "panicle",
        "anthracnose",
        "panicles",
    ),
    Disease(
        "fruit_anthracnose",
        mark("anthracnose on fruit"),
        "anthracnose",
        "fruit",
        "anthracnose",
        mark("fruit"),
    ),
)


def disease_named(name: str) -> Disease | None:
    """
    Return the disease that a person means.

    Parameters
    ----------
    name : str
        Its name, in English or as printed in the language spoken, or its key; case does not matter.

    Returns
    -------
    Disease or None
        None if there is no such disease.

    Examples
    --------
    >>> disease_named("Anthracnose on fruit").key
    'fruit_anthracnose'
    """
    wanted = " ".join(name.casefold().split())
    spelled = {disease.key: disease for disease in DISEASES}
    spelled |= {phrase_of(disease.name).casefold(): disease for disease in DISEASES}
    spelled |= {disease.name: disease for disease in DISEASES}
    return spelled.get(wanted)


def disease_with(key: str) -> Disease:
    """
    Return a disease by its key.

    Parameters
    ----------
    key : str
        One of those in `DISEASES`.

    Returns
    -------
    Disease
        The disease.

    Raises
    ------
    KeyError
        If there is no such disease.

    Examples
    --------
    >>> disease_with("fruit_anthracnose").name
    'anthracnose on fruit'
    """
    return {disease.key: disease for disease in DISEASES}[key]
