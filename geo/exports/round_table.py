"""The round of a day as CSV: its loads, its stops and what it does not reach."""

from decimal import Decimal
from pathlib import Path

from geo.exports.farm_title import scenario_words
from geo.exports.files import write_text
from geo.exports.order_tables import as_csv, hour_text
from geo.exports.sheet_words import block_names, pick_from
from geo.rounds.day_round import DayRound, Ingredient, Load, SprayerDay, Stop
from geo.season.farm import Farm
from geo.texts import phrase

COLUMNS = (
    "farm", "day", "list", "sprayer", "load", "stop", "block_id", "name", "rank", "first_row",
    "last_row", "rows_of_block", "litres", "area_ha", "water", "mix", "from", "until", "arrives",
    "re_entry_ends", "pick_from", "longitude", "latitude", "cost_avoidable", "cautions", "reason",
    "ways", "scenario",
)  # fmt: skip


def write_round_table(path: Path, *, farm: Farm, day_round: DayRound) -> None:
    """
    Write every load and stop of each sprayer in the order of the day, then the blocks left out.

    Parameters
    ----------
    path : pathlib.Path
        Of the CSV.
    farm : Farm
        For the blocks' names.
    day_round : DayRound
        What was planned.
    """
    names = block_names(farm)
    of_all = {
        "farm": farm.name,
        "day": day_round.day,
        "ways": day_round.ways,
        "scenario": scenario_words(farm),
    }
    cells = [
        *(one for sprayer in day_round.sprayers for one in _of_sprayer(sprayer, names)),
        *(
            {
                "list": "left out",
                "block_id": one.block,
                "name": names.get(one.block, ""),
                "rank": one.rank,
                "cost_avoidable": one.cost,
                "reason": one.reason,
            }
            for one in day_round.left_out
        ),
    ]
    rows = [[(of_all | one).get(column) for column in COLUMNS] for one in cells]
    write_text(path, as_csv(COLUMNS, rows))


def _of_sprayer(sprayer: SprayerDay, names: dict[str, str]) -> list[dict[str, object]]:
    """Return its loads and stops by the hour they begin: a load before the stops it is for."""
    loads = [(load.filled_from, 0, _load(load)) for load in sprayer.loads]
    stops = [(stop.starts, 1, _stop(stop, names)) for stop in sprayer.stops]
    ordered = sorted([*loads, *stops], key=lambda one: one[:2])
    return [{"sprayer": sprayer.sprayer} | cells for _, _, cells in ordered]


def _load(load: Load) -> dict[str, object]:
    parts = (f"{part.material} ({_amount(part)})" for part in load.ingredients)
    return {
        "list": "load",
        "load": load.number,
        "water": load.water,
        "litres": load.litres,
        "mix": "; ".join(parts),
        "from": hour_text(load.filled_from),
        "until": hour_text(load.filled_until),
    }


def _amount(part: Ingredient) -> str:
    if part.amount is None:
        return phrase("from your label")
    return f"{part.amount:.6g} {part.unit}".rstrip()


def _stop(stop: Stop, names: dict[str, str]) -> dict[str, object]:
    return {
        "list": "stop",
        "load": stop.load,
        "stop": stop.number,
        "block_id": stop.block,
        "name": names.get(stop.block, ""),
        "rank": stop.rank,
        "first_row": stop.first_row,
        "last_row": stop.last_row,
        "rows_of_block": stop.rows_of_block,
        "litres": stop.litres,
        "area_ha": stop.area,
        "arrives": hour_text(stop.arrives),
        "from": hour_text(stop.starts),
        "until": hour_text(stop.finishes),
        "re_entry_ends": hour_text(stop.re_entry_ends),
        "pick_from": pick_from(stop),
        # Six digits would be off by a hundred metres.
        "longitude": Decimal(f"{stop.longitude:.6f}"),
        "latitude": Decimal(f"{stop.latitude:.6f}"),
        "cautions": "; ".join(stop.cautions),
    }
