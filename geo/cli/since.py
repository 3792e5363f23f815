"""The command that tells what changed since an earlier run, and what it prints."""

from collections.abc import Iterator
from itertools import islice
from math import isnan
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from geo.cli.choices import DEFAULT_OUT, DiseaseOption, FarmOption, disease_asked, farm_here
from geo.cli.speech import days_told, factor_lines, fail, progress
from geo.errors import InputError
from geo.ranking.sentences import two_digits
from geo.ranking.then_and_now import largest, move_words

if TYPE_CHECKING:
    from geo.pipeline import Outcome
    from geo.pipeline.changes import Changes
    from geo.ranking.then_and_now import Move

DEFAULT_RECORD = DEFAULT_OUT / "run.json"
MOST_SHOWN = 40  # our own choice: a screen
SPLIT_SHOWN = 3  # our own choice: how many blocks have their change split
SLIGHT = 0.01  # our own choice: two digits are printed
NOTHING = "Nothing changed."
NO_CAUSE = "no input, setting, parameter or version differs"


def changes(  # numpydoc ignore=PR01
    since: Annotated[
        Path, typer.Option(help="Run record of the earlier run.", metavar="RUN.JSON")
    ] = DEFAULT_RECORD,
    disease: DiseaseOption = None,
    farm: FarmOption = None,
) -> None:
    """Print what changed since an earlier run, why, and the exact split of each change."""
    from geo.pipeline import run
    from geo.pipeline.changes import changes_since

    folder = farm or farm_here()
    try:
        with progress() as say:
            outcome = run(folder, say=say)
        of = disease_asked(disease, outcome.farm.settings.disease)
        found = changes_since(since, outcome, of)
    except InputError as error:
        raise fail(error) from error
    if not found.is_any:
        typer.echo(NOTHING)
        return
    made = " (made scenario)" if outcome.farm.is_made else ""
    typer.echo(f"{outcome.farm.name}{made}: {of.name}, hazard of {days_told(outcome)}")
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
    yield f"Against the run of {found.then}:"
    yield from (f"  {cause}" for cause in found.causes or (NO_CAUSE,))
    for blocks, words in ((found.came, "New blocks"), (found.went, "No longer there")):
        if blocks:
            yield f"{words} ({len(blocks)}): {', '.join(blocks)}"
    yield ""
    moved = [move for move in found.moves if move.is_moved]
    if not moved:
        yield "No block's hazard or rank changed."
        return
    yield from _table(moved)
    same = len(found.moves) - len(moved)
    yield from (f"The same as then: {same} of {len(found.moves)} blocks",) if same else ()
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
    width = max(5, *(len(move.block) for move in moved))
    yield f"{'block':<{width}}  {'hazard then':>11}  {'now':>11}  {'ratio':>7}  rank then  now"
    for move in moved[:MOST_SHOWN]:
        one = move.comparison
        ratio = "" if isnan(one.ratio) else two_digits(one.ratio)
        yield (
            f"{move.block:<{width}}  {one.against_hazard:>#11.4g}  {one.hazard:>#11.4g}  "
            f"{ratio:>7}  {move.rank_then or '':>9}  {move.rank or '':>3}"
        )
    if len(moved) > MOST_SHOWN:
        yield f"and {len(moved) - MOST_SHOWN} more"
