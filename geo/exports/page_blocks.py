"""What the page knows of each block: outline, days, factors, and where its spores come from."""

from typing import Any

import numpy as np
import xarray as xr

from geo.arrays import AnyArray, FloatArray, IntArray
from geo.exports.outlines import encoded_outlines, encoded_points, inside_circles
from geo.exports.pack_steps import Steps, shortened
from geo.ranking.arrival_words import arrival_words
from geo.ranking.classes import CLASS_BREAKS
from geo.ranking.ground import ground_words, of_known_ground
from geo.season.farm import Farm

TOP_SOURCES = 5
LEAST_SHARE = 0.005
# As in arrows.js: a block that less blows into gets no arrow in the overview.
LEAST_BLOWN = 0.05
# What stands for "not known" in whole numbers of 8 and 16 bits.
NO_BYTE, NO_SHORT = 255, -32768


def blocks_data(shown: xr.Dataset, farm: Farm) -> dict[str, Any]:
    """
    Return the blocks as the page reads them.

    Parameters
    ----------
    shown : xarray.Dataset
        The season, cut to the days that the slider runs over.
    farm : Farm
        Outlines, names, cultivars and notes, in the same order.

    Returns
    -------
    dict
        What is the same for every disease: lists by block, and matrices of block by day as text,
        classes as bytes, the hazard as 32-bit numbers, temperatures in tenths of a degree, shares
        in percent.
    """
    circles = inside_circles(farm.blocks.geometry)
    return {
        "outlines": encoded_outlines(farm.blocks.geometry),
        "labels": encoded_points(circles[:, :2], farm.crs),
        "room": plain(circles[:, 2], 1),
        "id": [str(block) for block in shown["block"].values],
        "name": [str(name) for name in farm.blocks["name"]],
        "cultivar": [str(cultivar) for cultivar in farm.blocks["cultivar"]],
        "note": [str(note) for note in farm.blocks["note"]],
        "area": plain(shown["area"].values, 3),
        "elevation": plain(of_known_ground(shown, "elevation"), 1),
        "pool_depth": plain(of_known_ground(shown, "pool_depth"), 1),
        "ground": [ground_words(shown, place) for place in range(shown.sizes["block"])],
        "minimum": _tenths(_by_day(shown, "day_minimum_temperature")),
        "maximum": _tenths(_by_day(shown, "day_maximum_temperature")),
        "humid_hours": _bytes(_by_day(shown, "humid_hours")),
    }


def risk_data(shown: xr.Dataset) -> dict[str, Any]:
    """
    Return what differs from disease to disease.

    Parameters
    ----------
    shown : xarray.Dataset
        The season of a disease, cut to the days that the slider runs over.

    Returns
    -------
    dict
        Lists by block, and matrices of block by day as in `blocks_data`.
    """
    already_in, to_come = shown["already_in"].values, shown["to_come"].values
    total = already_in + to_come
    hidden = np.divide(already_in, total, out=np.full(total.shape, np.nan), where=total > 0)
    return {
        "looked": plain(shown["days_since_look"].values, 0),
        "stage_age": plain(shown["days_since_stage_seen"].values, 0),
        "ahead": significant(shown["hazard_ahead"].values),
        "hidden": plain(hidden, 3),
        "factors": shortened(shown["factors"].transpose("factor", "block").values),
        "hazard": Steps(_by_day(shown, "hazard"), CLASS_BREAKS),
        "stage": _bytes(100 * _by_day(shown, "stage_susceptibility")),
        "protection": _bytes(100 * _by_day(shown, "protection_left")),
        "favourability": _bytes(100 * _by_day(shown, "favourability")),
    }


def sources_data(season: xr.Dataset) -> dict[str, Any]:
    """
    Return where the spores that reach each block come from.

    Parameters
    ----------
    season : xarray.Dataset
        With the arrivals of today.

    Returns
    -------
    dict
        For each block the few largest as [source, share] in ``top``, blocks first among the
        sources, neighbours after them; a sentence on sides and distances in ``words``,
        whether any block gets an arrow from elsewhere in ``blown``,
        and what comes from beyond the map in ``background``, None where nothing is known. The
        rest is the smaller sources.
    """
    block = season["arrival_block"].values
    share = np.nan_to_num(season["arrival_share"].values)
    order = np.lexsort((season["arrival_source"].values, -share, block))
    # Sorted by block, the largest first: a pair's rank is its distance from the block's first.
    rank = np.arange(order.size) - np.searchsorted(block[order], block[order])
    is_blown = season["arrival_source"].values != block
    top: list[list[list[float]]] = [[] for _ in range(season.sizes["block"])]
    named = order[(rank < TOP_SOURCES) & (share[order] >= LEAST_SHARE)]
    pairs = (block, season["arrival_source"].values, share)
    for own, source, part in zip(*(one[named].tolist() for one in pairs), strict=True):
        top[own].append([source, round(part, 4)])
    return {
        "top": top,
        "blown": bool((share[is_blown] >= LEAST_BLOWN).any()),
        "background": plain(np.clip(season["arrival_background"].values, 0.0, 1.0), 4),
        "words": [arrival_words(season, place) for place in range(season.sizes["block"])],
    }


def plain(values: AnyArray, digits: int) -> list[float | None]:
    """
    Return numbers for JSON.

    Parameters
    ----------
    values : [any]
        One dimension.
    digits : int
        Decimals kept.

    Returns
    -------
    list of float or None
        None where the number is not known.

    Examples
    --------
    >>> plain(np.array([1.26, np.nan]), 1)
    [1.3, None]
    """
    return [round(float(value), digits) if np.isfinite(value) else None for value in values]


def significant(values: AnyArray) -> list[float | None]:
    """
    Return numbers for JSON with six figures, whatever their size.

    Parameters
    ----------
    values : [any]
        One dimension.

    Returns
    -------
    list of float or None
        None where the number is not known.
    """
    return [float(f"{value:.6g}") if np.isfinite(value) else None for value in values]


def _by_day(shown: xr.Dataset, name: str) -> FloatArray:
    values: FloatArray = shown[name].transpose("block", "day").values
    return values


def _tenths(values: FloatArray) -> IntArray:
    whole = np.where(np.isnan(values), NO_SHORT, np.round(np.nan_to_num(values) * 10))
    tenths: IntArray = whole.astype("<i2")
    return tenths


def _bytes(values: FloatArray) -> IntArray:
    whole = np.where(np.isnan(values), NO_BYTE, np.round(np.nan_to_num(values)))
    told: IntArray = whole.astype("u1")
    return told
