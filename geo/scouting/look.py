"""How many trees of each block to look at, and what would it prove to find nothing?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray
from geo.reference.number import values
from geo.scouting.sampling import (
    design_effect,
    share_left_by_none,
    trees_to_estimate,
    trees_to_find,
    wilson_bounds,
)
from geo.texts import phrase, phrase_of

LEAST = 1e-6  # our choice: a share that needs no fewer trees than none at all
PER_CENT_WHOLE = 10.0  # our choice: below it a share in per cent has one decimal


@dataclass(frozen=True, slots=True)
class Look:
    """
    What to look at in each block.

    Attributes
    ----------
    trees : numpy.ndarray
        [1] Shape (block,).
    organs_per_tree : int
        The same everywhere.
    effective : numpy.ndarray
        [1] Organs drawn one by one that would tell as much, shape (block,).
    left : numpy.ndarray
        [1] Share that may be infected though nothing is found, shape (block,).
    hours : numpy.ndarray
        [h] On foot in the block, shape (block,).
    """

    trees: FloatArray
    organs_per_tree: int
    effective: FloatArray
    left: FloatArray
    hours: FloatArray


def look_at(expected_share: FloatArray) -> Look:
    """
    Return how many trees to look at.

    Parameters
    ----------
    expected_share : [1]
        Share of organs that show the disease, as computed, shape (block,). NaN counts as none.

    Returns
    -------
    Look
        Where little is expected, enough trees to find the share that should not be missed; else
        enough to estimate the expected one, between the least and the most of the table.
    """
    table = values("scouting", "look")
    organs = int(table["organs_per_tree"])
    aggregation = table["aggregation"]
    to_find = table["share_to_find"]
    share = np.nan_to_num(np.asarray(expected_share, dtype=float), nan=0.0)
    finding = trees_to_find(
        np.asarray(to_find),
        confidence=table["confidence"],
        organs_per_tree=organs,
        aggregation=aggregation,
    )
    estimating = trees_to_estimate(
        np.maximum(share, LEAST),
        relative_error=table["relative_error"],
        organs_per_tree=organs,
        aggregation=aggregation,
    )
    wanted = np.where(share < to_find, finding, estimating)
    trees = np.clip(np.ceil(wanted), table["least_trees"], table["most_trees"])
    return Look(
        trees=trees,
        organs_per_tree=organs,
        effective=trees * organs / design_effect(organs_per_tree=organs, aggregation=aggregation),
        left=share_left_by_none(
            trees, confidence=table["confidence"], organs_per_tree=organs, aggregation=aggregation
        ),
        hours=np.asarray(trees * table["hours_per_tree"]),
    )


def proof_words(look: Look, block: int, organs: str) -> str:
    """
    Return what to look at and what finding nothing would prove.

    Parameters
    ----------
    look : Look
        Of all blocks.
    block : int
        Which one.
    organs : str
        What people count.

    Returns
    -------
    str
        One or two plain sentences.
    """
    trees, each = int(look.trees[block]), look.organs_per_tree
    confidence, many = values("scouting", "look")["confidence"], trees * each
    # Drawn one by one, so many would leave the same share open.
    alone = np.log1p(-confidence) / np.log1p(-look.left[block])
    return phrase(
        "Look at {each} {organs} on each of {trees} trees. None of {many} would still leave up to "
        "{left} % infected ({confidence} % sure; clumped on trees they prove what {alone:.0f} one "
        "by one would: design effect {effect:.1f}).",
        each=each,
        organs=phrase_of(organs),
        trees=trees,
        many=many,
        left=_per_cent(look.left[block]),
        confidence=_per_cent(confidence),
        alone=alone,
        effect=many / alone,
    )


def effect_words(organs: str) -> str:
    """
    Return by how much clumping widens the interval of a count.

    Parameters
    ----------
    organs : str
        What people count.

    Returns
    -------
    str
        One plain sentence, with the design effect as a number and what it rests on.
    """
    table = values("scouting", "look")
    each, likeness = int(table["organs_per_tree"]), table["aggregation"]
    effect = design_effect(organs_per_tree=each, aggregation=likeness)
    return phrase(
        "Intervals take {each} {organs} of a tree for {alone:.1f} drawn one by one: design effect "
        "{effect:.1f} (likeness on a tree {likeness:.1f}, assumed).",
        each=each,
        organs=phrase_of(organs),
        alone=each / effect,
        effect=effect,
        likeness=likeness,
    )


def count_words(infected: float, inspected: float) -> str:
    """
    Return what a count says, with its interval.

    Parameters
    ----------
    infected, inspected : [1]
        As counted.

    Returns
    -------
    str
        Such as "3 of 50, so 1.2 to 26 %": organs of a count are taken to be clumped as those of
        a look, as many to a tree.
    """
    table = values("scouting", "look")
    # Few organs came from one tree or a few: there clumping cannot weigh more than them all.
    organs = int(min(table["organs_per_tree"], inspected))
    effect = design_effect(organs_per_tree=organs, aggregation=table["aggregation"])
    low, high = wilson_bounds(
        np.asarray(infected / effect),
        np.asarray(inspected / effect),
        confidence=table["confidence"],
    )
    return phrase(
        "{infected:.0f} of {inspected:.0f}, so {low} to {high} %",
        infected=infected,
        inspected=inspected,
        low=_per_cent(float(low)),
        high=_per_cent(float(high)),
    )


def _per_cent(share: float) -> str:
    value = share * 100
    return f"{value:.1f}" if 0 < value < PER_CENT_WHOLE else f"{value:.0f}"
