"""The two orders as CSV, for the diary and the spreadsheet."""

import csv
import io
from collections.abc import Iterable, Sequence
from math import isnan
from pathlib import Path

import xarray as xr

from geo.exports.files import write_text
from geo.ranking.factors import FACTORS
from geo.rounds.order import SprayOrder
from geo.scouting.order import ScoutingOrder
from geo.season.farm import Farm

# A cell that begins with one of these runs as a formula in a spreadsheet (CWE-1236).
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
SPRAY_COLUMNS = (
    "today",
    "list",
    "rank",
    "block_id",
    "name",
    "hazard_index",
    "ratio_to_reference",
    "ratio_low",
    "ratio_high",
    "reference_block",
    "area_ha",
    "sprayer_hours",
    "material",
    "rule",
    "closing_day",
    "value_degC",
    "limit_degC",
    "clears",
    "reason",
)
SCOUTING_COLUMNS = (
    "today",
    "rank",
    "block_id",
    "name",
    "score",
    "doubt",
    "stake",
    "days_since_look",
    "reason",
    "honesty_level",
    "scenario",
)
LEVEL = "relative: ratios and orders, no probabilities"


def write_spray_order(path: Path, *, farm: Farm, season: xr.Dataset, order: SprayOrder) -> None:
    """
    Write the spray order, and after it the blocks that a rule keeps out.

    Parameters
    ----------
    path : pathlib.Path
        Of the CSV.
    farm : Farm
        For the blocks' names.
    season : xarray.Dataset
        For the factors.
    order : SprayOrder
        What was decided.
    """
    factors = [f"factor {factor.name}" for factor in FACTORS]
    header = [*SPRAY_COLUMNS, *factors, "honesty_level", "scenario"]
    first = [
        [
            order.today, "spray order", entry.rank, entry.block, _name(farm, entry.block),
            entry.hazard, entry.ratio, entry.low, entry.high, order.reference_block,
            entry.area, entry.sprayer_hours, order.material, None, None, None, None, None,
            entry.reason, *_factors(season, entry.block), LEVEL, _scenario(farm),
        ]
        for entry in order.entries
    ]  # fmt: skip
    then = [
        [
            order.today, "cannot now", None, held.block, _name(farm, held.block),
            held.hazard, None, None, None, order.reference_block,
            float(season.area.sel(block=held.block)), None, order.material, held.rule, held.day,
            held.value, held.limit, held.clears, held.reason,
            *_factors(season, held.block), LEVEL, _scenario(farm),
        ]
        for held in order.cannot_now
    ]  # fmt: skip
    write_text(path, as_csv(header, [*first, *then]))


def write_scouting_order(path: Path, *, farm: Farm, order: ScoutingOrder) -> None:
    """
    Write the scouting order.

    Parameters
    ----------
    path : pathlib.Path
        Of the CSV.
    farm : Farm
        For the blocks' names.
    order : ScoutingOrder
        What was decided.
    """
    rows = [
        [
            order.today, entry.rank, entry.block, _name(farm, entry.block), entry.score,
            entry.doubt, entry.stake, entry.days_since_look, entry.reason, LEVEL, _scenario(farm),
        ]
        for entry in order.entries
    ]  # fmt: skip
    write_text(path, as_csv(SCOUTING_COLUMNS, rows))


def as_csv(header: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    r"""
    Return rows as CSV text (RFC 4180, but with plain line ends).

    Parameters
    ----------
    header : sequence of str
        Column names.
    rows : iterable of sequence
        Cells; None and NaN are empty, numbers are written to six digits, text that a spreadsheet
        would run as a formula gets a leading apostrophe.

    Returns
    -------
    str
        The table.

    Examples
    --------
    >>> as_csv(["a", "b"], [[1.23456789, "=1+1"], [None, "-"]])
    "a,b\n1.23457,'=1+1\n,'-\n"
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(header)
    writer.writerows([_cell(cell) for cell in row] for row in rows)
    return text.getvalue()


def _cell(cell: object) -> str:
    if cell is None:
        return ""
    if isinstance(cell, float):
        return "" if isnan(cell) else f"{cell:.6g}"
    # The csv module quotes line feeds, but a lone carriage return would break the row.
    text = str(cell).replace("\r\n", "\n").replace("\r", "\n")
    return f"'{text}" if text.startswith(FORMULA_STARTS) else text


def _name(farm: Farm, block: str) -> str:
    return str(farm.blocks.loc[block, "name"])


def _factors(season: xr.Dataset, block: str) -> list[float]:
    return [float(value) for value in season.factors.sel(block=block).values]


def _scenario(farm: Farm) -> str:
    return "made scenario" if farm.is_made else ""
