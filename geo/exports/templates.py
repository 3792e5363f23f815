"""Static markup of the page. Every value put in is escaped."""

import re
from functools import cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from geo.texts import language, phrase, phrase_for, phrase_of, phrases

PAGE = Path(__file__).parent / "page"
# Comments on lines of their own, and at a line's end those without a quote: it could end a text.
COMMENT = re.compile(
    r"^\s*(?:/\*.*?\*/[^\S\n]*|//[^\n]*)$|(?<=\s)// [^\"'`\n]*$", re.MULTILINE | re.DOTALL
)


def filled(name: str, **values: object) -> str:
    """
    Return a template of the page with its values put in, escaped.

    Parameters
    ----------
    name : str
        File in the page folder.
    **values : object
        What it names. A name it lacks is an error, not a blank.

    Returns
    -------
    str
        Markup.
    """
    return _environment().get_template(name).render(language=language(), **values)


@cache
def joined(names: tuple[str, ...]) -> str:
    """
    Return script or style files one after the other.

    Parameters
    ----------
    names : tuple of str
        Files in the page folder, in the order in which they build on each other.

    Returns
    -------
    str
        Their text without comments and layout: every page carries its own copy.
    """
    return "\n".join(_lean(PAGE / name) for name in names)


def _lean(path: Path) -> str:
    lines = COMMENT.sub("", path.read_text("utf-8")).splitlines()
    return "\n".join(line for line in map(str.strip, lines) if line)


def phrase_html(text: str, /, **values: object) -> Markup:
    """
    Return a sentence with markup of our own, its values escaped.

    Parameters
    ----------
    text : str
        In English, as `geo.texts.phrase` takes it, with the markup in it.
    **values : object
        What stands for the braces.

    Returns
    -------
    markupsafe.Markup
        In the language spoken now.

    Examples
    --------
    >>> phrase_html("<b>{name}</b> is open", name="<i>")
    Markup('<b>&lt;i&gt;</b> is open')
    """
    return Markup(phrase_of(text)).format(**values)  # noqa: S704


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(PAGE),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    # Looked up when a template is filled, so that each is in the language spoken then.
    environment.globals |= {
        "phrase": phrase,
        "phrases": phrases,
        "phrase_for": phrase_for,
        "phrase_of": phrase_of,
        "phrase_html": phrase_html,
    }
    return environment
