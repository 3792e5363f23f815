"""The catalogue of messy inputs, letter G: outlines, each fault through the check."""

import json
import sqlite3
import zipfile

import geopandas as gpd
import numpy as np
import pyogrio
import pytest
import shapely
from typer.testing import CliRunner

from geo.cli.commands import app
from tests.inputs.catalogue import (
    EAST,
    NORTH,
    SYSTEM,
    SmallFarm,
    assert_told,
    in_degrees,
    polygon,
    square,
)


@pytest.fixture
def farm(tmp_path):
    return SmallFarm(tmp_path / "farm").build()


def line(corners):
    return {"type": "LineString", "coordinates": in_degrees(corners)}


def swapped(geometry):
    rings = [[[y, x] for x, y in ring] for ring in geometry["coordinates"]]
    return {"type": "Polygon", "coordinates": rings}


def moved(geometry, *, longitude=lambda x: x, latitude=lambda y: y):
    rings = [[[longitude(x), latitude(y)] for x, y in ring] for ring in geometry["coordinates"]]
    return {"type": "Polygon", "coordinates": rings}


def everywhere(farm, change):
    for block in farm.blocks:
        block["corners"] = change(block["corners"])
    farm.draw()


def as_frame(farm):
    shapes = [shapely.Polygon(square(number)) for number in (1, 2, 3)]
    names = [block["block_id"] for block in farm.blocks]
    return gpd.GeoDataFrame({"block_id": names, "cultivar": "Kent"}, geometry=shapes, crs=SYSTEM)


def save(farm, frame, name, **options):
    frame.to_file(farm.folder / name, **options)
    farm.swap("farm.toml", "blocks.geojson", name)


def g01_slip(farm):
    a, b, c, d, _ = square(1)
    x, y = d
    loop = [d, [x - 1.0, y - 1.0], [x - 1.0, y], [x + 0.5, y - 2.0]]
    farm.block(1, corners=polygon([a, b, c, *loop, a]))


def g01_bow_tie(farm):
    a, b, c, d, _ = square(1)
    farm.block(1, corners=polygon([a, c, b, d, a]))


def g02_beyond(farm):
    everywhere(farm, swapped)


def g02_plausible(farm):
    # Near 14.6 N, 45 E both readings are places on the earth.
    everywhere(farm, lambda shape: swapped(moved(shape, longitude=lambda x: x - 76.0)))
    farm.swap("farm.toml", "longitude = 121.0375", "longitude = 45.0375")


def g03(farm):
    save(farm, as_frame(farm), "blocks.shp")
    (farm.folder / "blocks.prj").unlink()


def g04(farm):
    farm.blocks[0]["corners"] = {"type": "Polygon", "coordinates": [square(1)]}
    farm.draw()


def g05_some(farm):
    farm.block(2, area_ha="2.45")


def g05_much(farm):
    farm.block(2, area_ha="4,5")


def g06_other_shape(farm):
    farm.block(2, block_id="B1")


def g06_padded(farm):
    farm.block(1, block_id="7")
    farm.block(2, block_id="BLOCK ０7")


def g06_again(farm):
    farm.blocks.append(dict(farm.blocks[2]))
    farm.draw()


def g07_strip(farm):
    farm.block(1, corners=polygon(square(1, side=200.5)))


def g07_much(farm):
    farm.block(1, corners=polygon(square(1, side=260.0)))


def g08_small(farm):
    farm.block(3, corners=polygon(square(3, side=9.0)))


def g08_narrow(farm):
    west, south = square(3)[0]
    corners = [[west, south], [west + 2, south], [west + 2, south + 400], [west, south + 400]]
    farm.block(3, corners=polygon([*corners, corners[0]]))


def g11(farm):
    shape = polygon(square(1))
    shape["coordinates"] = [[[*corner, 104.0] for corner in shape["coordinates"][0]]]
    farm.block(1, corners=shape)


def g12(farm):
    # Of the formats that the README names GeoPackage alone can hold curves. In what else GDAL reads
    # (GML, FlatGeobuf) they are straightened as finely, and not told: the library says "Polygon".
    # A circle of 80 m: the standard's binary text, since the writers at hand draw no curves.
    x, y, radius = EAST + 275.0, NORTH + 75.0, 80.0
    corners = [(x - radius, y), (x + radius, y), (x - radius, y)]
    packed = np.array([1], np.uint8).tobytes() + np.array([10, 1], "<u4").tobytes()
    packed += np.array([1], np.uint8).tobytes() + np.array([8, 3], "<u4").tobytes()
    packed += np.array(corners, "<f8").tobytes()
    save(farm, as_frame(farm), "blocks.gpkg", driver="GPKG")
    with sqlite3.connect(farm.folder / "blocks.gpkg") as opened:
        for trigger in opened.execute("select name from sqlite_master where type = 'trigger'"):
            opened.execute(f'drop trigger "{trigger[0]}"')
        opened.execute("pragma writable_schema = 1")
        for table in (
            "sqlite_master set sql = ",
            "gpkg_geometry_columns set geometry_type_name = ",
        ):
            column = table.split()[2]
            opened.execute(f"update {table} replace({column}, 'POLYGON', 'CURVEPOLYGON')")
        (head,) = opened.execute("select substr(geom, 1, 8) from blocks where fid = 1").fetchone()
        head = head[:3] + bytes([head[3] & ~0b1110]) + head[4:]
        opened.execute("update blocks set geom = ? where fid = 1", (head + packed,))


def g13_walk(farm):
    corners = square(1)
    corners[-1] = [corners[0][0] + 4.0, corners[0][1]]
    farm.block(1, corners=line(corners))


def g13_closed(farm):
    g13_walk(farm)
    farm.swap("farm.toml", "[station]", "[outlines]\nclose_lines = true\n\n[station]")


def g13_pin(farm):
    farm.block(1, corners={"type": "Point", "coordinates": in_degrees(square(1))[0]})


def g14_null(farm):
    farm.block(1, corners=None)


def g14_few(farm):
    shape = polygon(square(1))
    shape["coordinates"][0] = shape["coordinates"][0][:2]
    farm.block(1, corners=shape)


def g14_not_a_number(farm):
    frame = as_frame(farm)
    corners = square(1)
    corners[1][0] = np.inf
    frame.geometry = [shapely.Polygon(corners), *frame.geometry[1:]]
    save(farm, frame, "blocks.gpkg", driver="GPKG")


def g15(farm):
    angle = np.linspace(0.0, 2.0 * np.pi, 30_001)
    ring = np.c_[EAST + 275.0 + 75.0 * np.cos(angle), NORTH + 75.0 + 75.0 * np.sin(angle)]
    farm.block(1, corners=polygon([*ring[:-1].tolist(), ring[0].tolist()]))


def g16_south(farm):
    farm.swap("farm.toml", "latitude = 14.5955", "latitude = -14.5955")


def g16_west(farm):
    farm.swap("farm.toml", "longitude = 121.0375", "longitude = -121.0375")


def g17(farm):
    frame = as_frame(farm)
    frame.to_file(farm.folder / "all.gpkg", layer="north")
    frame[:1].to_file(farm.folder / "all.gpkg", layer="south")
    farm.swap("farm.toml", "blocks.geojson", "all.gpkg")


def g17_other(farm):
    g17(farm)
    farm.swap("farm.toml", "[station]", '[outlines]\nlayer = "east"\n\n[station]')


def g18_table(farm):
    save(farm, as_frame(farm), "blocks.shp")
    (farm.folder / "blocks.dbf").unlink()


def g18_cloud(farm):
    farm.write("blocks.geojson", b"")


def g19(farm):
    farm.blocks[0]["block_id"] = "España"
    save(farm, as_frame(farm), "blocks.shp", encoding="ISO-8859-1")
    (farm.folder / "blocks.cpg").unlink()
    farm.swap("diary.csv", "B1;", "España;")
    farm.swap("scouting.csv", "B1", "España")


CASES = [
    (g01_slip, "FIX E-OUTLINE-CROSSED blocks.geojson 1 - -", "14.59", "2.25 ha and "),
    (g01_bow_tie, "HOLD E-OUTLINE-CROSSED blocks.geojson 1 - -", "14.59", "0.562 ha and 0.562"),
    (g02_beyond, "STOP E-CRS-RANGE blocks.geojson 1 - -", "corner at 14.59", "swap the two"),
    (g02_plausible, "STOP E-STATION-FAR farm.toml - - -", "look swapped"),
    (g03, "STOP E-CRS-MISSING blocks.shp - - -", "288700 to 289250", "EPSG:32651", "Set the"),
    (g04, "STOP E-CRS-RANGE blocks.geojson 1 - -", "288700", "WGS 84"),
    (g05_some, "NOTE E-AREA blocks.geojson - area_ha 2.45", "2.25 ha is drawn"),
    (g05_much, "HOLD E-AREA blocks.geojson - area_ha 4,5", "set aside"),
    (g06_other_shape, "STOP E-ID-TWICE blocks.geojson 2 - B1", "feature 1", "Give each its own"),
    (g06_again, "FIX E-OUTLINE-TWICE blocks.geojson 4 - -", "as feature 3 too"),
    (g07_strip, "NOTE E-OUTLINE-OVERLAP blocks.geojson - - B2", "by 75 m2, 0.33 %"),
    (g07_much, "HOLD E-OUTLINE-OVERLAP blocks.geojson - - B2", "out of sums of area"),
    (g08_small, "HOLD E-OUTLINE-SLIVER blocks.geojson 3 - -", "0.0081 ha", 'Join it to "B2"'),
    (g08_narrow, "HOLD E-OUTLINE-SLIVER blocks.geojson 3 - -", "only 2.0 m wide"),
    (g11, "FIX E-HEIGHTS blocks.geojson - - -", "heights in the outlines"),
    (g12, "FIX E-OUTLINE-CURVED blocks.gpkg - - CURVEPOLYGON", "4 degrees of arc"),
    (g13_walk, "HOLD E-OUTLINE-KIND blocks.geojson 1 - LineString", "4.0 m apart", "close_lines"),
    (g13_closed, "FIX E-OUTLINE-CLOSED blocks.geojson 1 - -", "4.0 m apart", "on the map"),
    (g13_pin, "HOLD E-OUTLINE-KIND blocks.geojson 1 - Point", "Draw its outline as a polygon"),
    (g14_null, "HOLD E-OUTLINE-EMPTY blocks.geojson 1 - -", "nothing is drawn"),
    (g14_few, "HOLD E-OUTLINE-EMPTY blocks.geojson 1 - -", "nothing is drawn"),
    (g14_not_a_number, "HOLD E-OUTLINE-CORNER blocks.gpkg 1 - -", "no number"),
    (g15, "FIX E-OUTLINE-DENSE blocks.geojson - - -", "30001 corners", "the area changes by"),
    (g16_south, "STOP E-STATION-FAR farm.toml - - -", "sign of the latitude looks lost"),
    (g16_west, "STOP E-STATION-FAR farm.toml - - -", "sign of the longitude looks lost"),
    (g17, "STOP E-LAYERS all.gpkg - - north", '"south" (1 feature)', 'layer = "north"'),
    (g17_other, "STOP E-LAYERS all.gpkg - - east", "among 2 layers"),
    (g18_table, "STOP E-FILE-PART blocks.shp - - blocks.dbf", "Copy all files"),
    (g18_cloud, "STOP E-FILE-EMPTY blocks.geojson - - -", "0 bytes", "cloud"),
    (g19, "NOTE E-TEXT-GUESSED blocks.shp - - -", "byte 0xf1", "accents"),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case[0].__name__)
def test_the_fault_is_told_as_the_catalogue_asks(farm, case):
    spoil, told, *words = case
    spoil(farm)
    assert_told(farm.check(), told, *words)


def test_g06_ids_that_differ_only_in_writing_are_both_set_aside(farm):
    g06_padded(farm)
    held = [fault for fault in farm.check().faults if fault["code"] == "E-ID-LIKE"]
    assert [(fault["outcome"], fault["row"]) for fault in held] == [("HOLD", "1"), ("HOLD", "2")]
    assert 'feature 2 "BLOCK ０7"' in held[0]["found"]


def test_g13_only_lines_that_nearly_close_are_closed(farm):
    g13_closed(farm)
    corners = square(2)
    farm.block(2, corners=line(corners[:4]))
    farm.block(3, corners=line(square(3)[:2]))
    checked = farm.check()
    assert checked.only("E-OUTLINE-CLOSED")["row"] == "1"
    held = [fault["row"] for fault in checked.faults if fault["code"] == "E-OUTLINE-KIND"]
    assert held == ["2", "3"]


def test_g17_one_of_several_layers_is_read_if_it_is_named(farm):
    g17_other(farm)
    farm.swap("farm.toml", '"east"', '"north"')
    assert farm.check().faults == []


def test_g03_without_a_system_degrees_are_told_and_none_is_chosen(farm):
    frame = as_frame(farm).to_crs(4326)
    save(farm, frame, "blocks.shp")
    (farm.folder / "blocks.prj").unlink()
    assert "EPSG:4326" in farm.check().only("E-CRS-MISSING")["found"]
    farm.swap("farm.toml", "longitude = 121.0375", "longitude = 21.0375")
    assert "EPSG" not in farm.check().only("E-CRS-MISSING")["found"]


def test_g09_and_g10_parts_and_holes_are_nothing_to_tell(farm):
    parts = [polygon(square(1, side=60.0)), polygon(square(1, side=60.0, row=1))]
    rings = [part["coordinates"] for part in parts]
    farm.block(1, corners={"type": "MultiPolygon", "coordinates": rings})
    west, south = square(2)[0]
    hole = [[west + x, south + y] for x, y in ((50, 50), (50, 90), (90, 90), (90, 50), (50, 50))]
    farm.block(2, corners=polygon(square(2), hole), area_ha="2.09")
    assert farm.check().faults == []


def test_g20_a_farm_of_one_block_runs_and_blocks_of_one_point_are_set_aside(farm, tmp_path):
    farm.blocks = farm.blocks[:1]
    farm.draw()
    farm.write("diary.csv", "date,block_id,material\n2026-02-02,B1,sulfur\n")
    farm.write("scouting.csv", "date,block_id,inspected,infected\n2026-02-02,B1,50,0\n")
    assert farm.check().exit_code == 0
    told = CliRunner().invoke(app, ["map", str(farm.folder), "--out", str(tmp_path / "maps")])
    assert told.exit_code == 0, told.stderr
    spot = in_degrees(square(1))[0]
    farm.block(1, corners={"type": "Polygon", "coordinates": [[spot, spot, spot, spot]]})
    checked = farm.check()
    assert checked.only("E-NO-BLOCK")["outcome"] == "STOP"


@pytest.mark.parametrize("driver", ["GPKG", "FlatGeobuf", "ESRI Shapefile", "GeoJSON"])
def test_outlines_come_in_many_formats(farm, driver):
    suffix = {"GPKG": "gpkg", "FlatGeobuf": "fgb", "ESRI Shapefile": "shp", "GeoJSON": "json"}
    save(farm, as_frame(farm), f"outlines.{suffix[driver]}", driver=driver)
    assert farm.check().faults == []


def test_a_drawing_of_a_million_words_is_json_all_the_same(farm):
    farm.block(1, note="x" * 1_000_000)
    assert farm.check().faults == []
    assert json.loads((farm.folder / "blocks.geojson").read_text("utf-8"))["features"]
    assert pyogrio.read_info(farm.folder / "blocks.geojson")["features"] == len(farm.blocks)


KML = """\
<?xml version="1.0" encoding="UTF-8"?>
<kml xmlns="http://www.opengis.net/kml/2.2"><Document><name>Farm</name>{}</Document></kml>
"""
PLACEMARK = """\
<Placemark><name>{}</name><Polygon><outerBoundaryIs><LinearRing><coordinates>{}</coordinates>
</LinearRing></outerBoundaryIs></Polygon></Placemark>
"""


def from_a_phone(farm):
    marks = [
        PLACEMARK.format(
            block["block_id"],
            " ".join(f"{x},{y},0" for x, y in block["corners"]["coordinates"][0]),
        )
        for block in farm.blocks
    ]
    return KML.format("".join(marks))


@pytest.mark.parametrize("suffix", ["kml", "kmz"])
def test_outlines_walked_with_a_phone_are_read_by_their_names(farm, suffix):
    text = from_a_phone(farm)
    if suffix == "kml":
        farm.write("blocks.kml", text)
    else:
        with zipfile.ZipFile(farm.folder / "blocks.kmz", "w", zipfile.ZIP_DEFLATED) as packed:
            packed.writestr("doc.kml", text)
    farm.swap("farm.toml", "blocks.geojson", f"blocks.{suffix}")
    checked = farm.check()
    assert set(checked.codes()) == {"E-COLUMN-SPELLING", "E-CULTIVAR-EMPTY", "E-HEIGHTS"}
    assert '"Name" as block_id' in checked.only("E-COLUMN-SPELLING")["found"]


def test_a_phones_file_that_defines_entities_is_not_opened(farm):
    text = from_a_phone(farm).replace("<kml ", '<!DOCTYPE kml [<!ENTITY a "aaaaaaaa">]>\n<kml ', 1)
    farm.write("blocks.kml", text)
    farm.swap("farm.toml", "blocks.geojson", "blocks.kml")
    assert_told(farm.check(), "STOP E-PACKED blocks.kml - - -", "defines entities")


def test_columns_of_outlines_are_found_by_other_names(farm):
    save(farm, as_frame(farm).rename(columns={"block_id": "Lote", "cultivar": "Variety"}), "b.gpkg")
    checked = farm.check()
    assert checked.codes() == ["E-COLUMN-SPELLING"]
    assert '"Lote" as block_id; "Variety" as cultivar' in checked.faults[0]["found"]
