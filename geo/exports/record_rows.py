"""Rows of the spray record, filled in as far as the plan knows them: one a stop and material."""

from collections.abc import Iterator
from datetime import timedelta
from decimal import Decimal
from pathlib import Path

import numpy as np
import xarray as xr

from geo import __version__
from geo.exports.farm_title import scenario_words
from geo.exports.files import write_text
from geo.exports.order_tables import as_csv, hour_text
from geo.exports.sheet_words import block_names, codes_of
from geo.reference.diseases import disease_with
from geo.rounds.day_round import DayRound, Ingredient, Load, SprayerDay, Stop
from geo.rounds.order import SprayOrder
from geo.season.disease import disease_key
from geo.season.farm import Farm
from geo.season.spray_record import COLUMNS, record_id

# In the language spoken: for people, who may be of several languages on one farm.
SENTENCES = ("reason", "note")


def write_record_rows(
    path: Path, *, farm: Farm, season: xr.Dataset, order: SprayOrder, day_round: DayRound
) -> None:
    """
    Write the rows that the applicator completes. Until then they count as nothing.

    Parameters
    ----------
    path : pathlib.Path
        Of the CSV.
    farm : Farm
        Names, labels, zone.
    season : xarray.Dataset
        For the stages seen and the disease.
    order : SprayOrder
        For the reasons.
    day_round : DayRound
        What was planned.
    """
    rows = record_rows(farm=farm, season=season, order=order, day_round=day_round)
    write_text(path, as_csv(COLUMNS, ([row.get(column) for column in COLUMNS] for row in rows)))


def record_rows(
    *, farm: Farm, season: xr.Dataset, order: SprayOrder, day_round: DayRound
) -> list[dict[str, object]]:
    """
    Return those rows.

    Parameters
    ----------
    farm : Farm
        Names, labels, zone.
    season : xarray.Dataset
        For the stages seen and the disease.
    order : SprayOrder
        For the reasons.
    day_round : DayRound
        What was planned.

    Returns
    -------
    list of dict
        By column. The id comes from the row itself, so the same plan gives the same ids, whatever
        language its sentences are in. The disease is named in English: the record is read again.
    """
    names, stages = block_names(farm), _stages_seen(season)
    reasons = {entry.block: entry.reason for entry in order.entries}
    of_all = {
        "farm": farm.name,
        "zone": farm.zone,
        "date": day_round.day,
        "method": farm.settings.sprayer,
        "crop": "mango",
        "target": disease_with(disease_key(season)).name,
        "model_version": f"mangoblock-risk {__version__}",
        "note": scenario_words(farm),
    }
    found = []
    for sprayer, stop, part, load in _portions(day_round):
        of_block = {
            "block_name": names.get(stop.block, ""),
            "bbch": stages.get(stop.block, ""),
            "reason": reasons.get(stop.block, ""),
        }
        row = of_all | of_block | _of_stop(stop, sprayer) | _of_part(farm, stop, part, load)
        told = {
            column: str(value)
            for column, value in row.items()
            if value is not None and column not in SENTENCES
        }
        found.append(row | {"record_id": record_id(told)})
    return found


def _portions(day_round: DayRound) -> Iterator[tuple[SprayerDay, Stop, Ingredient, Load | None]]:
    """Yield each stop with each material in its tank."""
    for sprayer in day_round.sprayers:
        loads = {load.number: load for load in sprayer.loads}
        for stop in sprayer.stops:
            load = loads.get(stop.load)
            parts = load.ingredients if load else ()
            # A load that does not say holds the materials of the day.
            for part in parts or [Ingredient(name, None, "") for name in day_round.materials]:
                yield sprayer, stop, part, load


def _of_stop(stop: Stop, sprayer: SprayerDay) -> dict[str, object]:
    return {
        "block_id": stop.block,
        "latitude": Decimal(f"{stop.latitude:.6f}"),
        "longitude": Decimal(f"{stop.longitude:.6f}"),
        "first_row": stop.first_row,
        "last_row": stop.last_row,
        "rows_of_block": stop.rows_of_block,
        "area_ha": stop.area,
        "water_l_per_ha": stop.litres / stop.area if stop.area else None,
        "litres": stop.litres,
        "tank": stop.load,
        "sprayer": sprayer.sprayer,
        "planned_start": hour_text(stop.starts),
        "planned_finish": hour_text(stop.finishes),
        "re_entry_hours": stop.re_entry_ends
        and (stop.re_entry_ends - stop.finishes) / timedelta(hours=1),
        "pre_harvest_days": stop.pre_harvest_ends
        and (stop.pre_harvest_ends - stop.finishes.date()).days,
    }


def _of_part(farm: Farm, stop: Stop, part: Ingredient, load: Load | None) -> dict[str, object]:
    label = next((one for one in farm.labels or () if one.material == part.material), None)
    share = stop.litres / load.litres if load and load.litres else None
    is_known = part.amount is not None and share is not None
    return {
        "material": part.material,
        "frac_codes": "+".join(codes_of(farm, part.material)),
        "label_rate": label.rate if label else None,
        "rate_unit": label.rate_unit if label else None,
        "total_product": part.amount * share if is_known and part.amount and share else None,
        "total_unit": part.unit if is_known else None,
    }


def _stages_seen(season: xr.Dataset) -> dict[str, str]:
    """Return the newest stage seen in each block, of several the one with the largest share."""
    day, share = season["portion_day"].values, season["portion_share"].values
    blocks = season["block"].values
    # The last to be put in is the newest, and of one day the largest.
    return {
        str(blocks[season["portion_block"].values[place]]): str(
            season["portion_stage"].values[place]
        )
        for place in np.lexsort((share, day))
    }
