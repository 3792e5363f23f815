"""Read a file of outlines, lines or points, and refuse one that lies nowhere."""

import warnings
from collections.abc import Sequence

import geopandas as gpd
import numpy as np
import pandas as pd
import pyogrio
import shapely
from pyproj import CRS, Transformer
from pyproj.exceptions import ProjError

from geo.errors import InputError, Outcome, quoted
from geo.inputs.archives import refuse_bomb
from geo.inputs.at import WHOLE_FILE, at_feature
from geo.inputs.drawing_files import encoding_of, note_curves, refuse_incomplete
from geo.inputs.drawn_columns import find_columns
from geo.inputs.likely_systems import likely_systems
from geo.inputs.parquet import is_parquet, read_parquet
from geo.inputs.pointers import head_of, refuse_pointers
from geo.inputs.reading import Reading
from geo.texts import phrase, phrases
from geo.texts.lists import listed

# The last: of a system it cannot read the library trips over its own variable.
_BROKEN = (
    pyogrio.errors.DataSourceError, pyogrio.errors.DataLayerError, pyogrio.errors.CRSError,
    UnboundLocalError,
)  # fmt: skip
LARGEST_LONGITUDE, LARGEST_LATITUDE = 180.0, 90.0  # degrees
DEGREES = CRS.from_epsg(4326)


def read_features(
    reading: Reading, *, required: Sequence[str], optional: Sequence[str] = ()
) -> gpd.GeoDataFrame:
    """
    Return the named columns and the geometries of a vector file.

    Parameters
    ----------
    reading : Reading
        The file: anything GDAL reads, with one layer and a coordinate system.
    required, optional : sequence of str
        Columns to take as text, found whatever their case, by the names people use for them or by
        the user's own column map.

    Returns
    -------
    geopandas.GeoDataFrame
        In the file's own coordinate system. The index is the feature's number, from 1.

    Raises
    ------
    InputError
        If the file cannot be read, has no coordinate system or lacks a column.
    """
    frame = _read(reading)
    columns = [str(column) for column in frame.columns if column != "geometry"]
    named = find_columns(reading, columns, required=required, optional=optional)
    blank = pd.Series("", index=frame.index)
    texts = {
        column: _text(frame[named[column]]) if column in named else blank
        for column in (*required, *optional)
    }
    return gpd.GeoDataFrame(texts, geometry=frame.geometry.array, index=frame.index)


def _read(reading: Reading) -> gpd.GeoDataFrame:
    frame = _opened(reading)
    if not isinstance(frame, gpd.GeoDataFrame) or frame.empty:
        found = phrase("no feature")
        fix = phrase("Draw at least one, or leave the file out of farm.toml")
        raise reading.refused("E-VECTOR-EMPTY", WHOLE_FILE, found=found, fix=fix)
    frame.index = pd.RangeIndex(1, len(frame) + 1)
    _refuse_system(reading, frame)
    if shapely.has_z(frame.geometry.array).any():
        found, fix = phrase("heights in the outlines"), phrase("Nothing: they are left out")
        reading.add(Outcome.FIX, "E-HEIGHTS", WHOLE_FILE, found=found, fix=fix)
        frame.geometry = shapely.force_2d(frame.geometry.array)
    return frame


def _opened(reading: Reading) -> gpd.GeoDataFrame | pd.DataFrame:
    refuse_bomb(reading)
    refuse_incomplete(reading)
    refuse_pointers(reading, head_of(reading.path))
    if is_parquet(reading):
        return read_parquet(reading)
    encoding = encoding_of(reading)
    # What the reader only warns of would be lost on a terminal: it is said with the rest.
    with warnings.catch_warnings(record=True) as said:
        warnings.simplefilter("always")
        try:
            frame = _drawn(reading, encoding)
        except InputError:
            raise
        except UnicodeDecodeError as error:
            found = phrase(
                "byte {byte:#04x} in its words is not {alphabet}",
                byte=error.object[error.start],
                alphabet=error.encoding,
            )
            fix = phrase("Save the outlines as GeoPackage, or mend the .cpg file beside them")
            raise reading.refused("E-TEXT", WHOLE_FILE, found=found, fix=fix) from error
        except _BROKEN as error:
            fix = phrase("Save the outlines as GeoPackage or GeoJSON")
            found = phrase("cannot be read: {error}", error=quoted(error))
            raise reading.refused("E-VECTOR", WHOLE_FILE, found=found, fix=fix) from error
    for warning in said:
        found = phrase("read with a warning: {warning}", warning=quoted(warning.message))
        fix = phrase("Check the outlines on the map")
        reading.add(Outcome.NOTE, "E-VECTOR-WARNING", WHOLE_FILE, found=found, fix=fix)
    return frame


def _drawn(reading: Reading, encoding: str | None) -> gpd.GeoDataFrame | pd.DataFrame:
    layers = [name for name, kind in pyogrio.list_layers(reading.path) if kind is not None]
    if len(layers) > 1 or reading.layer:
        _refuse_layers(reading, layers)
    note_curves(reading)
    # Rings that are no rings come as None here, and are set aside like empty ones.
    return pyogrio.read_dataframe(
        reading.path, layer=reading.layer or 0, on_invalid="ignore", encoding=encoding
    )


def _refuse_layers(reading: Reading, layers: Sequence[str]) -> None:
    """Refuse a file of several layers unless the user named one of them."""
    if reading.layer in layers:
        return
    names = ", ".join(f"{quoted(name)} ({_count(reading, name)})" for name in layers)
    found = phrase("{count} layers: {names}", count=len(layers), names=names)
    if reading.layer:
        found = phrase(
            "no layer {layer} among {count} layers: {names}",
            layer=quoted(reading.layer),
            count=len(layers),
            names=names,
        )
    fix = phrase(
        "Write the one that is meant into farm.toml, under [outlines]: layer = {layer}",
        layer=f'"{next(iter(layers), "")}"',
    )
    raise reading.refused("E-LAYERS", WHOLE_FILE, found=found, fix=fix)


def _count(reading: Reading, layer: str) -> str:
    count = pyogrio.read_info(reading.path, layer=layer, force_feature_count=True)["features"]
    return phrases("{count} feature", "{count} features", count)


def _refuse_system(reading: Reading, frame: gpd.GeoDataFrame) -> None:
    # GeoPackage says "Undefined" in words where nobody chose a system.
    if frame.crs is None or frame.crs.name.startswith("Undefined"):
        west, south, east, north = frame.total_bounds
        numbers = {"west": west, "east": east, "south": south, "north": north}
        found = phrase(
            "no coordinate system is named; coordinates run from {west:.6g} to {east:.6g} and "
            "{south:.6g} to {north:.6g}",
            **numbers,
        )
        likely = likely_systems((west + east) / 2.0, (south + north) / 2.0, near=reading.near)
        if likely:
            found = phrase(
                "no coordinate system is named; coordinates run from {west:.6g} to {east:.6g} and "
                "{south:.6g} to {north:.6g}; they would lie near the station in {systems}",
                systems=listed(likely, last="or"),
                **numbers,
            )
        fix = phrase("Set the coordinate system the outlines were drawn in and save them again")
        reading.add(Outcome.STOP, "E-CRS-MISSING", WHOLE_FILE, found=found, fix=fix)
    elif not _leads_to_degrees(frame.crs):
        found = phrase(
            "nothing leads from {system} to places on the earth", system=quoted(frame.crs.name)
        )
        fix = phrase("Save the outlines in WGS 84 or in another system of the whole country")
        reading.add(Outcome.STOP, "E-CRS-UNUSABLE", WHOLE_FILE, found=found, fix=fix)
    elif frame.crs.is_geographic:
        # A corner that is no number sets its outline aside later, and says nothing here.
        bounds = frame.geometry.bounds.replace([-np.inf, np.inf], np.nan)
        is_out = (bounds[["minx", "maxx"]].abs() > LARGEST_LONGITUDE).any(axis=1)
        is_out |= (bounds[["miny", "maxy"]].abs() > LARGEST_LATITUDE).any(axis=1)
        for number in frame.index[is_out][:1]:
            west, south = bounds.loc[number, ["minx", "miny"]]
            reading.add(
                Outcome.STOP,
                "E-CRS-RANGE",
                at_feature(number),
                found=phrase(
                    "corner at {x:.6g}, {y:.6g} is not in degrees of {system}",
                    x=west,
                    y=south,
                    system=frame.crs.name,
                ),
                fix=phrase(
                    "Set the system the outlines were drawn in, or swap the two coordinates"
                ),
            )
    reading.check()


def _leads_to_degrees(system: CRS) -> bool:
    """Return whether places in it can be told in WGS 84: not so on a building site's own grid."""
    try:
        Transformer.from_crs(system, DEGREES, always_xy=True)
    except ProjError:
        return False
    return bool(system.is_geographic or system.is_projected)


def _text(values: pd.Series) -> pd.Series:
    """Return attributes as people wrote them: 7, not 7.0; nothing, not nan."""
    if pd.api.types.is_float_dtype(values):
        whole = values.dropna()
        if (whole == whole.round()).all():
            values = values.astype("Int64")
    texts = values.astype(object).where(values.notna(), "")
    return texts.map(lambda value: str(value).strip()).astype(object)
