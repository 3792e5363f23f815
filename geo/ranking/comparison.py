"""Two blocks side by side: eight ratios that multiply to the ratio of their hazards."""

from dataclasses import dataclass
from math import log

import numpy as np
import xarray as xr

from geo.arrays import FloatArray
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
        Exact: the ratios are of the very numbers whose product is the hazard.
    """
    counted = not np.isnan(season.days_since_look.sel(block=[block, against]).values).any()
    return compared(
        disease_with(disease_key(season)),
        (block, against),
        factors=(
            season.factors.sel(block=block).values,
            season.factors.sel(block=against).values,
        ),
        hazards=(
            float(season.hazard_ahead.sel(block=block)),
            float(season.hazard_ahead.sel(block=against)),
        ),
        counted=counted,
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
                other=other,
                ratio=ratio,
                share=log(ratio) / log(total) if has_shares and ratio > 0 else np.nan,
                standing=factor.standing if counted or factor.standing != "measured" else "assumed",
            )
            for factor, value, other, ratio in zip(FACTORS, first, second, ratios, strict=True)
        ),
    )


def _ratio(above: float, below: float) -> float:
    return above / below if below > 0 else np.nan
