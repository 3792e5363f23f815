"""The two orders of the day as the page reads them."""

from typing import Any

import numpy as np

from geo.exports.page_classes import class_of
from geo.ranking.doubt import spread
from geo.rounds.order import CannotNow, SprayEntry, SprayOrder
from geo.scouting.order import ScoutingOrder
from geo.texts import phrase
from geo.texts.days import day_words, hour_words

HEAT = "sulfur-heat"  # its value is a day's, so it needs no title beside it


def spray_data(spray: SprayOrder, place_of: dict[str, int]) -> dict[str, Any]:
    """
    Return the spray order.

    Parameters
    ----------
    spray : SprayOrder
        As decided.
    place_of : dict
        Place of each block id among the season's blocks.

    Returns
    -------
    dict
        The order, what is not worth it now, the cannot-now list, and the blocks in none of them.
    """
    listed = {entry.block for entry in spray.entries}
    listed |= {entry.block for entry in spray.cannot_now}
    listed |= {entry.block for entry in spray.not_worth}
    reasons = {entry.block: entry.reason for entry in spray.not_ranked}
    return {
        "reference": place_of.get(spray.reference_block, 0),
        "entries": [
            {
                "rank": entry.rank,
                "block": place_of[entry.block],
                "class": class_of(entry.hazard),
                "ratio": as_shown(entry.ratio),
                "low": as_shown(entry.low),
                "high": as_shown(entry.high),
                "hours": as_shown(entry.sprayer_hours),
                "reason": entry.reason,
                "open": _stretch(entry),
                "loss": as_shown(entry.per_hour),
                "waiting": entry.waiting,
                "beyond": entry.is_within is False,
            }
            for entry in spray.entries
        ],
        "apart": [
            {
                "block": place_of[entry.block],
                "class": class_of(entry.hazard),
                "reason": entry.reason,
            }
            for entry in spray.not_worth
        ],
        "hours_today": finite(spray.hours_today),
        "loss_for": "hour" if has_hours(spray) else "hectare",
        "cannot": [_cannot(entry, place_of) for entry in spray.cannot_now],
        "rules": [
            {
                "words": entry.title,
                "limit": finite(entry.limit),
                "unit": entry.unit,
                "standing": entry.standing,
            }
            for entry in first_of_each_rule(spray)
        ],
        "unranked": [
            {"block": place, "reason": reasons.get(block, "")}
            for block, place in place_of.items()
            if block not in listed
        ],
    }


def scouting_data(scouting: ScoutingOrder, place_of: dict[str, int]) -> list[dict[str, Any]]:
    """
    Return the scouting order.

    Parameters
    ----------
    scouting : ScoutingOrder
        As decided.
    place_of : dict
        Place of each block id among the season's blocks.

    Returns
    -------
    list of dict
        First to last.
    """
    return [
        {
            "rank": entry.rank,
            "block": place_of[entry.block],
            "within": as_shown(float(spread(np.asarray(entry.doubt)))),
            "stake": as_shown(entry.stake),
            "looked": entry.days_since_look,
            "chosen": entry.chosen,
            "trees": entry.trees,
            "each": entry.organs_per_tree,
            "proof": entry.proof,
            "when": entry.when,
            "option": entry.option,
            "reason": entry.reason,
        }
        for entry in scouting.entries
    ]


def first_of_each_rule(spray: SprayOrder) -> list[CannotNow]:
    """
    Return one block for each rule that closes any.

    Parameters
    ----------
    spray : SprayOrder
        As decided.

    Returns
    -------
    list of CannotNow
        What a rule says, its limit and its standing are the same for all its blocks.
    """
    return list({entry.rule: entry for entry in reversed(spray.cannot_now)}.values())[::-1]


def not_asked_words(spray: SprayOrder) -> str:
    """
    Return what nobody was asked about, as short as a heading.

    Parameters
    ----------
    spray : SprayOrder
        With a sentence for each.

    Returns
    -------
    str
        Their subjects; empty where every rule was asked.
    """
    return "; ".join(unasked.about for unasked in spray.not_asked)


def finite(value: float | None) -> float | None:
    """
    Return a number for JSON.

    Parameters
    ----------
    value : float or None
        Any number.

    Returns
    -------
    float or None
        With six figures, None where it is not known.

    Examples
    --------
    >>> finite(2.0000004), finite(float("nan"))
    (2.0, None)
    """
    return None if value is None or not np.isfinite(value) else float(f"{value:.6g}")


def as_shown(value: float | None) -> float | None:
    """
    Return a number with the figures that the lists show: two, or all before the point.

    Parameters
    ----------
    value : float or None
        Not negative.

    Returns
    -------
    float or None
        None where it is not known.

    Examples
    --------
    >>> as_shown(0.034567), as_shown(3.14159), as_shown(314.159), as_shown(float("nan"))
    (0.035, 3.1, 314.0, None)
    """
    if value is None or not np.isfinite(value):
        return None
    # The same limits as in words.js.
    if value >= 9.95:  # noqa: PLR2004
        return float(f"{value:.0f}")
    return float(f"{value:.1f}" if value >= 0.995 else f"{value:.2g}")  # noqa: PLR2004


def has_hours(spray: SprayOrder) -> bool:
    """
    Return whether losses are told for each hour of sprayer.

    Parameters
    ----------
    spray : SprayOrder
        As decided.

    Returns
    -------
    bool
        False where the user gave no hours: then they are told for each hectare.
    """
    return any(entry.sprayer_hours is not None for entry in spray.entries)


def _stretch(entry: SprayEntry) -> str | None:
    """Return the sentence that says when a block is open, and of what that warns."""
    if entry.open_from is None or entry.open_until is None:
        return None
    hours = {"start": hour_words(entry.open_from), "end": f"{entry.open_until:%H:%M}"}
    if not entry.cautions:
        return phrase("Open today: {start} to {end}.", **hours)
    cautions = ", ".join(entry.cautions)
    return phrase("Open today: {start} to {end}; caution: {cautions}.", **hours, cautions=cautions)


def _cannot(entry: CannotNow, place_of: dict[str, int]) -> dict[str, Any]:
    return {
        "block": place_of[entry.block],
        "class": class_of(entry.hazard),
        "rule": entry.rule,
        "day": day_words(entry.day),
        "value": finite(entry.value),
        "limit": finite(entry.limit),
        "unit": entry.unit,
        "standing": entry.standing,
        "clears": hour_words(entry.clears) if entry.clears else None,
        "title": "" if entry.rule == HEAT else entry.title,
        "reason": entry.reason,
    }
