"""How much healthy tissue is caught by new infection today, and what still reaches back?"""

from dataclasses import replace

import numpy as np

from geo.arrays import FloatArray
from geo.epidemic.tissue import Tissue


def daily_hazard(
    favourability: FloatArray,
    susceptibility: FloatArray,
    inoculum: FloatArray,
    protection: FloatArray,
    *,
    infection_rate: float,
) -> FloatArray:
    r"""
    Return the hazard of infection of a day.

    Parameters
    ----------
    favourability : [1]
        Share of a perfect day.
    susceptibility : [1]
        Cultivar, stage and age together.
    inoculum : [1]
        Background, home and incoming together, as a sporulating share.
    protection : [1]
        Share of infections prevented.
    infection_rate : [d-1]
        Where all the rest is 1.

    Returns
    -------
    [d-1]
        :math:`\lambda = \beta F S Q (1 - P)`.
    """
    return infection_rate * favourability * susceptibility * inoculum * (1.0 - protection)


def infected(tissue: Tissue, hazard_of_day: FloatArray) -> tuple[Tissue, FloatArray]:
    r"""
    Return the tissue after a day's infection, and what was newly infected.

    Parameters
    ----------
    tissue : Tissue
        Of today.
    hazard_of_day : [d-1]
        Over this day, shape (block,).

    Returns
    -------
    tissue : Tissue
        With :math:`H (1 - e^{-\lambda})` moved from healthy to the youngest hidden stage.
        Protection enters here and nowhere else: it never touches what is already in.
    new : [1]
        The share moved, shape (block,).
    """
    new = tissue.healthy * -np.expm1(-hazard_of_day)
    hidden = np.concatenate([tissue.hidden[:1] + new, tissue.hidden[1:]])
    return replace(tissue, healthy=tissue.healthy * np.exp(-hazard_of_day), hidden=hidden), new


def cured(tissue: Tissue, share: FloatArray, reach: FloatArray) -> Tissue:
    """
    Return the tissue after a curative material has reached back: young infection dies.

    Parameters
    ----------
    tissue : Tissue
        Of today, before today's infection.
    share : [1]
        Of the infections within reach that are killed, shape (block,) or one for all; 0 for
        every material without curative action.
    reach : [1]
        How far along its latency an infection may be, same shapes: the days of reach over the
        shortest latent period.

    Returns
    -------
    Tissue
        What is cured is healthy again. An infection's age is read from its stage, so the edge of
        the reach is as soft as the latency; the stage at the edge is reached in part.
    """
    stages = tissue.hidden.shape[0]
    stage = np.arange(stages)[:, None]
    within = np.clip(stages * reach - stage, 0.0, 1.0)
    killed = tissue.hidden * (share * within)
    return replace(
        tissue, healthy=tissue.healthy + killed.sum(axis=0), hidden=tissue.hidden - killed
    )
