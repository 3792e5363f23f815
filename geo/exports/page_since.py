"""What an earlier run thought of each block, beside what this one thinks."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from math import isfinite, isnan, nan
from typing import Any

from geo.exports.page_classes import class_of, class_word
from geo.exports.page_risk import Risk
from geo.exports.run_decided import protection_today
from geo.ranking.sentences import two_digits
from geo.ranking.spray_words import reapply_line
from geo.rounds.order import SprayOrder
from geo.texts import listed, phrase, phrase_for, phrase_of, phrases
from geo.texts.days import day_words, short_day_words

SLIGHT = 0.01  # our own choice: two digits are printed


@dataclass(frozen=True, slots=True)
class Then:
    """
    One disease as an earlier run left it.

    Attributes
    ----------
    hazard : mapping of str to float
        [1] Mean daily hazard index of the days that were ahead, by block; NaN where not known.
    places : mapping of str to str
        Where a block stood in the spray order of that day, in words; empty where it is not kept.
    protection : mapping of str to float
        [1] What its sprays still prevented; empty where it is not kept.
    """

    hazard: Mapping[str, float]
    places: Mapping[str, str] = field(default_factory=dict)
    protection: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Since:
    """
    An earlier run of the same farm.

    Attributes
    ----------
    day : datetime.date
        Its today.
    diseases : mapping of str to Then
        By key.
    """

    day: date
    diseases: Mapping[str, Then]


def places_of(
    order: Sequence[str], cannot_now: Sequence[str], not_worth: Sequence[str]
) -> dict[str, str]:
    """
    Return where each block stands in a spray order.

    Parameters
    ----------
    order, cannot_now, not_worth : sequence of str
        Ids of blocks.

    Returns
    -------
    dict
        In words, by block.

    Examples
    --------
    >>> places_of([], ["B1"], ["B2"])
    {'B1': 'was barred by a rule', 'B2': 'was not worth it'}
    """
    return (
        {
            block: phrase("was No.\u00a0{place}", place=place)
            for place, block in enumerate(order, start=1)
        }
        | dict.fromkeys(cannot_now, phrase("was barred by a rule"))
        | dict.fromkeys(not_worth, phrase("was not worth it"))
    )


def since_words(risk: Risk, since: Since | None) -> str:
    """
    Return the line for the head of the page.

    Parameters
    ----------
    risk : Risk
        As decided now.
    since : Since or None
        The earlier run.

    Returns
    -------
    str
        Empty where there is none.
    """
    data = since_data(risk, since)
    return "" if data is None else str(data["head"])


def since_data(risk: Risk, since: Since | None) -> dict[str, Any] | None:
    """
    Return what the page says of the change since an earlier run.

    Parameters
    ----------
    risk : Risk
        As decided now.
    since : Since or None
        The earlier run.

    Returns
    -------
    dict or None
        ``head`` and ``day``; by block ``brief`` for the list, ``whole`` for the card, ``class``
        and ``line``: 1 where it is higher now, -1 where it is lower, else 0. None where there is
        nothing to hold the disease against.
    """
    if since is None or risk.disease.key not in since.diseases:
        return None
    then, day = since.diseases[risk.disease.key], _short(since.day, risk.spray.today)
    line = reapply_line(risk.season)
    places = _places_now(risk.spray)
    left = protection_today(risk.season, risk.spray).tolist()
    now = zip(
        map(str, risk.season["block"].values),
        risk.season["hazard_ahead"].values.tolist(),
        left,
        strict=True,
    )
    rows = [
        _Row(block, hazard, places.get(block, ""), protection, then, line)
        for block, hazard, protection in now
    ]
    return {
        "day": day,
        "head": _head(rows, since.day, risk.spray.today),
        "brief": [row.brief() for row in rows],
        "whole": [row.whole(day) for row in rows],
        "class": [row.class_step() for row in rows],
        "line": [row.line_step() for row in rows],
    }


@dataclass(frozen=True, slots=True)
class _Row:
    """A block now, and what the earlier run said of all of them."""

    block: str
    hazard: float
    place: str
    protection: float
    then: Then
    line: float

    def brief(self) -> str:
        """Return its earlier place and the ratio, as far as they differ."""
        if self.block not in self.then.hazard:
            return phrase_for("a block", "new")
        place, hazard = self.then.places.get(self.block, ""), self.then.hazard[self.block]
        parts = [place] if place and place != self.place else []
        if self.hazard > 0 and hazard > 0:
            ratio = self.hazard / hazard
            parts += [f"×\u00a0{two_digits(ratio)}"] if abs(ratio - 1.0) >= SLIGHT else []
        elif isnan(hazard) and isfinite(self.hazard):
            parts.append(phrase("not known before"))
        return listed(parts, last="comma")

    def whole(self, day: str) -> str:
        """Return the same with its day, the class then and the line it crossed."""
        brief = self.brief()
        if not brief:
            return ""
        change = f"{brief[:1].upper()}{brief[1:]}"
        parts = [phrase("{change} since {day}.", change=change, day=day)]
        if self.class_step():
            word = phrase_of(class_word(self.then.hazard[self.block]))
            parts.append(phrase("Class then: {class_word}.", class_word=word))
        if self.line_step():
            parts.append(self._line_words(self.then.protection[self.block]))
        return " ".join(parts)

    def _line_words(self, before: float) -> str:
        if self.line_step() > 0:
            return phrase(
                "Its protection came above the reapply line ({before:.2f} then).", before=before
            )
        return phrase("Its protection fell to the reapply line ({before:.2f} then).", before=before)

    def class_step(self) -> int:
        """Return whether its class is higher (1) or lower (-1) now."""
        now, before = class_of(self.hazard), class_of(self.then.hazard.get(self.block, nan))
        return 0 if min(now, before) < 0 else (now > before) - (now < before)

    def line_step(self) -> int:
        """Return whether its protection came above the line (1) or fell to it (-1)."""
        before = self.then.protection.get(self.block, nan)
        if isnan(before) or isnan(self.protection):
            return 0
        return int(self.protection > self.line) - int(before > self.line)


def _places_now(order: SprayOrder) -> dict[str, str]:
    lists = (order.entries, order.cannot_now, order.not_worth)
    return places_of(*([entry.block for entry in entries] for entries in lists))


def _head(rows: Sequence[_Row], day: date, today: date) -> str:
    year = "" if day.year == today.year else f" {day.year}"
    steps = [
        sum(bool(row.class_step()) for row in rows),
        sum(bool(row.line_step()) for row in rows),
    ]
    return phrases(
        "Since the run of {day}: {count} block moved a class, {crossed} crossed the reapply line.",
        "Since the run of {day}: {count} blocks moved a class, {crossed} crossed the reapply line.",
        steps[0],
        day=day_words(day) + year,
        crossed=steps[1],
    )


def _short(day: date, today: date) -> str:
    year = "" if day.year == today.year else f" {day.year}"
    return f"{short_day_words(day)}{year}"
