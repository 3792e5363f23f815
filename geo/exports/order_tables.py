"""The two orders as CSV, for the diary and the spreadsheet."""

import csv
import io
from collections.abc import Iterable, Sequence
from datetime import datetime
from decimal import Decimal
from math import isnan
from pathlib import Path

import xarray as xr

from geo.exports.farm_title import scenario_words
from geo.exports.files import write_text
from geo.ranking.factors import FACTORS
from geo.rounds.order import SprayOrder
from geo.scouting.order import ScoutingOrder
from geo.season.farm import Farm
from geo.texts import mark, phrase_of

# A cell that begins with one of these runs as a formula in a spreadsheet (CWE-1236).
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
SPRAY_COLUMNS = (
    "farm",
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
    "avoidable_ha_days",
    "avoidable_low",
    "avoidable_high",
    "avoidable_per_hour",
    "avoidable_per_ha",
    "next_open",
    "waiting",
    "within_hours_today",
    "material",
    "rule",
    "closing_day",
    "value",
    "limit",
    "unit",
    "standing",
    "clears",
    "open_from",
    "open_until",
    "cautions",
    "reason",
    "not_asked",
    "note",
)
SCOUTING_COLUMNS = (
    "farm",
    "today",
    "rank",
    "block_id",
    "name",
    "score",
    "doubt",
    "stake",
    "days_since_look",
    "chosen_by",
    "trees",
    "organs_per_tree",
    "share_left_if_none_found",
    "reason",
    "proof",
    "walk_from",
    "walk_until",
    "when",
    "option",
    "note",
    "honesty_level",
    "scenario",
)
WITHIN = {True: "yes", False: "no", None: ""}
LEVEL = mark("relative: ratios and orders, no probabilities")


def write_spray_order(path: Path, *, farm: Farm, season: xr.Dataset, order: SprayOrder) -> None:
    """
    Write the spray order, then what is not worth it now, what a rule keeps out, and the rest.

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
    columns = [*SPRAY_COLUMNS, *factors, "honesty_level", "scenario"]
    place = {block: number for number, block in enumerate(season.block.values.tolist())}
    hazard, area = season.hazard_ahead.values.tolist(), season.area.values.tolist()
    of_factors = season.factors.values.tolist()

    def row(block: str, **cells: object) -> list[object]:
        of_block = {
            "farm": farm.name,
            "today": order.today,
            "block_id": block,
            "name": _name(farm, block),
            "note": str(farm.blocks.loc[block, "note"]),
            "hazard_index": hazard[place[block]],
            "reference_block": order.reference_block,
            "area_ha": area[place[block]],
            "material": order.material,
            "not_asked": " ".join((*order.notes, *(unasked.words for unasked in order.not_asked))),
            **dict(zip(factors, of_factors[place[block]], strict=True)),
            "honesty_level": phrase_of(LEVEL),
            "scenario": scenario_words(farm),
        }
        return [(of_block | cells).get(column) for column in columns]

    first = [
        row(
            entry.block,
            list="spray order",
            rank=entry.rank,
            ratio_to_reference=entry.ratio,
            ratio_low=entry.low,
            ratio_high=entry.high,
            sprayer_hours=entry.sprayer_hours,
            avoidable_ha_days=entry.avoidable,
            avoidable_low=entry.avoidable_low,
            avoidable_high=entry.avoidable_high,
            avoidable_per_hour=None if entry.sprayer_hours is None else entry.per_hour,
            avoidable_per_ha=entry.avoidable / entry.area,
            next_open=hour_text(entry.next_window),
            waiting=entry.waiting,
            within_hours_today=WITHIN[entry.is_within],
            open_from=hour_text(entry.open_from),
            open_until=hour_text(entry.open_until),
            cautions="; ".join(entry.cautions),
            reason=entry.reason,
        )
        for entry in order.entries
    ]
    apart = [
        row(
            rest.block,
            list="not worth it now",
            avoidable_ha_days=rest.avoidable,
            next_open=hour_text(rest.next_window),
            reason=rest.reason,
        )
        for rest in order.not_worth
    ]
    then = [
        row(
            held.block,
            list="cannot now",
            rule=held.rule,
            closing_day=held.day,
            value=held.value,
            limit=held.limit,
            unit=held.unit,
            standing=held.standing,
            clears=hour_text(held.clears),
            reason=held.reason,
        )
        for held in order.cannot_now
    ]
    last = [row(rest.block, list="not ranked", reason=rest.reason) for rest in order.not_ranked]
    write_text(path, as_csv(columns, [*first, *apart, *then, *last]))


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
            farm.name, order.today, entry.rank, entry.block, _name(farm, entry.block), entry.score,
            entry.doubt, entry.stake, entry.days_since_look, entry.chosen,
            entry.trees, entry.organs_per_tree, entry.share_left, entry.reason, entry.proof,
            hour_text(entry.walk_from), hour_text(entry.walk_until), entry.when, entry.option,
            str(farm.blocks.loc[entry.block, "note"]), phrase_of(LEVEL), scenario_words(farm),
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
        Cells; None and NaN are empty, numbers are written to six digits (decimals with all of
        theirs), text that a spreadsheet would run as a formula gets a leading apostrophe.

    Returns
    -------
    str
        The table.

    Examples
    --------
    >>> as_csv(["a", "b"], [[1.23456789, "=1+1"], [-2, "-"]])
    "a,b\n1.23457,'=1+1\n-2,'-\n"
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
    if isinstance(cell, int):
        return str(cell)
    if isinstance(cell, Decimal):
        return f"{cell:f}"
    # The csv module quotes line feeds, but a lone carriage return would break the row.
    text = str(cell).replace("\r\n", "\n").replace("\r", "\n")
    return f"'{text}" if text.startswith(FORMULA_STARTS) else text


def hour_text(moment: datetime | None) -> str:
    """
    Return a local hour as tables give it.

    Parameters
    ----------
    moment : datetime.datetime or None
        Its start.

    Returns
    -------
    str
        Such as ``2026-02-18T06:00``; empty for none.
    """
    return "" if moment is None else f"{moment:%Y-%m-%dT%H:%M}"


def _name(farm: Farm, block: str) -> str:
    return str(farm.blocks.loc[block, "name"])
