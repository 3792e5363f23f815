"""Which outlines have the same id, or one that people take for the same?"""

import re

import geopandas as gpd
import numpy as np
import pandas as pd

from geo.arrays import BoolArray
from geo.errors import Outcome, quoted
from geo.inputs.at import at_feature
from geo.inputs.names import plain
from geo.inputs.reading import Reading
from geo.texts import phrase

_WORD = re.compile(r"^(?:block|blk|lot|plot|field)\b[\s.:#-]*(?=\S)")
_PADDING = re.compile(r"(?<!\d)0+(?=\d)")
_GAP = re.compile(r"[\s_-]+")


def bare(name: str) -> str:
    """
    Return an id without all that people leave out or add when they write it down.

    Parameters
    ----------
    name : str
        As written.

    Returns
    -------
    str
        For comparison only.

    Examples
    --------
    >>> [bare(name) for name in ("7", "07", " 7 ", "BLOCK 7", "Block-07", "７")]
    ['7', '7', '7', '7', '7', '7']
    """
    return _PADDING.sub("", _GAP.sub("", _WORD.sub("", plain(name))))


def without_twins(reading: Reading, features: gpd.GeoDataFrame, key: str) -> gpd.GeoDataFrame:
    """
    Return features of which no two have the same id.

    Parameters
    ----------
    reading : Reading
        The file of outlines.
    features : geopandas.GeoDataFrame
        Index their number in the file.
    key : str
        Column of ids.

    Returns
    -------
    geopandas.GeoDataFrame
        One of those that stand there twice in the same shape; none of those whose ids differ only
        in how they are written, since nobody can tell which of them a note means.

    Raises
    ------
    InputError
        If the same id is given to two different shapes.
    """
    ids = features[key]
    same = _same_shape(features, ids)
    for number, name in ids[same].items():
        first = ids.index[ids == name][0]
        found = phrase("stands there twice, as feature {first} too: it counts once", first=first)
        at = at_feature(number, name)
        reading.add(
            Outcome.FIX, "E-OUTLINE-TWICE", at, found=found, fix=phrase("Take one of them out")
        )
    kept = features[~same]
    _refuse_same(reading, kept[key])
    bares = kept[key].map(bare)
    is_like = (bares.duplicated(keep=False) & (bares != "")).to_numpy()
    for number, name in kept[key][is_like].items():
        others = kept.index[(bares == bares[number]).to_numpy() & (kept.index != number)]
        found = phrase(
            "differs from feature {number} {name} only in how it is written, so notes may mean "
            "either: both are set aside",
            number=others[0],
            name=quoted(kept[key][others[0]]),
        )
        fix = phrase("Give each an id that cannot be taken for the other")
        reading.add(Outcome.HOLD, "E-ID-LIKE", at_feature(number, name), found=found, fix=fix)
    return kept[~is_like]


def _same_shape(features: gpd.GeoDataFrame, ids: pd.Series) -> BoolArray:
    """Return which features repeat an earlier one, corner for corner."""
    is_again = np.zeros(len(features), dtype=bool)
    for place in np.flatnonzero((ids.duplicated() & (ids != "")).to_numpy()):
        first = int(np.flatnonzero((ids == ids.iloc[place]).to_numpy())[0])
        one, other = features.geometry.iloc[first], features.geometry.iloc[place]
        is_again[place] = one is not None and other is not None and one.equals(other)
    return is_again


def _refuse_same(reading: Reading, ids: pd.Series) -> None:
    for number, name in ids[ids.duplicated() & (ids != "")].items():
        first = ids.index[ids == name][0]
        found = phrase(
            "the same id as feature {number} {name}, with another shape",
            number=first,
            name=quoted(name),
        )
        fix = phrase("Give each its own, or join the two into one outline of several parts")
        reading.add(Outcome.STOP, "E-ID-TWICE", at_feature(number, name), found=found, fix=fix)
    reading.check()
