"""Which numbers of a day's round must the user still give?"""

from collections.abc import Iterator

import geopandas as gpd
import numpy as np

from geo.arrays import FloatArray
from geo.errors import Issue, Outcome, quoted
from geo.season.sprayers import Sprayer
from geo.texts import mark, phrase, phrase_for, phrase_of

FILE = "farm.toml"
_STOP = Outcome.STOP
_FIX = {
    "row_spacing": mark(
        "Add metres from row to row there, or a column row_spacing to the outlines"
    ),
    "litres_per_hectare": mark(
        "Add litres a hectare from your calibration and label, or litres_per_1000_m3 with "
        "canopy_height and canopy_width"
    ),
}


def missing_tanks(sprayers: tuple[Sprayer, ...]) -> Iterator[Issue]:
    """
    Return what is wrong with the sprayers of a round.

    Parameters
    ----------
    sprayers : tuple of Sprayer
        As the user described them.

    Yields
    ------
    Issue
        None is described, or one without its tank.
    """
    if not sprayers:
        found = phrase("no sprayer is described")
        fix = phrase("Describe each sprayer under a line [[sprayers]], with name and tank_litres")
        yield Issue("E-SPRAYER-MISSING", _STOP, FILE, found, fix)
    for sprayer in sprayers:
        if sprayer.tank_litres is None:
            where = phrase(
                "{file} [[sprayers]] {name} key {key}",
                file=FILE,
                name=quoted(sprayer.name),
                key="tank_litres",
            )
            fix = phrase("Add how many litres its tank holds: that is never assumed")
            yield Issue("E-KEY-MISSING", _STOP, where, phrase_for("a key", "not given"), fix)


def missing_of_blocks(blocks: gpd.GeoDataFrame, key: str, values: FloatArray) -> Iterator[Issue]:
    """
    Return what is wrong with a number of the blocks.

    Parameters
    ----------
    blocks : geopandas.GeoDataFrame
        The farm's.
    key : str
        As the number would be given in the farm's file.
    values : [any]
        Of each block, NaN where it is not known.

    Yields
    ------
    Issue
        One, if it is missing anywhere.
    """
    lacking = blocks.index[np.isnan(values)]
    if len(lacking):
        found = phrase(
            "not known for {count} of {total} blocks, such as {block}",
            count=len(lacking),
            total=len(blocks),
            block=quoted(lacking[0]),
        )
        where = phrase("{file} key {key}", file=FILE, key=quoted(f"round.{key}"))
        yield Issue("E-KEY-MISSING", _STOP, where, found, phrase_of(_FIX[key]))
