"""Split the hazard to come into eight factors whose product is exactly the hazard."""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray
from geo.texts import mark


@dataclass(frozen=True, slots=True)
class Factor:
    """
    One of the eight.

    Attributes
    ----------
    name : str
        In English, as tables have it; people are told by `geo.texts.phrase_of`.
    standing : str
        What its numbers rest on: measured, published, label or assumed.
    """

    name: str
    standing: str


FACTORS = (
    Factor(mark("site weather"), "published"),
    Factor(mark("cool pool"), "assumed"),
    Factor(mark("cultivar"), "assumed"),
    Factor(mark("stage"), "assumed"),
    Factor(mark("age"), "assumed"),
    Factor(mark("home inoculum"), "measured"),
    Factor(mark("neighbours"), "assumed"),
    Factor(mark("unprotected share"), "assumed"),
)


def factor_table(
    *,
    site_favourability: FloatArray,
    favourability: FloatArray,
    constant_susceptibility: tuple[FloatArray, FloatArray],
    stage: FloatArray,
    home: FloatArray,
    incoming: FloatArray,
    protection: FloatArray,
) -> FloatArray:
    r"""
    Return the eight factors of each block over the days given.

    Parameters
    ----------
    site_favourability, favourability : [1]
        Shape (block, day): without and with the cool pool.
    constant_susceptibility : [1]
        Cultivar and age, shape (block,) each.
    stage : [1]
        Shape (block, day).
    home, incoming : [1]
        Inoculum of the block with background, and from other sources; shape (block, day).
    protection : [1]
        Shape (block, day).

    Returns
    -------
    [1]
        Shape (block, 8), in the order of `FACTORS`. The product of a row is the mean daily
        hazard. Where a mean has no weight (say no favourable hour at all) the factors nested
        under it are given as unweighted means, and the product is 0 as it should be.

    Notes
    -----
    Nested weighted means: with weights that carry all factors named so far,

    .. math:: \bar F = \sum F / H, \quad \bar S = \sum FS / \sum F, \quad
       \bar Q = \sum FSQ / \sum FS, \quad \bar U = \sum FSQ(1-P) / \sum FSQ,

    so that :math:`\bar F \bar S \bar Q \bar U = \sum FSQ(1-P) / H` exactly. Then
    :math:`\bar F = \bar F_{site} M` and :math:`\bar Q = \bar Q_{home} N`. The law: the product
    of a row equals the mean hazard, and so ratios of rows multiply to the ratio of hazards.
    """
    cultivar, age = constant_susceptibility
    mean_site = site_favourability.mean(axis=1)
    mean_favourability = favourability.mean(axis=1)
    pool = _ratio(mean_favourability, mean_site)
    # A block favourable only because of its pool has no site factor to multiply: give it all to
    # the pool, with the site as the neutral 1.
    only_pool = (mean_site == 0) & (mean_favourability > 0)
    mean_site = np.where(only_pool, 1.0, mean_site)
    pool = np.where(only_pool, mean_favourability, pool)
    by_stage = favourability * stage
    by_home = by_stage * home
    by_all = by_stage * (home + incoming)
    stage_mean = _weighted_mean(stage, favourability)
    home_mean = _ratio(by_home.sum(axis=1), by_stage.sum(axis=1), empty=home.mean(axis=1))
    unweighted_neighbours = _ratio((home + incoming).mean(axis=1), home.mean(axis=1))
    neighbours = _ratio(by_all.sum(axis=1), by_home.sum(axis=1), empty=unweighted_neighbours)
    unprotected = _weighted_mean(1.0 - protection, by_all)
    columns = [mean_site, pool, cultivar, stage_mean, age, home_mean, neighbours, unprotected]
    return np.stack(columns, axis=1)


def _ratio(above: FloatArray, below: FloatArray, *, empty: FloatArray | float = 1.0) -> FloatArray:
    filled = np.where(below == 0, 1.0, below)
    ratio: FloatArray = np.where(below == 0, empty, above / filled)
    return ratio


def _weighted_mean(values: FloatArray, weights: FloatArray) -> FloatArray:
    return _ratio((values * weights).sum(axis=1), weights.sum(axis=1), empty=values.mean(axis=1))
