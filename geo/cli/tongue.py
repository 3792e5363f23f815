"""Which language does the command line speak?"""

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from pathlib import Path

import typer

from geo.texts import LANGUAGES, speaking

OPTION = "--language"
# In the order of POSIX (8.2, Internationalization Variables) and of gettext before it.
ENVIRONMENT = ("LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG")
# Open while a program runs that was asked for no language.
_PROGRAM: ContextVar[typer.Context | None] = ContextVar("program", default=None)


def language_of_computer(environment: Mapping[str, str]) -> str:
    """
    Return the language that the user's computer is set to.

    Parameters
    ----------
    environment : mapping of str to str
        Of the process.

    Returns
    -------
    str
        One that there is a catalogue of; English else.

    Examples
    --------
    >>> language_of_computer({"LANG": "es_PE.UTF-8"}), language_of_computer({"LANG": "C.UTF-8"})
    ('es', 'en')
    """
    for name in ENVIRONMENT:
        # LANGUAGE may list several; the others hold one, with territory and code set.
        for one in environment.get(name, "").split(":"):
            short = one.split(".")[0].split("_")[0].split("@")[0].lower()
            if short in LANGUAGES:
                return short
            if short and name != "LANGUAGE":
                return "en"
    return "en"


def language_first(arguments: Sequence[str]) -> tuple[list[str], str | None]:
    """
    Return the command line with the language in front, wherever it was written.

    Parameters
    ----------
    arguments : sequence of str
        As typed, without the program.

    Returns
    -------
    list of str
        The same, ``--language`` first.
    str or None
        The language, if it is one that we speak: help is told in it too.

    Examples
    --------
    >>> language_first(["map", "farm", "--language", "es"])
    (['--language', 'es', 'map', 'farm'], 'es')
    """
    rest, asked = [], []
    waiting = iter(arguments)
    for word in waiting:
        if word == "--":
            rest += [word, *waiting]
        elif word == OPTION:
            asked = [OPTION, *[value for value in (next(waiting, None),) if value is not None]]
        elif word.startswith(f"{OPTION}="):
            asked = [OPTION, word.partition("=")[2]]
        else:
            rest.append(word)
    value = asked[1] if len(asked) > 1 else None
    return [*asked, *rest], value if value in LANGUAGES else None


@contextmanager
def _running(program: typer.Context) -> Iterator[None]:
    before = _PROGRAM.set(program)
    try:
        yield
    finally:
        _PROGRAM.reset(before)


def speak_asked(program: typer.Context, tag: str | None) -> None:
    """
    Speak the language that was asked for until the program ends.

    Parameters
    ----------
    program : typer.Context
        Of the program, not of a command.
    tag : str or None
        As typed; None where nothing was asked: then `speak_of` may choose the farm's.

    Raises
    ------
    typer.BadParameter
        If there is no catalogue of it.
    """
    if tag is None:
        program.with_resource(_running(program))
        return
    try:
        program.with_resource(speaking(tag))
    except ValueError as error:
        raise typer.BadParameter(str(error), param_hint=OPTION) from error


def speak_of(folder: Path) -> None:
    """
    Speak the language of a farm until the program ends, unless another was asked for.

    Parameters
    ----------
    folder : pathlib.Path
        Holds ``farm.toml``. One that cannot be read is told of later, by who reads it for good.
    """
    program = _PROGRAM.get()
    if program is None:
        return
    try:
        tag = tomllib.loads((folder / "farm.toml").read_text("utf-8")).get("language")
    except (OSError, ValueError, RecursionError):
        return
    if isinstance(tag, str) and tag in LANGUAGES:
        program.with_resource(speaking(tag))
