"""The day sheet: one page for each sprayer's cab, in black on white, to read and to write on."""

from collections.abc import Sequence
from datetime import timedelta
from pathlib import Path
from typing import Any

import xarray as xr

from geo.exports.files import write_text
from geo.exports.sheet_age import data_age
from geo.exports.sheet_map import sheet_map
from geo.exports.sheet_office import office_sheet
from geo.exports.sheet_words import (
    CAUTIONS,
    amount_words,
    block_names,
    codes_of,
    pick_from,
    settling,
    shown,
)
from geo.exports.templates import filled
from geo.exports.xml_text import html_text
from geo.rounds.day_round import STRAIGHT, DayRound, Load, SprayerDay, Stop
from geo.rounds.round_words import caution_letters
from geo.season.farm import Farm
from geo.texts import listed, phrase, phrase_for, phrase_of
from geo.texts.days import day_words, hour_words

MANY_LOADS = 5  # our own choice: more of them get rows of a single line
SHORTEST_WAIT = timedelta(minutes=10)  # our own choice


def write_day_sheet(path: Path, *, farm: Farm, season: xr.Dataset, day_round: DayRound) -> None:
    """
    Write the page.

    Parameters
    ----------
    path : pathlib.Path
        Of the HTML file.
    farm : Farm
        Names, outlines, labels.
    season : xarray.Dataset
        For the age of the data.
    day_round : DayRound
        What was planned.
    """
    write_text(path, day_sheet_html(farm=farm, season=season, day_round=day_round))


def day_sheet_html(*, farm: Farm, season: xr.Dataset, day_round: DayRound) -> str:
    """
    Return the page: it needs no script, no network and no other file.

    Parameters
    ----------
    farm : Farm
        Names, outlines, labels.
    season : xarray.Dataset
        For the age of the data.
    day_round : DayRound
        What was planned.

    Returns
    -------
    str
        Markup, everything in it escaped. A sheet for each sprayer, then one for the office.
    """
    names = block_names(farm)
    age, is_stale = data_age(farm, season, day_round)
    day = f"{day_words(day_round.day)} {day_round.day.year}"
    page = filled(
        "day-sheet.html",
        title=_title(farm, day),
        farm=shown(farm.name),
        is_made=farm.is_made,
        day=day,
        materials=[
            {"name": phrase_of(material), "codes": _codes(farm, material)}
            for material in day_round.materials
        ],
        sheets=[_sheet(farm, sprayer, names) for sprayer in day_round.sprayers],
        is_straight=day_round.ways == STRAIGHT,
        office=office_sheet(day_round, names),
        settling=listed(map(phrase_of, settling(day_round.materials))),
        cautions=list(map(phrase_of, CAUTIONS)),
        age=age,
        is_stale=is_stale,
    )
    return html_text(page)


def _title(farm: Farm, day: str) -> str:
    name = shown(farm.name)
    if farm.is_made:
        return phrase("Day sheet: {farm} (made scenario), {day}", farm=name, day=day)
    return phrase("Day sheet: {farm}, {day}", farm=name, day=day)


def _codes(farm: Farm, material: str) -> str:
    codes = codes_of(farm, material)
    return " + ".join(codes) if codes else phrase_for("codes of a material", "not known")


def _sheet(farm: Farm, sprayer: SprayerDay, names: dict[str, str]) -> dict[str, Any]:
    everywhere = _everywhere(sprayer.stops)
    others = [words for stop in sprayer.stops for words in stop.cautions]
    letters = caution_letters([words for words in others if words not in everywhere])
    places = list(dict.fromkeys(shown(load.water) for load in sprayer.loads))
    return {
        "sprayer": shown(sprayer.sprayer),
        "leaves": f"{sprayer.leaves:%H:%M}",
        "returns": f"{sprayer.returns:%H:%M}",
        "kilometres": f"{sprayer.kilometres:.1f}",
        "litres": f"{sum(load.litres for load in sprayer.loads):.0f}",
        "area": f"{sum(stop.area for stop in sprayer.stops):.1f}",
        "everywhere": everywhere,
        "letters": letters,
        "stops": [_stop(stop, names, letters) for stop in sprayer.stops],
        "loads": [_load(load) for load in sprayer.loads],
        "has_many": len(sprayer.loads) > MANY_LOADS,
        "water": places[0] if len(places) == 1 else "",
        "map": sheet_map(farm, sprayer),
    }


def _everywhere(stops: Sequence[Stop]) -> list[str]:
    """Return what warns at every stop: said once, above them."""
    if not stops:
        return []
    first, *others = stops
    return [words for words in first.cautions if all(words in stop.cautions for stop in others)]


def _stop(stop: Stop, names: dict[str, str], letters: dict[str, str]) -> dict[str, Any]:
    is_whole = stop.first_row == 1 and stop.last_row == stop.rows_of_block
    waits = stop.starts - stop.arrives >= SHORTEST_WAIT
    return {
        "number": stop.number,
        "block": shown(stop.block),
        "name": names.get(stop.block, ""),
        "rank": stop.rank,
        "rows": f"{stop.first_row}–{stop.last_row}",
        "of": _of_rows(stop.rows_of_block, is_whole=is_whole),
        "litres": f"{stop.litres:.0f}",
        "load": stop.load,
        "starts": f"{stop.starts:%H:%M}",
        "finishes": f"{stop.finishes:%H:%M}",
        "waits_from": f"{stop.arrives:%H:%M}" if waits else "",
        "re_entry": hour_words(stop.re_entry_ends) if stop.re_entry_ends else "",
        "pick": day_words(first) if (first := pick_from(stop)) else "",
        "letters": [letters[words] for words in stop.cautions if words in letters],
    }


def _of_rows(rows: int, *, is_whole: bool) -> str:
    if is_whole:
        return phrase_for("rows of a block", "all {rows}", rows=rows)
    return phrase_for("rows of a block", "of {rows}", rows=rows)


def _load(load: Load) -> dict[str, Any]:
    return {
        "number": load.number,
        "water": shown(load.water),
        "from": f"{load.filled_from:%H:%M}",
        "until": f"{load.filled_until:%H:%M}",
        "litres": f"{load.litres:.0f}",
        "is_part": load.is_part,
        "parts": [
            {
                "material": phrase_of(part.material),
                "amount": "" if part.amount is None else amount_words(part.amount, part.unit),
            }
            for part in load.ingredients
        ],
    }
