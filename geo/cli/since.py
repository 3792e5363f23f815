"""The command that tells what changed since an earlier run, and what it prints."""

from collections.abc import Iterator
from itertools import islice
from math import isnan
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from geo.cli.choices import DEFAULT_OUT, DiseaseOption, FarmOption, disease_asked, farm_asked
from geo.cli.factor_lines import factor_lines
from geo.cli.speech import days_told, fail, progress
from geo.errors import InputError
from geo.exports.farm_title import farm_title
from geo.ranking.sentences import two_digits
from geo.ranking.then_and_now import largest, move_words
from geo.texts import mark, phrase, phrase_of, phrases

if TYPE_CHECKING:
    from geo.pipeline import Outcome
    from geo.pipeline.changes import Changes
    from geo.ranking.then_and_now import Move

DEFAULT_RECORD = DEFAULT_OUT / "run.json"
MOST_SHOWN = 40  # our own choice: a screen
SPLIT_SHOWN = 3  # our own choice: how many blocks have their change split
SLIGHT = 0.01  # our own choice: two digits are printed
NOTHING = mark("Nothing changed.")
NO_CAUSE = mark("no input, setting, parameter or version differs")


def changes(  # numpydoc ignore=PR01
    since: Annotated[
        Path, typer.Option(help=phrase("Run record of the earlier run."), metavar="RUN.JSON")
    ] = DEFAULT_RECORD,
    disease: DiseaseOption = None,
    farm: FarmOption = None,
) -> None:
    """Print what changed since an earlier run, why, and the exact split of each change."""
    from geo.pipeline import run
    from geo.pipeline.changes import changes_since

    folder = farm_asked(farm)
    try:
        with progress() as say:
            outcome = run(folder, say=say)
        of = disease_asked(disease, outcome.farm.settings.disease)
        found = changes_since(since, outcome, of)
    except InputError as error:
        raise fail(error) from error
    if not found.is_any:
        typer.echo(phrase_of(NOTHING))
        return
    typer.echo(
        phrase(
            "{farm}: {disease}, hazard of {days}",
            farm=farm_title(outcome.farm),
            disease=phrase_of(of.name),
            days=days_told(outcome),
        )
    )
    for line in change_lines(found, outcome):
        typer.echo(line)


def change_lines(found: "Changes", outcome: "Outcome") -> Iterator[str]:
    """
    Return what changed as lines of text.

    Parameters
    ----------
    found : Changes
        Since the earlier run.
    outcome : Outcome
        For the days looked at.

    Yields
    ------
    str
        What differs in the inputs, a table of the blocks that moved, and the exact split of the
        largest changes.
    """
    yield phrase("Against the run of {day}:", day=found.then)
    yield from (f"  {cause}" for cause in found.causes or (phrase_of(NO_CAUSE),))
    for blocks, words in (
        (found.came, mark("New blocks ({count}): {blocks}")),
        (found.went, mark("No longer there ({count}): {blocks}")),
    ):
        if blocks:
            yield phrase_of(words, count=len(blocks), blocks=", ".join(blocks))
    yield ""
    moved = [move for move in found.moves if move.is_moved]
    if not moved:
        yield phrase("No block's hazard or rank changed.")
        return
    yield from _table(moved)
    same = len(found.moves) - len(moved)
    if same:
        yield phrases(
            "The same as then: {same} of {count} block",
            "The same as then: {same} of {count} blocks",
            len(found.moves),
            same=same,
        )
    worth_it = (move for move in largest(moved) if not is_slight(move))
    for move in islice(worth_it, SPLIT_SHOWN):
        yield ""
        yield from factor_lines(move.comparison, outcome)
        yield f"{move.block}: {move_words(move)}"


def is_slight(move: "Move") -> bool:
    """
    Return whether a block's hazard moved by less than anybody would see.

    Parameters
    ----------
    move : Move
        The block.

    Returns
    -------
    bool
        True below one part in a hundred.
    """
    return abs(move.comparison.ratio - 1.0) < SLIGHT


def _table(moved: "list[Move]") -> Iterator[str]:
    block = phrase("block")
    width = max(len(block), *(len(move.block) for move in moved))
    yield (
        f"{block:<{width}}  {phrase('hazard then'):>11}  {phrase('now'):>11}  "
        f"{phrase('ratio'):>7}  {phrase('rank then'):>9}  {phrase('now'):>3}"
    )
    for move in moved[:MOST_SHOWN]:
        one = move.comparison
        ratio = "" if isnan(one.ratio) else two_digits(one.ratio)
        yield (
            f"{move.block:<{width}}  {one.against_hazard:>#11.4g}  {one.hazard:>#11.4g}  "
            f"{ratio:>7}  {move.rank_then or '':>9}  {move.rank or '':>3}"
        )
    if len(moved) > MOST_SHOWN:
        yield phrase("and {count} more", count=len(moved) - MOST_SHOWN)
