"""Read outlines from GeoParquet, the column store that large cooperatives pass on."""

from importlib.util import find_spec

import geopandas as gpd
from shapely.errors import ShapelyError

from geo.errors import quoted
from geo.inputs.at import WHOLE_FILE
from geo.inputs.reading import LARGEST_BYTES, Reading
from geo.inputs.sheets import MOST_ROWS
from geo.texts import phrase

MARK = b"PAR1"  # with which every such file begins
_BROKEN = (
    ValueError, OSError, KeyError, TypeError, AttributeError, IndexError, RuntimeError, ImportError,
    ShapelyError,
)  # fmt: skip


def is_parquet(reading: Reading) -> bool:
    """
    Return whether a file is a column store.

    Parameters
    ----------
    reading : Reading
        The file.

    Returns
    -------
    bool
        By its first bytes.
    """
    with reading.path.open("rb") as opened:
        return opened.read(len(MARK)) == MARK


def read_parquet(reading: Reading) -> gpd.GeoDataFrame:
    """
    Return the features of a GeoParquet file.

    Parameters
    ----------
    reading : Reading
        The file.

    Returns
    -------
    geopandas.GeoDataFrame
        Where the file names no system, in degrees of WGS 84, as the standard has it.

    Raises
    ------
    InputError
        If its reader is not installed, it unpacks to more than any farm's, or is not GeoParquet.
    """
    if find_spec("pyarrow") is None:
        found = phrase("is GeoParquet")
        fix = phrase('Install its reader: pip install "mangoblock-risk[parquet]"')
        raise reading.refused("E-PARQUET-READER", WHOLE_FILE, found=found, fix=fix)
    from pyarrow.parquet import ParquetFile

    try:
        with ParquetFile(reading.path) as opened:
            told = opened.metadata
            groups = range(told.num_row_groups)
            unpacked = sum(told.row_group(number).total_byte_size for number in groups)
        if told.num_rows > MOST_ROWS or unpacked > LARGEST_BYTES:
            found = phrase(
                "unpacks to {rows} rows of {size:.0f} MB; {most_rows} and {most:.0f} MB are the "
                "most",
                rows=told.num_rows,
                size=unpacked / 1e6,
                most_rows=MOST_ROWS,
                most=LARGEST_BYTES / 1e6,
            )
            fix = phrase("Keep the outlines of this farm")
            raise reading.refused("E-FILE-LARGE", WHOLE_FILE, found=found, fix=fix)
        return gpd.read_parquet(reading.path)
    except _BROKEN as error:
        if reading.is_stopped():
            raise
        fix = phrase("Save the outlines as GeoParquet 1.1, GeoPackage or GeoJSON")
        found = phrase("cannot be read: {error}", error=quoted(error))
        raise reading.refused("E-VECTOR", WHOLE_FILE, found=found, fix=fix) from error
