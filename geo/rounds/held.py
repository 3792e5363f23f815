"""Why is a block kept out today: which rule, which number, and when does it clear?"""

from datetime import date, datetime, timedelta
from math import isfinite

import numpy as np

from geo.arrays import BoolArray, IntArray
from geo.rounds.order import CannotNow
from geo.season.farm import Farm
from geo.texts import mark, phrase, phrase_for, phrase_of
from geo.texts.days import day_words, hour_words
from geo.windows.ask_places import drift_at
from geo.windows.gate import Gate, Rule, open_run
from geo.windows.open_hours import Windows
from geo.windows.sulfur_heat import HeatGate

HEAT, BUFFER = "sulfur-heat", "buffer"
TOO_SHORT = mark("Open hours in a row, fewer than the block takes")


def held_block(
    farm: Farm, windows: Windows, *, place: int, block: str, hazard: float, needed: int
) -> CannotNow:
    """
    Return what keeps a block out of today's round.

    Parameters
    ----------
    farm : Farm
        Knows today.
    windows : Windows
        The rules' verdict.
    place : int
        Of the block among the season's.
    block : str
        Its id.
    hazard : float
        Its mean hazard ahead.
    needed : int
        Hours in a row that it takes.

    Returns
    -------
    CannotNow
        A rule that alone closes the whole rest of the day is named before one that closes the
        most hours of it.
    """
    day = windows.day or farm.today
    hours = windows.hours_of_day
    rule, value, when, others = _closer(windows, place, hours, needed)
    clears = _clears(windows, place, needed)
    last = phrase("Not open again within the forecast.")
    if clears:
        last = phrase("Open again from {clears}.", clears=hour_words(clears))
    if rule.key == HEAT and windows.heat is not None:
        day, first = _heat_words(farm, windows, windows.heat, place)
    else:
        first = _words(rule, value, when)
    known = value if isfinite(value) else None
    return CannotNow(
        block=block,
        hazard=hazard,
        rule=rule.key,
        day=day,
        value=known,
        limit=rule.limit if isfinite(rule.limit) else None,
        unit=rule.unit,
        standing=rule.standing,
        clears=clears,
        reason=" ".join(part for part in (first, others, last) if part),
        title=rule.title,
        about=rule.about,
    )


def _closer(windows: Windows, place: int, hours: int, needed: int) -> tuple[Rule, float, str, str]:
    """Return the rule to name, its value, the hour of that, and what else closes hours."""
    if not hours:
        standing = phrase_for("where a limit comes from", "unknown is closed")
        title = phrase("Hours of forecast left on the day")
        return Rule("no-forecast", title, 1.0, "h", standing), 0.0, "", ""
    rows = [(gate, gate.of_block(gate.is_closed, place)[:hours]) for gate in windows.closing]
    closed = [(gate, row) for gate, row in rows if row.any()]
    longest = int(open_run(windows.is_closed[place : place + 1, :hours]).max())
    if longest:
        standing = phrase("your own sprayer hours a hectare, rounded up to whole hours")
        rule = Rule("window-length", phrase_of(TOO_SHORT), float(needed), "h", standing)
        return rule, float(longest), "", _also(closed)
    # The order of the gates breaks ties: people and labels before weather.
    gate, row = max(closed, key=lambda one: int(one[1].sum()))
    at = int(row.argmax())
    return (
        gate.rule,
        float(gate.of_block(gate.value, place)[at]),
        f"{windows.start[at]:%H:%M}",
        _also([one for one in closed if one[0] is not gate]),
    )


def _also(closed: list[tuple[Gate, BoolArray]]) -> str:
    told = "; ".join(f"{gate.rule.about} ({int(row.sum())} h)" for gate, row in closed)
    return (
        phrase("Hours of the day are closed by other rules too: {rules}.", rules=told)
        if told
        else ""
    )


def _clears(windows: Windows, place: int, needed: int) -> datetime | None:
    run: IntArray = open_run(windows.is_closed[place : place + 1])[0]
    enough = np.flatnonzero(run >= needed)
    return windows.start[int(enough[0])].replace(tzinfo=None) if enough.size else None


def _words(rule: Rule, value: float, when: str) -> str:
    told = {"rule": rule.title, "limit": _measured(rule.limit, rule.unit)}
    if not isfinite(value):
        # Only what was asked of an hour can be unknown.
        return phrase(
            "{rule}: not known at {hour}, and unknown is closed; limit {limit}.", hour=when, **told
        )
    told["value"] = _measured(value, rule.unit)
    if not when:
        return phrase("{rule}: {value}, limit {limit}.", **told)
    words = phrase("{rule}: {value} at {hour}, limit {limit}.", hour=when, **told)
    if rule.key != BUFFER:
        return words
    drift = phrase(
        "Up to {share:.2g} % of the rate drifts that far (90th percentile).", share=drift_at(value)
    )
    return f"{words} {drift}"


def _measured(value: float, unit: str) -> str:
    if not isfinite(value):
        return phrase_for("a value", "not known")
    return f"{value:.3g}" if unit == "1" else f"{value:.3g} {unit}"


def _heat_words(farm: Farm, windows: Windows, heat: HeatGate, place: int) -> tuple[date, str]:
    """Return the day that closes sulfur, and why; the column of the gate counts from today."""
    column = 0 if windows.day is None else (windows.day - farm.today).days
    closing_day = farm.today + timedelta(days=int(heat.closing_day[place, column]))
    value = float(heat.closing_value[place, column])
    rule = next(gate.rule for gate in windows.gates if gate.rule.key == HEAT)
    if not isfinite(value):
        return closing_day, phrase(
            "Sulfur: no forecast for {day}, and unknown is closed.", day=day_words(closing_day)
        )
    return closing_day, phrase(
        "Sulfur: {value:.1f} °C forecast for {day}, at or above the limit of {limit:.1f} °C on the "
        "day of the spray and the three days after. Heat closed this block on {hot_days} of the "
        "{month_days} days of this month that are known.",
        value=value,
        day=day_words(closing_day),
        limit=rule.limit,
        hot_days=windows.hot_days[place],
        month_days=windows.month_days,
    )
