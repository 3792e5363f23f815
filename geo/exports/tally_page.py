"""A page on which a scout tallies trees on a phone, without a network."""

import json
from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path
from typing import Any

from markupsafe import escape

from geo.exports.farm_title import farm_title
from geo.exports.files import write_text
from geo.exports.offline import still_page
from geo.exports.page_risk import Risk
from geo.exports.page_texts import script_texts
from geo.exports.page_words import CAUTIONS
from geo.exports.templates import filled, joined
from geo.reference.diseases import Disease
from geo.reference.growth_stages import SCALE_OF_ORGAN, growth_stages
from geo.reference.number import values
from geo.season.farm import Farm
from geo.texts import mark, phrase, phrase_for, phrase_of
from geo.texts.days import day_words

GRADES = ("grade_1", "grade_2", "grade_3", "grade_4")
# What the two large buttons say, by the disease's key.
WITHOUT = {
    "panicle_mildew": mark("panicles without mildew"),
    "leaf_mildew": mark("leaves without mildew"),
    "blossom_anthracnose": mark("panicles without anthracnose"),
    "fruit_anthracnose": mark("fruit without anthracnose"),
}
WITH = {
    "panicle_mildew": mark("panicles with mildew"),
    "leaf_mildew": mark("leaves with mildew"),
    "blossom_anthracnose": mark("panicles with anthracnose"),
    "fruit_anthracnose": mark("fruit with anthracnose"),
}


def write_tally_page(path: Path, *, farm: Farm, risks: Sequence[Risk]) -> None:
    """
    Write the page.

    Parameters
    ----------
    path : pathlib.Path
        Replaced only when the new page is complete.
    farm : Farm
        Names.
    risks : sequence of Risk
        One a disease, the chosen one first.
    """
    write_text(path, tally_html(farm=farm, risks=risks))


def tally_html(*, farm: Farm, risks: Sequence[Risk]) -> str:
    """
    Return the page.

    Parameters
    ----------
    farm : Farm
        Names.
    risks : sequence of Risk
        One a disease, the chosen one first.

    Returns
    -------
    str
        HTML that asks no network for anything; the same bytes for the same input.
    """
    text = json.dumps(tally_data(farm, risks), ensure_ascii=False, separators=(",", ":"))
    body = filled(
        "tally.html",
        farm=farm,
        today=day_words(farm.today),
        when=risks[0].scouting.when,
        severity=_grades(),
        cautions=phrase_of(CAUTIONS),
    )
    # Within a script element only this character could end it.
    data = text.replace("<", "\\u003c")
    held = f'<script type="application/json" id="tally-data">{data}</script>'
    title = phrase("{farm}: tally", farm=farm_title(farm))
    return still_page(
        title=str(escape(title)),
        style=joined(("page.css", "tally.css", "contrast.css")),
        body=f"{body}\n{script_texts()}{held}",
        script=joined(("texts.js", "tally.js", "tally-words.js", "tally-screen.js")),
    )


def tally_data(farm: Farm, risks: Sequence[Risk]) -> dict[str, Any]:
    """
    Return what the page knows.

    Parameters
    ----------
    farm : Farm
        Names.
    risks : sequence of Risk
        One a disease, the chosen one first.

    Returns
    -------
    dict
        Ready for JSON: blocks, and by disease what is counted, its stages and each block's look.
    """
    place_of = {str(block): place for place, block in enumerate(farm.blocks.index)}
    return {
        "farm": farm.name,
        "blocks": [
            {"id": block, "name": str(name)}
            for block, name in zip(place_of, farm.blocks["name"], strict=True)
        ],
        "diseases": [_disease(risk, place_of) for risk in risks],
    }


def _disease(risk: Risk, place_of: dict[str, int]) -> dict[str, Any]:
    disease = risk.disease
    return {
        "name": disease.name,
        "words": phrase_of(disease.name),
        "organs": disease.organs,
        "without": phrase_of(WITHOUT[disease.key]),
        "with": phrase_of(WITH[disease.key]),
        "each": int(values("scouting", "look")["organs_per_tree"]),
        "stages": _stages(disease),
        "order": [[place_of[entry.block], entry.trees] for entry in risk.scouting.entries],
    }


def _grades() -> list[str]:
    """Return the scale on which a scout may note how much is covered; nothing computes with it."""
    table = values("scouting", "severity")
    ends = [0.0, *(table[grade] for grade in GRADES)]
    between = [
        phrase("{low:.0f} to {high:.0f} %", low=low + 1, high=high) for low, high in pairwise(ends)
    ]
    most = phrase("over {share:.0f} %", share=ends[-1])
    return [phrase_for("a grade", "none"), *between, most]


def _stages(disease: Disease) -> list[list[str]]:
    scale = SCALE_OF_ORGAN[disease.organ]
    return [
        [stage.code, phrase_of(stage.meaning)]
        for stage in growth_stages().values()
        if stage.scale == scale
    ]
