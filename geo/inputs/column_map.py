"""What did the user say about the columns of the files? A table, as the check writes it."""

import pandas as pd

from geo.errors import Outcome, quoted
from geo.inputs.at import at_row
from geo.inputs.headings import is_known_column
from geo.inputs.names import nearest
from geo.inputs.reading import Reading
from geo.inputs.spellings import SPELLINGS, flat
from geo.inputs.tables import read_table
from geo.texts import mark, phrase

ROLE = "columns"
_Map = dict[str, tuple[str, str]]


def read_column_map(reading: Reading, readings: dict[str, Reading]) -> None:
    """
    Read a column map, and give each file what is said about it.

    Parameters
    ----------
    reading : Reading
        The map: file, heading, means (our column; empty for one to leave out), unit. Faults stand
        in it.
    readings : dict of str to Reading
        The other files.
    """
    table = read_table(reading, required=("file", "heading"), optional=("means", "unit"))
    is_known = table["means"].map(is_known_column) | (table["means"] == "")
    for row, name in table["means"][~is_known].items():
        found = phrase("{column} is no column that is read", column=quoted(name))
        fix = phrase(
            "Write one that is; nearest: {nearest}", nearest=nearest(str(name), list(SPELLINGS))
        )
        at = at_row(row, "means")
        reading.add(Outcome.STOP, "E-COLUMN-MAP", at, found=found, fix=fix)
    of_file = {
        other.path.name: _said(table[table["file"] == other.path.name])
        for other in readings.values()
    }
    for other in readings.values():
        other.column_map = of_file[other.path.name]
    stray = table["file"][~table["file"].isin(of_file)]
    reading.add_rows(
        Outcome.NOTE,
        "E-COLUMN-MAP-FILE",
        stray,
        found=mark("{value} is no file of this farm: what is said of it is left out"),
        fix=phrase("Mend the name, or take the row out"),
    )
    reading.used, reading.held = len(table) - len(stray), len(stray)
    reading.check()


def _said(rows: pd.DataFrame) -> _Map:
    return {
        flat(heading): (means, unit)
        for heading, means, unit in zip(rows["heading"], rows["means"], rows["unit"], strict=True)
    }
