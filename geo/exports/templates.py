"""Static markup of the page. Every value put in is escaped."""

from functools import cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

PAGE = Path(__file__).parent / "page"


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
    return _environment().get_template(name).render(**values)


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
        Their text.
    """
    return "\n".join((PAGE / name).read_text("utf-8") for name in names)


@cache
def _environment() -> Environment:
    return Environment(
        loader=FileSystemLoader(PAGE),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
