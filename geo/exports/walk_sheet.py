"""The walk on one sheet of paper: order, trees, boxes to fill in, and what to look for."""

from itertools import pairwise, product
from math import ceil
from pathlib import Path
from typing import Any

import numpy as np
from markupsafe import escape

from geo.exports.drawings import SHEET, drawings
from geo.exports.farm_title import farm_title
from geo.exports.files import write_text
from geo.exports.offline import still_page
from geo.exports.page_words import CAUTIONS
from geo.exports.templates import filled, joined
from geo.exports.walk_map import SHAPES, UNITS_A_MILLIMETRE, inset, overview
from geo.reference.diseases import disease_with
from geo.reference.number import values
from geo.scouting.order import DRAWN, DUE
from geo.scouting.walk import Walk, WalkVisit
from geo.season.farm import Farm
from geo.texts import mark, phrase, phrase_for, phrase_of
from geo.texts.days import day_words, hour_words

# Millimetres on paper, as laid out: what all blocks together may take, and how wide each is.
CARDS_HEIGHT = 144.0
CARD_WIDTHS = {1: 96.0, 2: 93.0, 3: 61.0}
# Of a block: its heading, the line to sum up and the words on proof; then what a tree's row, a box
# and the block's map may take.
AROUND = {1: 20.0, 2: 22.0, 3: 32.0}
ROW_HEIGHTS = (5.6, 5.1, 4.6, 4.2)
# A map is the larger, then the rows are the higher.
MAP_HEIGHTS, LARGEST_MAP = (34.0, 18.0), 58.0
BOX_WIDTHS = {1: 6.0, 2: 6.0, 3: 4.7}
# Blocks that stand in one column, in two; others in three.
ALONE, IN_PAIRS = 1, (2, 4)
NEXT_SHOWN = 4
CHOSEN_WORDS = {DUE: mark("due for a look"), DRAWN: mark("drawn by lot")}
# Grades of the scale, by the name of their upper end in the table.
GRADES = ("grade_1", "grade_2", "grade_3", "grade_4")
BUDS = 16  # of the little panicle beside each grade


def write_walk_sheet(path: Path, *, farm: Farm, walk: Walk, disease: str) -> None:
    """
    Write the sheet.

    Parameters
    ----------
    path : pathlib.Path
        Replaced only when the new sheet is complete.
    farm : Farm
        Names and outlines.
    walk : Walk
        With one block at least.
    disease : str
        Key of the disease that the walk looks for.
    """
    write_text(path, walk_html(farm=farm, walk=walk, disease=disease))


def walk_html(*, farm: Farm, walk: Walk, disease: str) -> str:
    """
    Return the sheet.

    Parameters
    ----------
    farm : Farm
        Names and outlines.
    walk : Walk
        With one block at least.
    disease : str
        Key of the disease that the walk looks for.

    Returns
    -------
    str
        HTML without any script; the same bytes for the same input.
    """
    columns, row, map_height = _layout(walk)
    size = (CARD_WIDTHS[columns] * UNITS_A_MILLIMETRE, map_height * UNITS_A_MILLIMETRE)
    about = disease_with(disease)
    body = filled(
        "walk.html",
        farm=farm,
        walk=walk,
        about=about,
        day=f"{day_words(walk.day)} {walk.day.year}",
        trees=sum(len(visit.stops) for visit in walk.visits),
        map=overview(farm, walk),
        cards=[_card(farm, visit, size) for visit in walk.visits],
        columns=columns,
        warnings=_warnings(walk),
        next=walk.left_out[:NEXT_SHOWN],
        more=max(len(walk.left_out) - NEXT_SHOWN, 0),
        shapes=SHAPES,
        grades=_grades(),
        drawings=sorted(drawings(), key=lambda drawing: drawing.disease != disease),
        sheet=SHEET,
        cautions=phrase_of(CAUTIONS),
    )
    sizes = f"--row: {row}mm; --columns: {columns}; --box: {BOX_WIDTHS[columns]}mm"
    style = f"{joined(('walk.css',))}\n:root {{ {sizes} }}\n"
    title = phrase("{farm}: walk of {day}", farm=farm_title(farm), day=day_words(walk.day))
    return still_page(title=str(escape(title)), style=style, body=body)


def _layout(walk: Walk) -> tuple[int, float, float]:
    """Return columns, the height of a tree's row and that of a block's map, so that all fits."""
    count = len(walk.visits)
    columns = 1 if count == ALONE else 2 if count in IN_PAIRS else 3
    trees = [len(visit.stops) for visit in walk.visits]
    # Cards side by side are as high as the highest of them.
    in_rows = [max(trees[first : first + columns]) for first in range(0, count, columns)]
    if columns == ALONE:
        # The map stands beside the rows.
        row = next((row for row in ROW_HEIGHTS if row * trees[0] <= CARDS_HEIGHT), ROW_HEIGHTS[-1])
        return columns, row, float(np.clip(trees[0] * row, MAP_HEIGHTS[1], LARGEST_MAP))
    for least, row in product(MAP_HEIGHTS, ROW_HEIGHTS):
        left = CARDS_HEIGHT - sum(AROUND[columns] + row * many for many in in_rows)
        if left / len(in_rows) >= least:
            return columns, row, round(min(left / len(in_rows), LARGEST_MAP), 1)
    return columns, ROW_HEIGHTS[-1], MAP_HEIGHTS[-1]


def _card(farm: Farm, visit: WalkVisit, size: tuple[float, float]) -> dict[str, Any]:
    name = str(farm.blocks.loc[visit.entry.block, "name"])
    reasons = dict.fromkeys((stop.stop.kind, stop.stop.reason) for stop in visit.stops)
    return {
        "visit": visit,
        "name": "" if name == visit.entry.block else name,
        "map": inset(farm, visit, size),
        "aside": _aside(visit.entry.chosen),
        "reasons": [{"shape": SHAPES[kind], "words": words} for kind, words in reasons],
        "inspected": visit.entry.trees * visit.entry.organs_per_tree,
    }


def _aside(chosen: str) -> str:
    words = CHOSEN_WORDS.get(chosen)
    return phrase_of(words) if words else ""


def _warnings(walk: Walk) -> list[str]:
    found = []
    walked = {visit.entry.block for visit in walk.visits}
    for block, ends in sorted(walk.morning.re_entry_ends.items()):
        if ends is None:
            found.append(
                phrase("{block}: sprayed, re-entry hours not known. Do not enter.", block=block)
            )
        elif block in walked:
            found.append(
                phrase(
                    "{block}: do not enter before {hour} (on this walk after that).",
                    block=block,
                    hour=hour_words(ends),
                )
            )
        else:
            found.append(
                phrase("{block}: do not enter before {hour}.", block=block, hour=hour_words(ends))
            )
    return found


def _grades() -> list[dict[str, Any]]:
    """Return the scale with the share of the little panicle that each grade covers."""
    table = values("scouting", "severity")
    ends = [0.0, *(table[grade] for grade in GRADES), 100.0]
    found: list[dict[str, Any]] = [
        {"grade": 0, "words": phrase_for("a grade", "none"), "covered": 0}
    ]
    for grade, (low, high) in enumerate(pairwise(ends), start=1):
        first = 1 if grade == 1 else low + 1
        is_last = grade == len(ends) - 1
        words = phrase("over {share:.0f} %", share=low) if is_last else f"{first:.0f}–{high:.0f} %"
        covered = ceil((low + high) / 2 / 100 * BUDS)
        found.append({"grade": grade, "words": words, "covered": covered})
    return found
