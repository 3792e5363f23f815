"""What of spraying a block the command line says: what waiting costs, and what could be sprayed."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from geo.rounds.material_words import NEED_LABELS, by_use, material_words
from geo.texts import phrase, phrase_of

if TYPE_CHECKING:
    from geo.pipeline import Outcome
    from geo.rounds.order import SprayOrder


def waiting_lines(spray: "SprayOrder", block: str) -> Iterator[str]:
    """
    Return where a block stands today, and what leaving it costs.

    Parameters
    ----------
    spray : SprayOrder
        Of the disease asked about.
    block : str
        Its id.

    Yields
    ------
    str
        One line, or none where it is in no list of today.
    """
    for entry in spray.entries:
        if entry.block == block:
            yield phrase(
                "{block}. Spray order No. {rank}. {waiting}",
                block=block,
                rank=entry.rank,
                waiting=entry.waiting,
            )
    for rest in spray.not_worth:
        if rest.block == block:
            yield phrase("{block}. Not worth it now: {reason}", block=block, reason=rest.reason)
    for held in spray.cannot_now:
        if held.block == block:
            yield phrase("{block}. Cannot now: {reason}", block=block, reason=held.reason)


def material_lines(outcome: "Outcome", block: str, disease: str) -> Iterator[str]:
    """
    Return what of the user's label file could be sprayed in a block.

    Parameters
    ----------
    outcome : Outcome
        What was decided.
    block : str
        Its id.
    disease : str
        Key of the disease asked about.

    Yields
    ------
    str
        A line for each material, or how to have them.
    """
    if outcome.farm.labels is None:
        yield phrase_of(NEED_LABELS)
        return
    place = outcome.season.block.values.tolist().index(block)
    if outcome.materials:
        yield phrase("What could be sprayed in {block}, from your own label file:", block=block)
    for material in by_use(outcome.materials, place, disease):
        yield f"  {phrase_of(material.material)}. {material_words(material, place, disease)}"
