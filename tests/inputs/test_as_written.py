"""Tables and drawings as people write them: every way of writing that readers understand."""

import struct
import zipfile

import pandas as pd
import pytest

from geo.errors import InputError
from geo.inputs.archives import refuse_bomb
from geo.inputs.reading import Reading
from geo.inputs.several import named_blocks
from geo.inputs.tables import numbers, read_table
from tests.inputs.catalogue import DIARY, SmallFarm, polygon, square
from tests.inputs.test_catalogue_outlines import as_frame, save


@pytest.fixture
def farm(tmp_path):
    return SmallFarm(tmp_path / "farm").build()


def table(tmp_path, text, **columns):
    (tmp_path / "table.csv").write_text(text, "utf-8")
    reading = Reading("any", tmp_path / "table.csv")
    return reading, read_table(reading, **columns)


def test_units_may_stand_below_the_headings(tmp_path):
    text = "time,temp,wind\n,°F,km/h\n2026-02-01T05:00,50,36\n"
    needed = ("time", "air_temperature_degC", "wind_speed_m_s")
    reading, rows = table(tmp_path, text, required=needed)
    assert list(rows.index) == [3]
    assert numbers(reading, rows["air_temperature_degC"]).tolist() == [10.0]
    assert numbers(reading, rows["wind_speed_m_s"]).tolist() == pytest.approx([10.0])
    assert "E-UNITS-ROW" in [issue.code for issue in reading.issues]


def test_a_unit_of_two_words_is_told_from_the_name(tmp_path):
    reading, rows = table(tmp_path, "time,wind_km_h\nx,36\n", required=("time", "wind_speed_m_s"))
    assert numbers(reading, rows["wind_speed_m_s"]).tolist() == pytest.approx([10.0])


def test_a_unit_of_another_quantity_is_refused(tmp_path):
    with pytest.raises(InputError, match='"mm" is no unit for "wind'):
        table(tmp_path, "time,wind (mm)\nx,1\n", required=("time", "wind_speed_m_s"))


@pytest.mark.parametrize(("mark", "words"), [(";", "semicolons"), ("\t", "tabs")])
def test_cells_may_stand_between_other_marks(tmp_path, mark, words):
    text = DIARY.replace(";", " & ").replace(",", mark)
    reading, rows = table(tmp_path, text, required=("date", "block_id"))
    assert rows["block_id"].tolist() == ["B1 & B2", "B3"]
    assert words in reading.issues[0].found


@pytest.mark.parametrize(
    ("cells", "values", "codes"),
    [
        (["1,5", "2", "-0,25", ""], [1.5, 2.0, -0.25], ["E-DECIMAL-COMMA"]),
        (["2,500", "1,250"], [], ["E-NUMBER", "E-NUMBER"]),
        (["1,5", "2.5"], [2.5], ["E-NUMBER"]),
    ],
)
def test_a_decimal_comma_is_read_where_the_whole_column_has_it(tmp_path, cells, values, codes):
    reading = Reading("any", tmp_path / "table.csv")
    read = numbers(reading, pd.Series(cells, name="rain"))
    assert read.dropna().tolist() == values
    assert [issue.code for issue in reading.issues] == codes


def test_many_rows_too_long_are_one_fault(tmp_path):
    with pytest.raises(InputError, match=r"rows 2 to 31 \(30 of them\): 3 cells under 2 headings"):
        table(tmp_path, "date,note\n" + "x,2,5\n" * 30, required=("date",))


@pytest.mark.parametrize("cell", ["B1-B2", "B01 to B03", "B3-1", "B1-X3", "B1-99999"])
def test_only_a_range_of_which_every_block_is_there_is_written_out(tmp_path, cell):
    reading = Reading("any", tmp_path / "table.csv")
    read = named_blocks(reading, pd.Series([cell]), ["B1", "B2", "B3"]).tolist()
    spelt = {"B1-B2": ["B1", "B2"], "B01 to B03": ["B1", "B2", "B3"]}
    assert read == spelt.get(cell, [cell])


def test_many_ways_of_writing_are_said_once(tmp_path):
    ids = [f"B{number}" for number in range(60)]
    cells = pd.Series([f"{a}, {b}" for a, b in zip(ids[:30], ids[30:], strict=True)], name="blocks")
    reading = Reading("any", tmp_path / "table.csv")
    assert len(named_blocks(reading, cells, ids)) == 60
    assert len(reading.issues) == 1
    assert "29 other cells" in reading.issues[0].found


def test_many_unknown_blocks_are_said_once(farm):
    farm.add("diary.csv", "".join(f"2026-02-02,,Z{number},copper\n" for number in range(40)))
    fault = farm.check().only("E-BLOCK-UNKNOWN")
    assert "39 other names" in fault["found"]


def test_many_overlaps_are_said_once(farm):
    farm.blocks = [
        {
            "block_id": f"L{number}",
            "cultivar": "Kent",
            "corners": polygon(square(number, side=210.0)),
        }
        for number in range(22)
    ]
    farm.draw()
    assert "21 pairs of blocks overlap" in farm.check().only("E-OUTLINE-OVERLAP")["found"]


def test_a_shapefile_that_does_not_say_so_may_be_utf_8(farm):
    farm.blocks[0]["block_id"] = "Ñ1"
    save(farm, as_frame(farm), "blocks.shp", encoding="UTF-8")
    (farm.folder / "blocks.cpg").unlink()
    farm.swap("diary.csv", "B1;", "Ñ1;")
    farm.swap("scouting.csv", "B1", "Ñ1")
    assert farm.check().faults == []
    save_again = as_frame(farm).assign(block_id=["A1", "A2", "A3"])
    save_again.to_file(farm.folder / "plain.shp")
    (farm.folder / "plain.cpg").unlink()
    farm.swap("farm.toml", "blocks.shp", "plain.shp")
    assert "E-TEXT-GUESSED" not in farm.check().codes()


def test_a_column_map_holds_for_outlines_too(farm):
    save(farm, as_frame(farm).rename(columns={"block_id": "Sector"}), "b.gpkg")
    assert farm.check().only("E-COLUMN-MISSING")["outcome"] == "STOP"
    farm.write("columns.csv", "file,heading,means\nb.gpkg,Sector,block_id\nother.csv,x,date\n")
    farm.swap("farm.toml", "[files]\n", '[files]\ncolumns = "columns.csv"\n')
    checked = farm.check()
    assert checked.codes() == ["E-COLUMN-MAP-FILE"]


def test_a_station_too_far_away_by_no_slip_we_know_is_refused_all_the_same(farm):
    farm.swap("farm.toml", "longitude = 121.0375", "longitude = 60.0")
    assert "Check signs and order" in farm.check().only("E-STATION-FAR")["fix"]


def test_a_file_that_unpacks_to_too_much_names_its_largest_entry(tmp_path, monkeypatch):
    monkeypatch.setattr("geo.inputs.archives.LARGEST_BYTES", 1000)
    with zipfile.ZipFile(tmp_path / "any.kmz", "w") as packed:
        packed.writestr("doc.kml", b"x" * 5000)
    with pytest.raises(InputError, match=r'most of it "doc.kml"; 0 MB are the most'):
        refuse_bomb(Reading("outlines", tmp_path / "any.kmz"))


def test_a_packed_file_with_a_password_is_refused_in_words(tmp_path):
    path = tmp_path / "any.kmz"
    with zipfile.ZipFile(path, "w") as packed:
        packed.writestr("doc.kml", b"<kml/>")
    content = bytearray(path.read_bytes())
    # The bit that says that an entry is locked, in its own head and in the list at the end.
    for mark, place in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        at = content.index(mark) + place
        content[at : at + 2] = struct.pack("<H", 1)
    path.write_bytes(bytes(content))
    with pytest.raises(InputError, match=r"E-PACKED STOP any.kmz: cannot be unpacked"):
        refuse_bomb(Reading("outlines", path))


def test_a_long_outline_without_neighbours_is_small_all_the_same(farm):
    farm.blocks = [{"block_id": "S1", "cultivar": "Kent", "corners": polygon(square(1, side=5.0))}]
    farm.draw()
    assert farm.check().only("E-OUTLINE-SLIVER")["fix"] == "Join it to a block, or take it out"
