"""Whose spores reached each block, source by source, with the small ones summed?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.dispersal.exchange import Exchange
from geo.dispersal.sides import by_band, by_compass

LEAST_SHARE = 1e-3  # our choice: smaller sources are summed


@dataclass(frozen=True, slots=True)
class Arrivals:
    """
    What each block received, as shares of all it received.

    Attributes
    ----------
    block, source : numpy.ndarray
        Of each pair kept, shape (pair,), sorted by block. A block's own pair is always kept.
    share : numpy.ndarray
        Shape (pair,).
    rest : numpy.ndarray
        Share of all other sources on the map together, shape (block,).
    home : numpy.ndarray
        Share of the block itself, which is one of the pairs; shape (block,).
    background : numpy.ndarray
        Share from beyond the map, shape (block,). With the pairs and the rest it makes 1.
    from_band : numpy.ndarray
        Share by distance, shape (block, band). With home and background it makes 1.
    from_compass : numpy.ndarray
        Share by the side it comes from, shape (block, compass); the same.
    """

    block: IntArray
    source: IntArray
    share: FloatArray
    rest: FloatArray
    home: FloatArray
    background: FloatArray
    from_band: FloatArray
    from_compass: FloatArray


def arrivals(
    exchange: Exchange,
    sporulating: FloatArray,
    *,
    background: float,
    least_share: float = LEAST_SHARE,
) -> Arrivals:
    """
    Return whose spores reached each block on a day.

    Parameters
    ----------
    exchange : Exchange
        Between sources and blocks.
    sporulating : [1]
        Of each source, shape (source,).
    background : [1]
        What reaches every block from beyond the map.
    least_share : [1]
        Smallest share of a source that is told by name.

    Returns
    -------
    Arrivals
        Near sources by name, all others in the rest.
    """
    home, incoming = exchange.received(sporulating)
    total = home + incoming + background
    block = exchange.pair_block
    share = exchange.pair_share * sporulating[exchange.source] / total[block]
    is_kept = (share >= least_share) | exchange.is_home
    block, share = block[is_kept], share[is_kept]
    told = np.bincount(block, share, minlength=total.size)
    rest = np.maximum((home + incoming) / total - told, 0.0)
    return Arrivals(
        block=block,
        source=exchange.source[is_kept],
        share=share,
        rest=rest,
        home=home / total,
        background=background / total,
        from_band=by_band(exchange, sporulating, incoming) / total[:, None],
        from_compass=by_compass(exchange, sporulating, incoming) / total[:, None],
    )
