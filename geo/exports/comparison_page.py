"""One still page with blocks side by side: factors, seasons, counts, cultivars, sprays."""

from math import exp, isfinite, log
from pathlib import Path
from typing import Any

import xarray as xr
from markupsafe import escape

from geo.comparison import words
from geo.comparison.side_by_side import SideBySide
from geo.exports.comparison_tables import count_rows, cultivar_cells, record_rows, trial_cells
from geo.exports.farm_title import farm_title
from geo.exports.files import write_text
from geo.exports.offline import still_page
from geo.exports.page_words import CAUTIONS, HONESTY, newest_measured
from geo.exports.season_figure import limits_of, season_figure
from geo.exports.season_frame import frame_of
from geo.exports.season_page import STYLES, block_section
from geo.exports.templates import filled, joined
from geo.ranking.comparison import Comparison
from geo.ranking.sentences import because, two_digits
from geo.scouting.look import effect_words
from geo.season.farm import Farm
from geo.texts import phrase, phrase_of
from geo.texts.days import day_words

LONGEST_BAR = 44.0  # units, for the largest ratio of the table
LEAST_REACH = 2.0  # so that a ratio of nearly 1 has nearly no bar


def write_comparison_page(
    path: Path, *, farm: Farm, season: xr.Dataset, compared: SideBySide
) -> None:
    """
    Write the page.

    Parameters
    ----------
    path : pathlib.Path
        Replaced only when the new page is complete.
    farm : Farm
        Names.
    season : xarray.Dataset
        Of the disease, ranked.
    compared : SideBySide
        The blocks.
    """
    write_text(path, comparison_html(farm=farm, season=season, compared=compared))


def comparison_html(*, farm: Farm, season: xr.Dataset, compared: SideBySide) -> str:
    """
    Return the page.

    Parameters
    ----------
    farm : Farm
        Names.
    season : xarray.Dataset
        Of the disease, ranked.
    compared : SideBySide
        The blocks.

    Returns
    -------
    str
        HTML without any script; the same bytes for the same input.
    """
    frame = frame_of(season)
    places = [record.place for record in compared.records]
    limits = limits_of(season, places)
    body = filled(
        "comparison.html",
        farm=farm,
        today=day_words(farm.today),
        disease=compared.disease,
        honesty=phrase_of(HONESTY),
        measured=newest_measured(season, farm.zone),
        blocks=[record.block for record in compared.records],
        factors=factor_rows(compared.comparisons),
        reach=two_digits(reach_of(compared.comparisons)),
        reasons=[_reason(comparison) for comparison in compared.comparisons],
        sections=[block_section(farm, season, place, frame) for place in places],
        figures=[season_figure(season, place, limits) for place in places],
        counts=count_rows(compared.records, frame),
        records=record_rows(compared.records, frame),
        cultivars=cultivar_cells(compared.cultivars),
        trials=trial_cells(compared.trials, frame),
        untreated=compared.untreated,
        effect=effect_words(compared.disease.organs),
        words=words,
        cautions=phrase_of(CAUTIONS),
    )
    title = phrase(
        "{farm}: {blocks} side by side, {disease}",
        farm=farm_title(farm),
        blocks=", ".join(record.block for record in compared.records),
        disease=phrase_of(compared.disease.name),
    )
    return still_page(title=str(escape(title)), style=joined(STYLES), body=body)


def factor_rows(comparisons: tuple[Comparison, ...]) -> list[dict[str, Any]]:
    """
    Return the factors of all blocks, one a row, and all together in the last.

    Parameters
    ----------
    comparisons : tuple of Comparison
        Each further block against the first.

    Returns
    -------
    list of dict
        Ratios to five digits, so that their product is the last one as printed.
    """
    first, reach = comparisons[0], reach_of(comparisons)
    rows = [
        {
            "name": phrase_of(row.factor.name),
            "value": figures(row.other),
            "others": [
                _cell(comparison.rows[place].value, comparison.rows[place].ratio, reach)
                for comparison in comparisons
            ],
            "standing": phrase_of(
                _weakest([comparison.rows[place].standing for comparison in comparisons])
            ),
        }
        for place, row in enumerate(first.rows)
    ]
    total = {
        "name": phrase("all together"),
        "value": figures(first.against_hazard),
        "others": [_cell(one.hazard, one.ratio, reach) for one in comparisons],
        "standing": "",
    }
    return [*rows, total]


def figures(value: float) -> str:
    """
    Return a factor in few digits.

    Parameters
    ----------
    value : float
        Not negative.

    Returns
    -------
    str
        Four significant digits, a dash where it is not known.

    Examples
    --------
    >>> figures(0.51234), figures(float("nan"))
    ('0.5123', '–')
    """
    return f"{value:.4g}" if isfinite(value) else "–"


def _weakest(standings: list[str]) -> str:
    """Return the standing of a row: measured only if it is so between all of its blocks."""
    return min(standings, key=lambda standing: standing == "measured")


def reach_of(comparisons: tuple[Comparison, ...]) -> float:
    """
    Return the ratio that the longest bar stands for.

    Parameters
    ----------
    comparisons : tuple of Comparison
        All of a table.

    Returns
    -------
    float
        At least 2, so that ratios near 1 look near 1.
    """
    ratios = [one.ratio for one in comparisons]
    ratios += [row.ratio for one in comparisons for row in one.rows]
    logs = [abs(log(ratio)) for ratio in ratios if isfinite(ratio) and ratio > 0]
    return max(LEAST_REACH, exp(max(logs, default=0.0)))


def _cell(value: float, ratio: float, reach: float) -> dict[str, Any]:
    length = 0.0
    if isfinite(ratio) and ratio > 0:
        length = log(ratio) / log(reach) * LONGEST_BAR
    return {
        "value": figures(value),
        "ratio": f"{ratio:.5g}" if isfinite(ratio) else phrase("no ratio"),
        "length": round(abs(length), 1),
        "left": round(min(length, 0.0), 1),
    }


def _reason(comparison: Comparison) -> str:
    has_ratio = isfinite(comparison.ratio) and comparison.hazard > 0
    told = because(comparison)
    return phrase("{block} is {times}", block=comparison.block, times=told) if has_ratio else told
