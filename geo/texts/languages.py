"""Which languages are there, and what does each say for an English sentence?"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files

# Of each language all files of its folder are read: one a room, so that a translator opens what
# belongs together.
LANGUAGES = {"en": "English", "es": "Español"}
_CONTEXT = "\x04"  # what parts a context from its text in compiled catalogues too


def _english_form(count: int) -> int:
    return int(count != 1)


@dataclass(frozen=True)
class Language:
    """
    A catalogue of sentences by their English.

    Attributes
    ----------
    tag : str
        BCP 47, as pages name it.
    direction : str
        ``ltr`` or ``rtl``, in which it is written.
    sentences : mapping of str to tuple of str
        Forms by English text; a context stands before it, parted by U+0004. Empty for English.
    of_scripts : frozenset of str
        Keys of the sentences that scripts of pages say.
    locale : str
        Of the Unicode locale data, for dates.
    form : callable
        Place of the form for a count.
    """

    tag: str
    direction: str = "ltr"
    sentences: Mapping[str, tuple[str, ...]] = field(default_factory=dict, repr=False)
    of_scripts: frozenset[str] = frozenset()
    locale: str = "en"
    form: Callable[[int], int] = _english_form

    def said(self, text: str, whom: str = "") -> str:
        """
        Return a sentence, not yet filled.

        Parameters
        ----------
        text : str
            In English.
        whom : str
            What it is said of, if that matters.

        Returns
        -------
        str
            English where the catalogue has nothing.
        """
        found = self.sentences.get(f"{whom}{_CONTEXT}{text}" if whom else text)
        return found[0] if found else text

    def counted(self, one: str, many: str, count: int) -> str:
        """
        Return the sentence for a count, not yet filled.

        Parameters
        ----------
        one, many : str
            In English.
        count : int
            How many.

        Returns
        -------
        str
            English where the catalogue has nothing.
        """
        found = self.sentences.get(one)
        if found and len(found) > 1:
            return found[min(self.form(count), len(found) - 1)]
        return many if _english_form(count) else one


ENGLISH = Language("en")


@cache
def language_of(tag: str) -> Language:
    """
    Return a language by its tag.

    Parameters
    ----------
    tag : str
        One of `LANGUAGES`; a region after it, as in ``es-PE``, is passed over.

    Returns
    -------
    Language
        With its catalogue.

    Raises
    ------
    ValueError
        If there is no catalogue of it.
    """
    short = tag.replace("_", "-").split("-")[0].lower()
    if short not in LANGUAGES:
        message = f"no language {tag!r}: one of {', '.join(LANGUAGES)}"
        raise ValueError(message)
    return ENGLISH if short == "en" else _read(short)


def _read(tag: str) -> Language:
    # Only who asks for another language pays for the reader of catalogues.
    from gettext import c2py

    from babel import Locale
    from babel.messages.pofile import read_po

    sentences: dict[str, tuple[str, ...]] = {}
    of_scripts: set[str] = set()
    form: Callable[[int], int] = _english_form
    for path in sorted((files("geo.texts") / tag).iterdir(), key=lambda file: file.name):
        if not path.name.endswith(".po"):
            continue
        with path.open("rb") as lines:
            catalogue = read_po(lines, locale=tag)
        for message in catalogue:
            said = message.string
            forms = (said,) if isinstance(said, str) else tuple(said or ())
            text = message.id if isinstance(message.id, str) else message.id[0]
            if text and forms and all(forms) and not message.fuzzy:
                key = f"{message.context}{_CONTEXT}{text}" if message.context else text
                sentences[key] = forms
                if any(place.endswith(".js") for place, _ in message.locations):
                    of_scripts.add(key)
        form = c2py(catalogue.plural_expr)
    return Language(
        tag,
        Locale.parse(tag).text_direction,
        sentences,
        frozenset(of_scripts),
        locale=tag,
        form=form,
    )
