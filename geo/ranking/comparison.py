"""Two blocks side by side: eight ratios that multiply to the ratio of their hazards."""

from dataclasses import dataclass
from math import log

import numpy as np
import xarray as xr

from geo.arrays import BoolArray, FloatArray
from geo.ranking.factors import FACTORS, Factor
from geo.reference.diseases import Disease, disease_with
from geo.season.disease import disease_key


@dataclass(frozen=True, slots=True)
class FactorRatio:
    """
    One factor of two blocks.

    Attributes
    ----------
    factor : Factor
        Which one.
    value, other : float
        In the block asked about and in the one it is held against.
    ratio : float
        The first over the second; NaN if the second is 0.
    share : float
        Its share of the difference, as a logarithm; NaN where the hazards are equal or 0.
    standing : str
        What it rests on in these two blocks: a count is measured only where both were counted.
    """

    factor: Factor
    value: float
    other: float
    ratio: float
    share: float
    standing: str


@dataclass(frozen=True, slots=True)
class Comparison:
    """
    Two blocks compared.

    Attributes
    ----------
    disease : Disease
        By which disease.
    block, against : str
        Their ids.
    hazard, against_hazard : float
        Mean daily hazard index over the days ahead.
    ratio : float
        The first over the second; NaN if the second is 0.
    rows : tuple of FactorRatio
        The eight, whose ratios multiply to ``ratio``.
    """

    disease: Disease
    block: str
    against: str
    hazard: float
    against_hazard: float
    ratio: float
    rows: tuple[FactorRatio, ...]


@dataclass(frozen=True, slots=True)
class Ranked:
    """
    What comparing needs of a ranked season, taken out once for any number of blocks.

    Attributes
    ----------
    disease : Disease
        By which disease.
    place : dict of str to int
        Place of each block.
    factors : numpy.ndarray
        [1] Shape (block, 8).
    hazard : numpy.ndarray
        [1] Mean daily hazard index over the days ahead, shape (block,).
    is_counted : numpy.ndarray
        [1] Whether the block was ever counted, shape (block,).
    """

    disease: Disease
    place: dict[str, int]
    factors: FloatArray
    hazard: FloatArray
    is_counted: BoolArray

    def compare(self, block: str, against: str) -> Comparison:
        """
        Return the factor ratios of one block against another.

        Parameters
        ----------
        block, against : str
            Ids of blocks of the season.

        Returns
        -------
        Comparison
            Exact: the ratios are of the very numbers whose product is the hazard.
        """
        one, other = self.place[block], self.place[against]
        return compared(
            self.disease,
            (block, against),
            factors=(self.factors[one], self.factors[other]),
            hazards=(float(self.hazard[one]), float(self.hazard[other])),
            counted=bool(self.is_counted[one] and self.is_counted[other]),
        )


def compared(
    disease: Disease,
    names: tuple[str, str],
    *,
    factors: tuple[FloatArray, FloatArray],
    hazards: tuple[float, float],
    counted: bool = True,
) -> Comparison:
    """
    Return the factor ratios of one row of factors against another.

    Parameters
    ----------
    disease : Disease
        Of both.
    names : tuple of two str
        Of the block asked about, and of what it is held against.
    factors : tuple of two numpy.ndarray
        Their eight factors.
    hazards : tuple of two float
        Their hazards: the products of the factors.
    counted : bool
        Whether people counted in both.

    Returns
    -------
    Comparison
        Exact: the ratios are of the very numbers given.
    """
    first, second = (row.tolist() for row in factors)
    ratios = [_ratio(*pair) for pair in zip(first, second, strict=True)]
    total = _ratio(*hazards)
    has_shares = total > 0 and total != 1.0
    return Comparison(
        disease=disease,
        block=names[0],
        against=names[1],
        hazard=hazards[0],
        against_hazard=hazards[1],
        ratio=total,
        rows=tuple(
            FactorRatio(
                factor=factor,
                value=value,
                other=beside,
                ratio=ratio,
                share=log(ratio) / log(total) if has_shares and ratio > 0 else np.nan,
                standing=factor.standing if counted or factor.standing != "measured" else "assumed",
            )
            for factor, value, beside, ratio in zip(FACTORS, first, second, ratios, strict=True)
        ),
    )


def ranked(season: xr.Dataset) -> Ranked:
    """
    Return what comparing needs of a season.

    Parameters
    ----------
    season : xarray.Dataset
        Ranked.

    Returns
    -------
    Ranked
        For any number of comparisons.
    """
    blocks = season.block.values.tolist()
    return Ranked(
        disease=disease_with(disease_key(season)),
        place={block: place for place, block in enumerate(blocks)},
        factors=season.factors.values,
        hazard=season.hazard_ahead.values,
        is_counted=~np.isnan(season.days_since_look.values),
    )


def compare(season: xr.Dataset, block: str, against: str) -> Comparison:
    """
    Return the factor ratios of one block against another.

    Parameters
    ----------
    season : xarray.Dataset
        Ranked.
    block, against : str
        Ids of blocks of the season.

    Returns
    -------
    Comparison
        As `Ranked.compare` gives it.
    """
    return ranked(season).compare(block, against)


def _ratio(above: float, below: float) -> float:
    return above / below if below > 0 else np.nan
