"""
The GeoPackage passes the abstract tests of its standard, by requirement number.

Annex A (abstract test suite) of the GeoPackage Encoding Standard, OGC 12-128, for a file with
features and attributes; Annex F.3 for spatial indexes. Triggers are those of version 1.2.1,
which the executable tests take for files before 1.4.
"""

import re
import sqlite3
import struct
from collections.abc import Iterator
from contextlib import closing

import pytest
import shapely
from pyproj import CRS

from tests.demo_run import demo_folder

# Table 1 of the standard, without lengths.
TYPES = {
    *("BOOLEAN", "TINYINT", "SMALLINT", "MEDIUMINT", "INT", "INTEGER", "FLOAT", "DOUBLE", "REAL"),
    *("TEXT", "BLOB", "DATE", "DATETIME", "POLYGON", "MULTIPOLYGON"),
}
# Annex C: columns that each table of the standard has.
COLUMNS = {
    "gpkg_spatial_ref_sys": (
        *("srs_name", "srs_id", "organization", "organization_coordsys_id", "definition"),
        "description",
    ),
    "gpkg_contents": (
        *("table_name", "data_type", "identifier", "description", "last_change"),
        *("min_x", "min_y", "max_x", "max_y", "srs_id"),
    ),
    "gpkg_geometry_columns": (
        *("table_name", "column_name", "geometry_type_name", "srs_id", "z", "m"),
    ),
    "gpkg_extensions": ("table_name", "column_name", "extension_name", "definition", "scope"),
}
ENVELOPE_BYTES = (0, 32, 48, 48, 64)  # by the contents indicator code of the header


@pytest.fixture(scope="module")
def read() -> Iterator[sqlite3.Connection]:
    path = demo_folder() / "blocks.gpkg"
    assert path.suffix == ".gpkg"  # Req 3
    assert path.read_bytes()[:16] == b"SQLite format 3\0"  # Req 1
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as connection:
        yield connection


def rows(read: sqlite3.Connection, query: str, *values: object) -> list[tuple[object, ...]]:
    return read.execute(query, values).fetchall()


def tables(read: sqlite3.Connection, *kinds: str) -> list[str]:
    listed = rows(read, "SELECT table_name, data_type FROM gpkg_contents")
    return [str(name) for name, kind in listed if kind in kinds]


def test_req_2_application_and_version(read: sqlite3.Connection) -> None:
    assert rows(read, "PRAGMA application_id") == [(0x47504B47,)]
    assert 10200 <= int(str(rows(read, "PRAGMA user_version")[0][0])) < 10400


@pytest.mark.parametrize("table", COLUMNS)
def test_req_10_13_21_58_tables_have_their_columns(read: sqlite3.Connection, table: str) -> None:
    assert {row[1] for row in rows(read, f"PRAGMA table_info({table})")} >= set(COLUMNS[table])


def test_req_5_columns_have_types_of_the_standard(read: sqlite3.Connection) -> None:
    for table in tables(read, "features", "attributes"):
        for row in rows(read, f"PRAGMA table_info({table})"):
            assert re.sub(r"\(\d+\)", "", str(row[2])) in TYPES


def test_req_6_and_7_the_file_is_whole(read: sqlite3.Connection) -> None:
    assert rows(read, "PRAGMA integrity_check") == [("ok",)]
    assert rows(read, "PRAGMA foreign_key_check") == []


def test_req_11_and_12_reference_systems(read: sqlite3.Connection) -> None:
    query = (
        "SELECT organization, organization_coordsys_id, definition "
        "FROM gpkg_spatial_ref_sys WHERE srs_id = ?"
    )
    for number in (-1, 0):
        assert rows(read, query, number) == [("NONE", number, "undefined")]
    for organization, code, definition in rows(read, query, 4326):
        assert (str(organization).upper(), code) == ("EPSG", 4326)
        assert CRS.from_wkt(str(definition)).to_epsg() == 4326
    known = {row[0] for row in rows(read, "SELECT srs_id FROM gpkg_spatial_ref_sys")}
    used = rows(read, "SELECT srs_id FROM gpkg_contents WHERE data_type = 'features'")
    assert {row[0] for row in used} <= known
    assert len(used) == 2


def test_req_14_and_15_contents(read: sqlite3.Connection) -> None:
    there = {row[0] for row in rows(read, "SELECT name FROM sqlite_master")}
    for name, changed in rows(read, "SELECT table_name, last_change FROM gpkg_contents"):
        assert name in there
        assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z", str(changed))


def test_req_22_to_31_and_146_geometry_columns(read: sqlite3.Connection) -> None:
    found = rows(read, "SELECT * FROM gpkg_geometry_columns")
    assert sorted(str(row[0]) for row in found) == sorted(tables(read, "features"))
    for table, column, kind, srs, z, m in found:
        types = {row[1]: row[2] for row in rows(read, f"PRAGMA table_info({table})")}
        assert types[column] == kind
        assert (z in (0, 1, 2), m in (0, 1, 2)) == (True, True)
        of_contents = rows(read, "SELECT srs_id FROM gpkg_contents WHERE table_name = ?", table)
        assert of_contents == [(srs,)]


def test_req_29_118_and_150_each_table_has_a_whole_number_as_its_key(
    read: sqlite3.Connection,
) -> None:
    for table in tables(read, "features", "attributes"):
        keys = [row for row in rows(read, f"PRAGMA table_info({table})") if row[5]]
        assert [row[2] for row in keys] == ["INTEGER"]
        query = f"SELECT COUNT(*) - COUNT(DISTINCT {keys[0][1]}) FROM {table}"  # noqa: S608
        assert rows(read, query) == [(0,)]


def test_req_19_32_33_and_152_shapes_are_as_the_header_says(read: sqlite3.Connection) -> None:
    columns = (
        "SELECT table_name, column_name, geometry_type_name, srs_id FROM gpkg_geometry_columns"
    )
    for table, column, kind, srs in rows(read, columns):
        shapes = rows(read, f"SELECT {column} FROM {table}")  # noqa: S608
        assert shapes
        for (blob,) in shapes:
            assert isinstance(blob, bytes)
            magic, version, flags = struct.unpack_from("<2sBB", blob)
            assert (magic, version) == (b"GP", 0)
            envelope, is_empty, is_extended = (flags >> 1) & 7, (flags >> 4) & 1, (flags >> 5) & 1
            assert (is_extended, is_empty) == (0, 0)
            order = "<" if flags & 1 else ">"
            assert struct.unpack_from(f"{order}i", blob, 4) == (srs,)
            shape = shapely.from_wkb(blob[8 + ENVELOPE_BYTES[envelope] :])
            assert shape.geom_type.upper() == kind
            if envelope:
                west, east, south, north = struct.unpack_from(f"{order}4d", blob, 8)
                assert (west, south, east, north) == shape.bounds


def test_req_60_to_64_extensions(read: sqlite3.Connection) -> None:
    told = rows(read, "SELECT * FROM gpkg_extensions")
    assert told
    for table, column, name, definition, scope in told:
        assert column in {row[1] for row in rows(read, f"PRAGMA table_info({table})")}
        assert re.fullmatch(r"gpkg_\w+", str(name))
        assert str(definition).startswith(("http", "Annex", "mailto:", "Extension Title"))
        assert scope in {"read-write", "write-only"}


def test_req_75_to_77_spatial_indexes(read: sqlite3.Connection) -> None:
    indexed = rows(
        read,
        "SELECT table_name, column_name, scope FROM gpkg_extensions "
        "WHERE extension_name = 'gpkg_rtree_index'",
    )
    assert [row[0] for row in indexed] == tables(read, "features")
    for table, column, scope in indexed:
        assert scope == "write-only"
        name = f"rtree_{table}_{column}"
        made = rows(read, "SELECT sql FROM sqlite_master WHERE name = ?", name)
        assert made == [(f'CREATE VIRTUAL TABLE "{name}" USING rtree(id, minx, maxx, miny, maxy)',)]
        triggers = {
            str(row[0]).removeprefix(f"{name}_")
            for row in rows(
                read,
                "SELECT name FROM sqlite_master WHERE type = 'trigger' AND name LIKE ?",
                f"{name}%",
            )
        }
        assert {"insert", "update2", "update4", "delete"} <= triggers
        assert {"update1", "update6"} & triggers
        assert {"update3", "update5"} & triggers
        count = rows(read, f'SELECT (SELECT COUNT(*) FROM "{name}"), COUNT(*) FROM "{table}"')  # noqa: S608
        assert count[0][0] == count[0][1]
