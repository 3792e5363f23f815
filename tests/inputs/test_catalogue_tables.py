"""The catalogue of messy inputs, letter T: diary and scouting, each fault through the check."""

import zipfile

import openpyxl
import pytest
from openpyxl.styles import Protection

from tests.inputs.catalogue import DIARY, SCOUTING, SmallFarm, assert_told

HEAD = "date,time,block_id,material\n"


@pytest.fixture
def farm(tmp_path):
    return SmallFarm(tmp_path / "farm").build()


def diary(*rows, head=HEAD):
    return lambda farm: farm.write("diary.csv", head + "".join(f"{row}\n" for row in rows))


def more_diary(*rows):
    return lambda farm: farm.add("diary.csv", "".join(f"{row}\n" for row in rows))


def every_block(farm):
    more_diary("2026-02-03,,all,copper")(farm)
    farm.swap("diary.csv", "2026-02-03,06:30,B3,copper", "2026-02-03,06:30,B3,sulfur")
    farm.swap("farm.toml", "[station]", "[diary]\nall_means_every_block = true\n\n[station]")


def scouting(*rows, head="date,block_id,inspected,infected,stage\n"):
    return lambda farm: farm.write("scouting.csv", head + "".join(f"{row}\n" for row in rows))


def outlines(**values):
    return lambda farm: farm.block(1, **values)


def as_workbook(name, rows, change=None):
    def spoil(farm):
        book = openpyxl.Workbook()
        sheet = book.active
        for row in rows:
            sheet.append(row)
        if change:
            change(book, sheet)
        book.save(farm.folder / f"{name}.xlsx")
        farm.swap("farm.toml", f"{name}.csv", f"{name}.xlsx")

    return spoil


def in_utf16(farm):
    farm.write("diary.csv", DIARY.encode("utf-16"))


def with_bad_byte(farm):
    farm.write("diary.csv", DIARY.encode() + b"2026-02-03,06:30,Espa\xf1a,copper\n")


def with_nought(farm):
    farm.write("diary.csv", DIARY.encode() + b"2026-02-03,06:30,B\x003,copper\n")


def locked(farm):
    farm.write("diary.xlsx", bytes.fromhex("d0cf11e0a1b11ae1") + b"\0" * 600)
    farm.swap("farm.toml", "diary.csv", "diary.xlsx")


def packed(*entries, content=b"x"):
    def spoil(farm):
        with zipfile.ZipFile(farm.folder / "diary.xlsx", "w", zipfile.ZIP_DEFLATED) as opened:
            for entry in entries:
                opened.writestr(entry, content)
        farm.swap("farm.toml", "diary.csv", "diary.xlsx")

    return spoil


def link():
    entry = zipfile.ZipInfo("xl/link")
    entry.external_attr = 0o120777 << 16
    return entry


def too_long_a_line(farm):
    farm.write("diary.csv", DIARY + "2026-02-03,06:30," + "B" * 200_000 + ",copper\n")


def too_many_columns(farm):
    farm.write("diary.csv", "date,block_id,material" + ",x" * 2000 + "\n")


ENTITIES = b'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "aaaa">]><x>&a;</x>'
TABLE = [["date", "block_id", "material"], ["2026-02-02", "B1", "sulfur"]]

AMOUNTS = "date,time,block_id,material,rate,rate_unit,area_ha,total_amount\n"
LABELS = "material,rate,rate_unit\nsulfur,2.5,kg/ha\n"


def amounts(row):
    def spoil(farm):
        farm.write("diary.csv", f"{AMOUNTS}{row}\n")
        farm.write("labels.csv", LABELS)
        farm.swap("farm.toml", "[files]\n", '[files]\nlabels = "labels.csv"\n')

    return spoil


CASES = {
    "T01 no row tells the order": (
        diary("03/02/2026,,B1,sulfur", "02/02/2026,,B2,sulfur"),
        "STOP E-DATE-ORDER diary.csv 2 date 03/02/2026",
        "day first or with the month first",
        "column map",
    ),
    "T01 one row tells it": (
        diary("03/02/2026,,B1,sulfur", "29/01/2026,,B2,sulfur"),
        "FIX E-DATE-FORM diary.csv - date 03/02/2026",
        "read with the day first: 2026-02-03",
    ),
    "T02 day numbers": (
        diary("46055,,B1,sulfur"),
        "FIX E-DATE-FORM diary.csv - date 46055",
        "counts from 1900: 2026-02-02",
    ),
    "T02 Thai years": (
        more_diary("2569-02-02,,B1,copper"),
        "HOLD E-DATE diary.csv 4 date 2569-02-02",
        "2569 there is 2026",
    ),
    "T03 two digits": (
        more_diary("02/02/26,,B1,copper"),
        "HOLD E-DATE diary.csv 4 date 02/02/26",
        "a year of two digits",
    ),
    "T03 no such day": (
        more_diary("2026-04-31,,B1,copper"),
        "HOLD E-DATE diary.csv 4 date 2026-04-31",
        "year, month, day",
    ),
    # Decided otherwise: a note, not a hold. A planned spray is no fault of the diary; it never
    # counts as protection either way.
    "T04": (
        more_diary("2026-02-20,,B1,copper"),
        "NOTE E-SPRAY-PLANNED diary.csv 4 date 2026-02-20",
        "not counted as protection",
    ),
    "T05": (
        more_diary("2024-02-02,,B1,copper"),
        "NOTE E-SPRAY-OLD diary.csv - date -",
        "not used",
        "unless the year is wrong",
    ),
    "T06": (
        more_diary("2026-02-02,,B9,copper"),
        "HOLD E-BLOCK-UNKNOWN diary.csv 4 block_id B9",
        'nearest: "B1", "B2", "B3"',
    ),
    "T07 a list": (
        more_diary('2026-02-02,,"B1, B2 & B3",copper'),
        "FIX E-BLOCKS-EXPANDED diary.csv 4 block_id B1, B2 & B3",
        'read as "B1", "B2", "B3"',
    ),
    "T07 a range": (
        more_diary("2026-02-02,,B1-3,copper"),
        "FIX E-BLOCKS-EXPANDED diary.csv 4 block_id B1-3",
        'read as "B1", "B2", "B3"',
    ),
    "T07 all": (
        more_diary("2026-02-02,,all,copper"),
        "HOLD E-BLOCK-UNKNOWN diary.csv 4 block_id all",
        "all_means_every_block = true",
    ),
    "T07 all where the farm says so": (
        every_block,
        "FIX E-BLOCKS-EXPANDED diary.csv 4 block_id all",
        'read as "B1", "B2", "B3"',
    ),
    "T08": (
        more_diary("2026-02-02,,B1,coper"),
        "HOLD E-MATERIAL-UNKNOWN diary.csv 4 material coper",
        '"copper"',
    ),
    # A rate that cannot be is set aside, not its spray: nothing that is ranked hangs on rates.
    "T09 below nought": (
        amounts("2026-02-02,,B1,sulfur,0,kg/ha,2.25,"),
        "HOLD E-RATE diary.csv 2 rate 0",
        "the spray counts all the same",
    ),
    "T09 ten times": (
        amounts("2026-02-02,,B1,sulfur,25,kg/ha,2.25,"),
        "HOLD E-RATE diary.csv 2 rate 25",
        "10 times the label's 2.5 kg/ha",
    ),
    "T09 thousands": (
        amounts('2026-02-02,,B1,sulfur,"0,250",kg/ha,2.25,'),
        "HOLD E-RATE diary.csv 2 rate 0,250",
        "read as 0.25; it may mean 0250",
    ),
    "T10 no unit": (
        amounts("2026-02-02,,B1,sulfur,2.5,,2.25,"),
        "HOLD E-RATE-UNIT diary.csv 2 rate_unit -",
        "its unit is not known",
    ),
    "T10 per volume": (
        amounts("2026-02-02,,B1,sulfur,250,mL/100 L,2.25,"),
        "HOLD E-RATE-UNIT diary.csv 2 rate_unit mL/100 L",
        "the water volume per hectare",
    ),
    "T10 per tree": (
        amounts("2026-02-02,,B1,sulfur,20,g/tree,2.25,"),
        "HOLD E-RATE-UNIT diary.csv 2 rate_unit g/tree",
        "the trees per hectare",
    ),
    "T14 a little": (
        amounts("2026-02-02,,B1,sulfur,2.5,kg/ha,2.4,"),
        "NOTE E-AREA-SPRAYED diary.csv 2 area_ha 2.4",
        "more than the 2.25 ha",
    ),
    "T14 much": (
        amounts("2026-02-02,,B1,sulfur,2.5,kg/ha,5,"),
        "HOLD E-AREA-SPRAYED diary.csv 2 area_ha 5",
        "it is set aside",
    ),
    "T15": (
        amounts("2026-02-02,,B1,sulfur,2.5,kg/ha,2.25,7"),
        "NOTE E-TOTAL diary.csv 2 total_amount 7",
        "rate × area = 5.62",
    ),
    "T11": (
        more_diary("2026-02-03,06:30,B3,copper"),
        "HOLD E-ROW-TWICE diary.csv 4 block_id B3",
        "row 3, and no other start: counted once",
    ),
    "T11 the second without a start": (
        amounts(
            "2026-02-02,06:30,B1,sulfur,2.5,kg/ha,2.25,\n2026-02-02,,B1,sulfur,2.4,kg/ha,2.25,"
        ),
        "HOLD E-ROW-TWICE diary.csv 3 block_id B1",
        "as in row 2",
        "start time",
    ),
    "T12": (
        more_diary("2026-02-02,,B3,Sulfur + copper (tank mix)"),
        "FIX E-MIXTURE-SPLIT diary.csv 4 material Sulfur + copper (tank mix)",
        '"sulfur" and "copper"',
    ),
    "T13": (
        more_diary("2026-02-03,07:30,B1,mineral oil"),
        "NOTE E-OIL-SULFUR diary.csv - material 2026-02-02",
        "within 14 days",
    ),
    "T16 a title and another language": (
        lambda farm: farm.write(
            "diary.csv", "Diario de campo,,\n,,\nFecha,Lote,Producto\n2026-02-02,B1,sulfur\n"
        ),
        "FIX E-COLUMN-SPELLING diary.csv 3 - Fecha",
        '"Lote" as block_id',
    ),
    "T16 title rows": (
        lambda farm: farm.write("diary.csv", f"Spray diary,,,\n\n{DIARY}"),
        "FIX E-TITLE-ROWS diary.csv 3 - -",
        "what is above them is left out",
    ),
    "T16 totals": (
        more_diary("Total,,,2"),
        "HOLD E-ROW-TOTAL diary.csv 4 date Total",
    ),
    "T16 two headings for one column": (
        lambda farm: farm.write("diary.csv", DIARY.replace("date,time,block_id", "date,lote,plot")),
        "STOP E-COLUMN-AMBIGUOUS diary.csv 1 block_id lote",
        '"lote" and "plot"',
        "column map",
    ),
    "T17 two digits": (
        scouting("2026-02-02,B1,50,0,10"),
        "HOLD E-STAGE scouting.csv 2 stage 10",
        'no known stage "10"',
    ),
    # Decided otherwise: words are held with the nearest codes; a list of words for stages of the
    # panicle would be ours alone.
    "T17 words": (
        scouting("2026-02-02,B1,50,0,full bloom"),
        "HOLD E-STAGE scouting.csv 2 stage full bloom",
    ),
    "T18": (
        outlines(planted="250"),
        "HOLD E-PLANTED blocks.geojson - planted 250",
        "taken as unknown",
    ),
    "T19 nearly": (
        outlines(cultivar="Kent 60, Keitt 42"),
        "FIX E-CULTIVAR-SHARES blocks.geojson - cultivar Kent 60, Keitt 42",
        "add up to 102 %",
    ),
    "T19": (
        outlines(cultivar="Kent 60, Keitt 70"),
        "HOLD E-CULTIVAR-SHARES blocks.geojson - cultivar Kent 60, Keitt 70",
        "130 %",
    ),
    "T20 more infected than looked at": (
        scouting("2026-02-02,B1,50,60,"),
        "HOLD E-COUNT scouting.csv 2 infected 60",
        "more than was inspected",
    ),
    "T20 a tally saved twice": (
        scouting(
            "2026-02-02,B1,20,2,t7k2,1/10 1/10",
            "2026-02-02,B1,10,1,t7k2,1/10",
            head="date,block_id,inspected,infected,look_id,tree_counts\n",
        ),
        "HOLD E-TALLY-AGAIN scouting.csv 3 block_id B1",
        "saved more than once",
    ),
    "T20 a share without its number": (
        scouting("2026-02-02,B1,12", head="date,block_id,incidence\n"),
        "NOTE E-SHARE-ALONE scouting.csv 2 infected_percent 12",
        "how many were looked at",
    ),
    "T20 no noughts": (
        scouting(*(f"2026-02-02,B{1 + n % 3},50,{n + 1}," for n in range(12))),
        "NOTE E-NO-ZEROS scouting.csv - infected -",
        "absence",
    ),
    "T24 ratio": (
        packed("xl/sheet.xml", content=b"0" * 20_000_000),
        "STOP E-PACKED diary.xlsx - - -",
        "100 times is the most",
    ),
    "T24 entries": (
        packed(*(f"xl/{number}.xml" for number in range(1001))),
        "STOP E-PACKED diary.xlsx - - -",
        "1001 entries",
    ),
    "T24 a path out": (
        packed("../../out.xml"),
        "STOP E-PACKED diary.xlsx - - -",
        "leads out",
    ),
    "T24 a drive": (packed("C:\\out.xml"), "STOP E-PACKED diary.xlsx - - -", "leads out"),
    "T24 a link": (packed(link()), "STOP E-PACKED diary.xlsx - - -", "link to another file"),
    "T24 nested": (
        packed("xl/more.zip"),
        "STOP E-PACKED diary.xlsx - - -",
        "packed file within",
    ),
    "T24 entities": (
        packed("xl/sheet.xml", content=ENTITIES),
        "STOP E-PACKED diary.xlsx - - -",
        "defines entities",
    ),
    "T25 one line": (too_long_a_line, "STOP E-TEXT diary.csv - - -", "larger than field limit"),
    "T25 columns": (too_many_columns, "STOP E-FILE-LARGE diary.csv 1 - -", "2003 columns", "1000"),
    "T26 UTF-16": (in_utf16, "FIX E-TEXT-ENCODING diary.csv - - -", "UTF-16"),
    "T26 a byte": (with_bad_byte, "STOP E-TEXT diary.csv 4 - -", "is not UTF-8"),
    "T26 NUL": (with_nought, "STOP E-TEXT diary.csv 4 - -", "NUL"),
    "T27 locked": (locked, "STOP E-WORKBOOK diary.xlsx - - -", "locked", "password"),
    "T27 an error cell": (
        as_workbook("diary", [*TABLE, ["2026-02-03", "B2", "#REF!"]]),
        "HOLD E-CELL-ERROR diary.xlsx 3 C #REF!",
        "counts as empty",
    ),
    # Decided otherwise: it stops. Read as empty it could be a count, or a spray, that is lost.
    "T27 a formula without its value": (
        as_workbook("diary", [*TABLE, ["2026-02-03", "B2", "=C2"]]),
        "STOP E-WORKBOOK diary.xlsx - - -",
        "formula in row 3 whose value was never computed",
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_the_fault_is_told_as_the_catalogue_asks(farm, name):
    spoil, told, *words = CASES[name]
    spoil(farm)
    assert_told(farm.check(), told, *words)


def test_t11_two_sprays_of_a_day_count_twice_if_they_start_apart_or_differ_in_rate(farm):
    first = "2026-02-02,06:30,B1,sulfur,2.5,kg/ha,2.25,\n"
    for other in ("2026-02-02,16:30,B1,sulfur,2.5", "2026-02-02,,B1,sulfur,1.5"):
        amounts(f"{first}{other},kg/ha,2.25,")(farm)
        checked = farm.check()
        assert "E-ROW-TWICE" not in checked.codes()
        farm.swap("farm.toml", '[files]\nlabels = "labels.csv"\n', "[files]\n")


def test_t16_hidden_rows_and_further_sheets_are_told(farm):
    def change(book, sheet):
        sheet.row_dimensions[2].hidden = True
        sheet.cell(1, 1).protection = Protection(locked=True)
        book.create_sheet("Notes")

    as_workbook("diary", TABLE, change)(farm)
    checked = farm.check()
    assert checked.only("E-ROWS-HIDDEN")["outcome"] == "NOTE"
    assert '"Notes" is left out' in checked.only("E-SHEETS")["found"]


def test_diary_and_scouting_may_be_workbooks(farm):
    for name, text in (("diary", DIARY), ("scouting", SCOUTING)):
        rows = [line.split(",") for line in text.splitlines()]
        counted = [[int(cell) if cell.isdigit() else cell for cell in row] for row in rows]
        as_workbook(name, counted)(farm)
    assert farm.check().faults == []


PAYLOADS = [
    '=HYPERLINK("x")', "+1", "-1", "@SUM(A1)", "＝1+1", '<img src=x onerror="alert(1)">',
    "</script><script>alert(1)</script>", "javascript:alert(1)", "a\u202egpj.exe", "x" * 10_000,
    "../../x", "C:\\x", "CON", "a/b", "x.", "é" * 300,
]  # fmt: skip


@pytest.mark.parametrize("payload", PAYLOADS, ids=range(len(PAYLOADS)))
def test_t21_to_t23_what_people_write_is_text_and_names_no_file(farm, payload):
    farm.block(1, name=payload, note=payload)
    quoted_cell = '"' + payload.replace('"', '""') + '"'
    more_diary(f"2026-02-02,,{quoted_cell},copper", f"2026-02-02,,B1,{quoted_cell}")(farm)
    checked = farm.check()
    assert checked.only("E-MATERIAL-UNKNOWN")["outcome"] == "HOLD"
    out = farm.folder.parent / "out"
    assert sorted(path.name for path in out.iterdir()) == ["check.csv", "check.html", "columns.csv"]
    page = (out / "check.html").read_text("utf-8")
    assert "<script" not in page
    assert "<img" not in page
    assert "\u202e" not in page
    for fault in checked.faults:
        assert not fault["value"].startswith(("=", "+", "-", "@", "＝"))
