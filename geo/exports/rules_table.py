"""The rival rules as CSV: a row for each block and day."""

from itertools import product
from pathlib import Path

import xarray as xr

from geo.exports.farm_title import scenario_words
from geo.exports.files import write_text
from geo.exports.order_tables import LEVEL, as_csv
from geo.exports.rules_data import readings
from geo.rules import RIVALS
from geo.season.farm import Farm
from geo.season.today import today_index
from geo.texts import phrase_of

MOST_ROWS = 200_000  # what a spreadsheet still opens
OF_A_ROW = ("farm", "day", "is_after_today", "block_id", "name")
OURS = ("our_favourability_0_to_1", "our_hazard_index")
COLUMNS = (
    *OF_A_ROW,
    *OURS,
    *(rival.column for rival in RIVALS),
    "disease_of_ours",
    "honesty_level",
    "scenario",
)


def write_rules(
    path: Path, *, farm: Farm, season: xr.Dataset, disease: str, most_rows: int = MOST_ROWS
) -> None:
    """
    Write what each rule says of each block and day.

    Parameters
    ----------
    path : pathlib.Path
        Of the CSV.
    farm : Farm
        For the blocks' names.
    season : xarray.Dataset
        With ``rule_reading``.
    disease : str
        Name of the disease that our own two columns are about.
    most_rows : int
        On a farm too large for all its days only the last ones are written, whole days only and
        one at least.
    """
    blocks = [str(block) for block in season["block"].values]
    days = [str(day) for day in season["day"].values.astype("datetime64[D]")]
    first = max(0, len(days) - max(1, most_rows // len(blocks)))
    today = today_index(season)
    columns = [reading.by_day.tolist() for reading in readings(season)]
    names = [str(name) for name in farm.blocks.loc[blocks, "name"]]
    scenario = scenario_words(farm)
    rows = [
        [
            farm.name, days[day], int(day > today), blocks[block], names[block],
            *(column[block][day] for column in columns), disease, phrase_of(LEVEL), scenario,
        ]
        for day, block in product(range(first, len(days)), range(len(blocks)))
    ]  # fmt: skip
    write_text(path, as_csv(COLUMNS, rows))
