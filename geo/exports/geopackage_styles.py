"""Put the ways to paint a GeoPackage's layers into the file itself."""

import sqlite3
from collections.abc import Iterable
from contextlib import closing
from pathlib import Path

from geo.exports.gis_styles import Style
from geo.texts import phrase

# The table as desktop GIS make it for themselves; there is no standard for styles in a GeoPackage.
_MAKE = """
CREATE TABLE layer_styles (
    id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
    f_table_catalog TEXT(256), f_table_schema TEXT(256), f_table_name TEXT(256),
    f_geometry_column TEXT(256), styleName TEXT(30), styleQML TEXT, styleSLD TEXT,
    useAsDefault BOOLEAN, description TEXT, owner TEXT(30), ui TEXT(30), update_time DATETIME
)
"""
# Shapes are in a column "geom": so the library that writes the layers names it.
_ADD = """
INSERT INTO layer_styles (
    f_table_catalog, f_table_schema, f_table_name, f_geometry_column, styleName, styleQML,
    styleSLD, useAsDefault, description, owner, update_time
) VALUES ('', '', ?, 'geom', ?, ?, ?, 1, ?, '', ?)
"""
# Requirement 13 of OGC 12-128r14: a table of a GeoPackage is listed among its contents.
_LIST = (
    "INSERT INTO gpkg_contents (table_name, data_type, identifier, description, last_change) "
    "VALUES ('layer_styles', 'attributes', 'layer_styles', ?, ?)"
)


def add_styles(path: Path, styles: Iterable[Style], *, stamp: str) -> None:
    """
    Add one style to each layer, which is the one it opens with.

    Parameters
    ----------
    path : pathlib.Path
        Of a GeoPackage that holds the layers.
    styles : iterable of Style
        One for each layer.
    stamp : str
        Time of the change, UTC, as GeoPackage writes it.

    Raises
    ------
    OSError
        If there is no room for it.
    """
    try:
        with closing(sqlite3.connect(path)) as connection, connection:
            connection.execute(_MAKE)
            connection.executemany(
                _ADD,
                [(one.layer, one.name, one.qml, one.sld, one.name, stamp) for one in styles],
            )
            connection.execute(_LIST, (phrase("How desktop GIS paint the layers"), stamp))
    except sqlite3.OperationalError as error:
        raise OSError(str(error)) from error
