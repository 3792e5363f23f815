"""Put completed rows down in the farm's record of sprays: added at its end, nothing rewritten."""

import csv
import io
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from zoneinfo import ZoneInfo

import pandas as pd

from geo.errors import Issue, Outcome, stop
from geo.exports.files import write_text
from geo.exports.order_tables import FORMULA_STARTS, hour_text
from geo.inputs.at import WHOLE_FILE, at_row
from geo.inputs.drawn import read_drawn
from geo.inputs.folder import open_folder
from geo.inputs.named import Named
from geo.inputs.reading import Reading
from geo.inputs.records import completed_rows, read_record
from geo.reference.cultivars import cultivars
from geo.reference.fungicides import fungicides
from geo.season.spray_record import CELLS, COLUMNS, chained, record_id
from geo.texts import mark, phrase, phrase_for

FILE = "sprays-done.csv"


@dataclass(frozen=True, slots=True)
class Recorded:
    """
    What became of the rows of a completed file.

    Attributes
    ----------
    path : pathlib.Path
        The farm's record.
    is_named : bool
        Whether ``farm.toml`` names it, so that runs count it.
    added, there, planned : int
        Rows put down, rows that stood there already, and rows that are not completed.
    digest : str
        Of the last row; empty for a record without rows.
    issues : tuple of Issue
        What was noted, and which rows were set aside.
    """

    path: Path
    is_named: bool
    added: int
    there: int
    planned: int
    digest: str
    issues: tuple[Issue, ...]


def record_sprays(folder: Path, completed: Path) -> Recorded:
    """
    Add completed rows to the farm's record.

    Parameters
    ----------
    folder : pathlib.Path
        The farm folder.
    completed : pathlib.Path
        Rows as the round writes them, with starts and finishes filled in.

    Returns
    -------
    Recorded
        Giving the same file again adds nothing. A row that names another in ``corrects`` takes its
        place on reading; one without start and finish takes it back.

    Raises
    ------
    InputError
        If a file cannot be used. Then nothing is added.
    """
    opened = open_folder(folder, materials=fungicides())
    drawn = read_drawn(opened, cultivars=cultivars())
    if drawn.blocks is None or opened.settings.is_stopped():
        raise opened.error()
    path = opened.farm.files.get("records", folder / FILE)
    if not completed.is_file() or completed.resolve() == path.resolve():
        found = phrase_for("a file", "is not there")
        if completed.is_file():
            found = phrase("is the record itself")
        fix = phrase("Name the file of completed rows")
        raise stop("E-RECORD-FILE", str(completed), found, fix)
    given, kept = Reading("completed rows", completed), Reading("records", path)
    there = _there(kept)
    table = read_record(given)
    named = Named(list(drawn.blocks.index), drawn.held, fungicides(), opened.farm.zone)
    done = completed_rows(given, table, named)
    is_back = (table["corrects"] != "") & (table["start_time"] == "") & (table["finish_time"] == "")
    rows = table[table.index.isin(done.index) | is_back]
    new, again = _sorted_out(given, rows, done, named.zone, there)
    last = there[-1]["digest"] if there else ""
    tied = chained(new, last)
    if tied:
        before = kept.content().decode("utf-8-sig") if there else ""
        write_text(path, before + _lines(tied, has_header=bool(there)))
    untouched = (table["start_time"] == "") & (table["finish_time"] == "") & ~is_back
    return Recorded(
        path=path,
        is_named="records" in opened.farm.files,
        added=len(tied),
        there=again,
        planned=int(untouched.sum()),
        digest=tied[-1]["digest"] if tied else last,
        issues=(*kept.issues, *given.issues),
    )


def _there(kept: Reading) -> list[dict[str, str]]:
    """Return the rows of the record, in its own columns."""
    if not kept.path.is_file() or kept.is_blank():
        return []
    header = next(csv.reader(io.StringIO(kept.content().decode("utf-8-sig"), newline="")))
    if tuple(header) != COLUMNS:
        fix = phrase("Name another file in records: a new one is then begun")
        found = phrase("its columns are not those of a record in their order")
        raise kept.refused("E-RECORD-COLUMNS", at_row(1), found=found, fix=fix)
    if not kept.content().endswith(b"\n"):
        found, fix = phrase("its last row is cut off"), phrase("Take it from a copy")
        raise kept.refused("E-RECORD-COLUMNS", WHOLE_FILE, found=found, fix=fix)
    return [_texts(row) for row in read_record(kept).to_dict("records")]


def _sorted_out(
    given: Reading,
    table: pd.DataFrame,
    done: pd.DataFrame,
    zone: ZoneInfo,
    there: list[dict[str, str]],
) -> tuple[list[dict[str, str]], int]:
    """Return the rows that are new, and how many are not; what contradicts is set aside."""
    known = {row["record_id"]: row for row in there}
    new: list[dict[str, str]] = []
    again = 0
    for number, cells in zip(table.index, table.to_dict("records"), strict=True):
        row = _texts(cells)
        if number in done.index:
            row |= _ends(row, done["finishes"][number], zone)
        row = {column: _inert(row[column]) for column in CELLS}
        row["record_id"] = row["record_id"] or record_id(row)
        before = known.get(row["record_id"])
        if before is not None and all(before[column] == row[column] for column in CELLS):
            again += 1
        elif before is not None:
            found = mark("{value} stands in the record with other cells: the row is set aside")
            _refuse(given, number, "record_id", row, found)
        elif row["corrects"] and row["corrects"] not in known:
            found = mark("{value} is no record_id of the record: the row is set aside")
            _refuse(given, number, "corrects", row, found)
        else:
            known[row["record_id"]] = row
            new.append(row)
    return new, again


def _refuse(given: Reading, number: object, column: str, row: dict[str, str], found: str) -> None:
    given.add_rows(
        Outcome.HOLD,
        "E-RECORD-ID",
        pd.Series({number: row[column]}, name=column),
        found=found,
        fix=phrase(
            "Correct a row by a new one: its own record_id left empty, the other's in corrects"
        ),
    )


def _ends(row: dict[str, str], finish: pd.Timestamp, zone: ZoneInfo) -> dict[str, str]:
    """Return when people may enter and pick, where the row gives hours and days but no ends."""
    ends = {}
    hours, days = (
        pd.to_numeric(pd.Series([row[name]]), errors="coerce")[0]
        for name in ("re_entry_hours", "pre_harvest_days")
    )
    day = finish.tz_localize("UTC").tz_convert(zone).tz_localize(None).normalize()
    if not row["re_entry_ends"] and pd.notna(hours):
        end = (finish + pd.Timedelta(hours=float(hours))).tz_localize("UTC").tz_convert(zone)
        ends["re_entry_ends"] = hour_text(end)
        # Nobody picks before people may enter.
        entered = end.tz_localize(None).normalize()
    else:
        entered = day
    if not row["pick_from"] and pd.notna(days):
        ends["pick_from"] = f"{max(day + pd.Timedelta(days=int(days)), entered):%Y-%m-%d}"
    return ends


def _texts(cells: Mapping[object, object]) -> dict[str, str]:
    return {column: str(cells[column]) for column in COLUMNS}


def _inert(cell: str) -> str:
    """Return text that no spreadsheet runs; numbers below zero stay numbers."""
    text = cell.replace("\r\n", "\n").replace("\r", "\n").strip()
    is_number = pd.notna(pd.to_numeric(pd.Series([text]), errors="coerce")[0])
    return f"'{text}" if text.startswith(FORMULA_STARTS) and not is_number else text


def _lines(rows: list[dict[str, str]], *, has_header: bool) -> str:
    text = io.StringIO()
    writer = csv.DictWriter(text, COLUMNS, lineterminator="\n")
    if not has_header:
        writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()
