"""What changed since an earlier run: in what was read, and so in each block."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from geo.errors import quoted
from geo.inputs.earlier_run import read_earlier_run
from geo.pipeline.closing import record_of
from geo.pipeline.run import Outcome
from geo.ranking.factors import FACTORS
from geo.ranking.then_and_now import Move, Standing, moves, standing
from geo.reference.diseases import Disease
from geo.season.file_roles import role_words
from geo.texts import mark, phrase, phrase_for, phrase_of

# What a changed file may bring, in words; the roles of other files speak for themselves.
BRINGS = {
    "weather": mark("measured hours that were forecast or not there then"),
    "forecast": mark("another forecast"),
    "diary": mark("sprays or acts entered, mended or taken out"),
    "scouting": mark("counts or stages entered, mended or taken out"),
    "outlines": mark("blocks or cultivars drawn or named anew"),
    "neighbours": mark("neighbours drawn or judged anew"),
}


@dataclass(frozen=True, slots=True)
class Changes:
    """
    What changed since an earlier run.

    Attributes
    ----------
    then : str
        Day of the earlier run, as ISO 8601 text.
    causes : tuple of str
        What differs in inputs, settings, parameters and software, a line each.
    moves : tuple of Move
        Each block that is in both, then and now.
    came, went : tuple of str
        Blocks that are in one of the two only.
    """

    then: str
    causes: tuple[str, ...]
    moves: tuple[Move, ...]
    came: tuple[str, ...]
    went: tuple[str, ...]

    @property
    def is_any(self) -> bool:
        """
        Return whether anything changed at all.

        Returns
        -------
        bool
            False for a run on the very same inputs.
        """
        is_moved = any(move.is_moved for move in self.moves)
        return bool(self.causes or self.came or self.went or is_moved)


def changes_since(path: Path, outcome: Outcome, disease: Disease) -> Changes:
    """
    Return what changed since a run whose record was kept.

    Parameters
    ----------
    path : pathlib.Path
        The record, ``run.json``.
    outcome : Outcome
        What is decided now.
    disease : Disease
        By which disease blocks are held against themselves.

    Returns
    -------
    Changes
        The split of each block's change is exact: its ratios multiply to the ratio of hazards.

    Raises
    ------
    InputError
        If the record is not there, is none, or is of another farm or an older form.
    """
    earlier = read_earlier_run(path, farm=outcome.farm.name, disease=disease.key)
    now = standing(outcome.seasons[disease.key])
    then = _standing(earlier["diseases"][disease.key], disease)
    before, after = set(then.blocks), set(now.blocks)
    return Changes(
        then=str(earlier["today"]),
        causes=tuple(_causes(earlier, record_of(outcome))),
        moves=tuple(moves(then, now, against=phrase_for("a time", "then"))),
        came=tuple(block for block in now.blocks if block not in before),
        went=tuple(block for block in then.blocks if block not in after),
    )


def _standing(kept: Mapping[str, Any], disease: Disease) -> Standing:
    rows = [
        [np.nan if row[factor.name] is None else row[factor.name] for factor in FACTORS]
        for row in kept["factors"].values()
    ]
    hazard = [np.nan if value is None else value for value in kept["hazard_ahead"].values()]
    return Standing(
        disease,
        tuple(kept["factors"]),
        np.array(rows, dtype=float).reshape(len(rows), len(FACTORS)),
        np.array(hazard, dtype=float),
    )


def _causes(then: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[str]:
    """Return what differs between two records, a line each."""
    if then["today"] != now["today"]:
        yield phrase("today is {now}, was {then}", now=now["today"], then=then["today"])
    yield from _files(then["files"], now["files"])
    for name, was, value in _other_values(then["settings"], now["settings"]):
        yield phrase("setting {name} is {now}, was {then}", name=name, now=value, then=was)
    for name, was, value in _other_values(then["software"], now["software"]):
        yield phrase("version of {name} is {now}, was {then}", name=name, now=value, then=was)
    tables = sorted(set(then["parameter_set"]) | set(now["parameter_set"]))
    for name in tables:
        if then["parameter_set"].get(name) != now["parameter_set"].get(name):
            yield phrase("parameter table {name} is another", name=name)


def _files(then: list[dict[str, Any]], now: list[dict[str, Any]]) -> Iterator[str]:
    before = {file["role"]: file for file in then}
    after = {file["role"]: file for file in now}
    for role in dict.fromkeys([*before, *after]):
        old, new = before.get(role), after.get(role)
        if new is None:
            yield phrase("{role}: no file any more", role=role_words(role))
        elif old is None:
            yield phrase(
                "{role}: a file, {file}, where there was none",
                role=role_words(role),
                file=quoted(new["name"]),
            )
        elif old["sha256"] != new["sha256"]:
            told = phrase(
                "{role}: {now} used of {file}, {then} then",
                role=role_words(role),
                now=new["used"],
                file=quoted(new["name"]),
                then=old["used"],
            )
            yield f"{told}: {phrase_of(BRINGS[role])}" if role in BRINGS else told


def _other_values(
    then: Mapping[str, Any], now: Mapping[str, Any]
) -> Iterator[tuple[str, str, str]]:
    """Yield the names of what differs, with what it was and what it is."""
    for name in dict.fromkeys([*then, *now]):
        old, new = then.get(name), now.get(name)
        if old != new:
            yield name, quoted(old), quoted(new)
