"""The still version of the page: for the printer, and for where scripts do not run."""

from collections.abc import Collection
from typing import Any

import numpy as np
import shapely
import xarray as xr

from geo.arrays import FloatArray
from geo.exports.outlines import inside_circles
from geo.exports.page_about import about_data
from geo.exports.page_classes import (
    CLASS_COLOURS,
    NOT_KNOWN_COLOUR,
    class_key,
    class_of,
    class_word,
)
from geo.exports.page_links import links_data
from geo.exports.page_orders import HEAT, first_of_each_rule, has_hours
from geo.exports.page_risk import Risk
from geo.exports.page_since import Since, since_words
from geo.exports.page_words import (
    CAUTIONS,
    HONESTY,
    MEANING_OF_ONE,
    ago,
    newest_look,
    newest_measured,
)
from geo.exports.templates import filled
from geo.ranking.classes import NOT_KNOWN
from geo.ranking.sentences import two_digits
from geo.rounds.order import SprayOrder
from geo.season.farm import Farm
from geo.texts import phrase, phrase_of
from geo.texts.days import day_words, hour_words

MOST_BLOCKS = 1000
MOST_ROWS = 200
# Our own choice: what the first sheet of A4 holds beside map and key.
BRIEF_ROWS, BRIEF_NAMES = 36, 24
# Pixels on the screen, and so that map and key share the first sheet of A4.
WIDTH, HEIGHT = 700.0, 430.0


def paper_html(
    farm: Farm, risk: Risk, *, written: Collection[str] = (), since: Since | None = None
) -> str:
    """
    Return the still version of the page.

    Parameters
    ----------
    farm : Farm
        Names and outlines.
    risk : Risk
        Of the disease that is printed.
    written : collection of str
        Names of the files that the same run writes beside the page.
    since : Since or None
        An earlier run to hold this one against.

    Returns
    -------
    str
        Markup: one drawing with the ranks of the spray order, both tables, and the cautions. The
        drawing is left out above 1000 blocks.
    """
    season, spray, scouting = risk.season, risk.spray, risk.scouting
    names = dict(zip(map(str, season["block"].values), map(str, farm.blocks["name"]), strict=True))
    return filled(
        "paper.html",
        farm=farm,
        disease=phrase_of(risk.disease.name),
        today=f"{day_words(farm.today)} {farm.today.year}",
        measured=newest_measured(season, farm.zone),
        looked=newest_look(scouting),
        honesty=phrase_of(HONESTY),
        meaning=phrase_of(MEANING_OF_ONE),
        cautions=phrase_of(CAUTIONS),
        drawing=_drawing(farm, season, spray) if len(names) <= MOST_BLOCKS else None,
        key=class_key(),
        unknown_colour=NOT_KNOWN_COLOUR,
        spray=spray,
        material=phrase_of(spray.material),
        has_hours=has_hours(spray),
        scouting=scouting,
        most_rows=MOST_ROWS,
        brief_rows=BRIEF_ROWS,
        brief_names=BRIEF_NAMES,
        names=names,
        measure=_measure,
        word=lambda hazard: phrase_of(class_word(hazard)),
        day=day_words,
        hour=hour_words,
        ago=ago,
        rules=first_of_each_rule(spray),
        heat=HEAT,
        about_data=about_data(farm, season),
        links=links_data(written),
        written=written,
        since=since_words(risk, since),
        first_day=day_words(spray.first_day),
        figures=_figures,
    )


def _figures(value: float | None) -> str:
    return "–" if value is None or not np.isfinite(value) else two_digits(value)


def _drawing(farm: Farm, season: xr.Dataset, spray: SprayOrder) -> dict[str, Any]:
    # The farm's own metric system is flat enough for a drawing, and north is up.
    frame = farm.blocks.total_bounds
    scale = min(WIDTH / (frame[2] - frame[0]), HEIGHT / (frame[3] - frame[1]))
    ranks = {entry.block: str(entry.rank) for entry in spray.entries}
    barred = {entry.block for entry in spray.cannot_now}
    not_worth = {entry.block for entry in spray.not_worth}
    points = inside_circles(farm.blocks.geometry)[:, :2]
    ahead = season["hazard_ahead"].values
    shapes = [
        {
            "path": _path(outline, frame, scale),
            "barred": block in barred,
            "not_worth": block in not_worth,
            "x": round(float(x - frame[0]) * scale, 1),
            "y": round(float(frame[3] - y) * scale, 1),
            "rank": ranks.get(block, ""),
            "id": block,
        }
        | _fill(float(hazard))
        for block, outline, hazard, (x, y) in zip(
            map(str, season["block"].values), farm.blocks.geometry, ahead, points, strict=True
        )
    ]
    return {
        "shapes": shapes,
        "width": round(float(frame[2] - frame[0]) * scale),
        "height": round(float(frame[3] - frame[1]) * scale),
    }


def _path(outline: shapely.Geometry, frame: FloatArray, scale: float) -> str:
    rings = shapely.get_rings(shapely.get_parts(outline))
    return "".join(
        "M"
        + " ".join(
            f"{(x - frame[0]) * scale:.1f},{(frame[3] - y) * scale:.1f}"
            for x, y in shapely.get_coordinates(ring)[:-1]
        )
        + "Z"
        for ring in rings
    )


def _fill(hazard: float) -> dict[str, str]:
    found = class_of(hazard)
    if found == NOT_KNOWN:
        return {"colour": NOT_KNOWN_COLOUR, "pattern": "unknown"}
    return {
        "colour": CLASS_COLOURS[found],
        "pattern": "top" if found == len(CLASS_COLOURS) - 1 else "",
    }


def _measure(value: float | None, unit: str) -> str:
    if value is None or not np.isfinite(value):
        return phrase("not known")
    if unit == "degC":
        return f"{value:.1f} °C"
    return f"{value:.3g}" if unit == "1" else f"{value:.3g} {unit}"
