"""What do the outlines say of a block's rows and canopy?"""

import geopandas as gpd
import pandas as pd

from geo.errors import Outcome, quoted
from geo.inputs.at import at_column
from geo.inputs.reading import Reading
from geo.inputs.settings_keys import ROUND_KEYS
from geo.texts import phrase

# Columns that hold for their block in place of the key of the same name in [round].
ROWS = ("row_spacing", "row_direction", "canopy_height", "canopy_width")


def row_columns(reading: Reading, blocks: gpd.GeoDataFrame) -> dict[str, pd.Series]:
    """
    Return what is written of rows and canopy; a value that cannot be is noted and left out.

    Parameters
    ----------
    reading : Reading
        The file of outlines, for faults.
    blocks : geopandas.GeoDataFrame
        Index ``block_id``; columns of `ROWS` as text.

    Returns
    -------
    dict of str to pandas.Series
        Metres, and degrees from north; NaN where the farm's own hold.
    """
    read = {}
    for column in ROWS:
        texts, rule = blocks[column], ROUND_KEYS[column]
        value = pd.to_numeric(texts.replace("", "nan"), errors="coerce").astype(float)
        value = value.where(value.between(rule.low, rule.high))
        for block in value.index[value.isna() & (texts != "")]:
            found = phrase(
                "{value} is not within {low:g} to {high:g}: the farm's own is used, if it has one",
                value=quoted(texts[block]),
                low=rule.low,
                high=rule.high,
            )
            at, fix = at_column(column, of=[block]), phrase("Check value and unit")
            reading.add(Outcome.NOTE, "E-ROWS", at, found=found, fix=fix)
        read[column] = value
    return read
