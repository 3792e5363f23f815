"""From which side and from how far do today's spores come?"""

from dataclasses import replace

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.dispersal.exchange import Exchange
from geo.season.sectors import COMPASS_POINTS, SECTORS

# Ends of the distance bands between middles of outlines, m. Our own choice; the last one is the
# near distance, beyond which single sources are not told apart.
BAND_ENDS = (100.0, 300.0, 1000.0)
BANDS = len(BAND_ENDS) + 1


def by_band(exchange: Exchange, sporulating: FloatArray, incoming: FloatArray) -> FloatArray:
    """
    Return what comes from each distance band.

    Parameters
    ----------
    exchange : Exchange
        Between sources and blocks.
    sporulating : [1]
        Of each source, shape (source,).
    incoming : [1]
        What each block receives from others in all, shape (block,).

    Returns
    -------
    [1]
        Shape (block, band), the nearest first. Exact for near pairs; all the rest, which the grid
        brings, is from beyond the last end.
    """
    amount = np.where(exchange.is_home, 0.0, exchange.pair_share * sporulating[exchange.source])
    band = np.searchsorted(BAND_ENDS, exchange.apart)
    near = _table(exchange, band, amount, BANDS)[:, :-1]
    return np.column_stack([near, np.maximum(incoming - near.sum(axis=1), 0.0)])


def by_compass(exchange: Exchange, sporulating: FloatArray, incoming: FloatArray) -> FloatArray:
    """
    Return what comes from each of the eight points of the compass.

    Parameters
    ----------
    exchange : Exchange
        Between sources and blocks.
    sporulating : [1]
        Of each source, shape (source,).
    incoming : [1]
        What each block receives from others in all, shape (block,).

    Returns
    -------
    [1]
        Shape (block, compass), from north clockwise. Sides of the grid's share blur by a cell or
        so; the eight are scaled to the incoming spores, so that none is lost.
    """
    part = compass_parts()
    net = exchange.pair_weight * (exchange.share - exchange.turning) * sporulating[exchange.source]
    near = np.where(exchange.is_home, 0.0, net)
    found = _table(exchange, exchange.sector.astype(np.int64), near, SECTORS) @ part
    if exchange.far is not None:
        wind = np.ones(SECTORS) if exchange.sector_weight is None else exchange.sector_weight
        still = replace(exchange.far, sector_weight=np.zeros(SECTORS)).received(sporulating)
        for point, share in enumerate(part.T):
            turned = replace(exchange.far, sector_weight=wind * share)
            found[:, point] += turned.received(sporulating) - still
    found = np.maximum(found, 0.0)
    total = found.sum(axis=1, keepdims=True)
    even = np.full_like(found, 1.0 / len(COMPASS_POINTS))
    scaled: FloatArray = np.divide(found, total, out=even, where=total > 0.0)
    scaled *= incoming[:, None]
    return scaled


def compass_parts() -> FloatArray:
    """
    Return which part of each sector of the wind belongs to each point of the compass.

    Returns
    -------
    [1]
        Shape (sector, compass): a sector between two points counts half for each.
    """
    place = np.arange(SECTORS) * len(COMPASS_POINTS) / SECTORS
    points = np.eye(len(COMPASS_POINTS))
    low, high = np.floor(place).astype(np.int64), np.ceil(place).astype(np.int64)
    parts: FloatArray = (points[low] + points[high % len(COMPASS_POINTS)]) / 2.0
    return parts


def _table(exchange: Exchange, column: IntArray, amount: FloatArray, width: int) -> FloatArray:
    place = exchange.pair_block * width + column
    summed = np.bincount(place, amount, minlength=exchange.block_count * width)
    return summed.reshape(exchange.block_count, width).astype(float)
