"""The still version of the page: for the printer, and for where scripts do not run."""

from collections.abc import Collection

import numpy as np

from geo.exports.page_about import about_data
from geo.exports.page_classes import NOT_KNOWN_COLOUR, class_key, class_word
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
from geo.exports.paper_brief import brief_blocks, brief_lines, brief_rows
from geo.exports.paper_drawing import paper_drawing
from geo.exports.templates import filled
from geo.ranking.sentences import two_digits
from geo.season.farm import Farm
from geo.texts import listed, phrase, phrase_of
from geo.texts.days import day_words, hour_words

MOST_BLOCKS = 1000
MOST_ROWS = 30
# Where the reasons for the day's orders stand, besides on the page itself.
REASONS = ("day-sheet.html", "spray-order.csv", "scouting-order.csv")


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
        Markup: a drawing with the ranks of the spray order, left out above 1000 blocks; the day in
        short and the cautions, which with it fill one printed sheet; and, for readers without
        scripts alone, both orders with their reasons, what they rest on, and links.
    """
    season, spray, scouting = risk.season, risk.spray, risk.scouting
    names = dict(zip(map(str, season["block"].values), map(str, farm.blocks["name"]), strict=True))
    drawing = paper_drawing(farm, season, spray) if len(names) <= MOST_BLOCKS else None
    notes = [*spray.notes, *(unasked.words for unasked in spray.not_asked)]
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
        drawing=drawing,
        key=class_key(),
        unknown_colour=NOT_KNOWN_COLOUR,
        spray=spray,
        material=phrase_of(spray.material),
        has_hours=has_hours(spray),
        scouting=scouting,
        most_rows=MOST_ROWS,
        brief=brief_rows(
            spray.entries, names, brief_lines(drawing["height"] if drawing else 0.0, notes)
        ),
        notes=notes,
        not_worth=brief_blocks([entry.block for entry in spray.not_worth]),
        cannot_now=brief_blocks([entry.block for entry in spray.cannot_now]),
        to_scout=brief_blocks([entry.block for entry in scouting.entries]),
        beside=listed([name for name in REASONS if name in written]),
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


def _measure(value: float | None, unit: str) -> str:
    if value is None or not np.isfinite(value):
        return phrase("not known")
    if unit == "degC":
        return f"{value:.1f} °C"
    return f"{value:.3g}" if unit == "1" else f"{value:.3g} {unit}"
