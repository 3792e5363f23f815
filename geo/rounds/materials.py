"""What of the user's own label file passes every rule in each block today, and what would it do?"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from math import isfinite

import numpy as np
import xarray as xr

from geo.arrays import FloatArray
from geo.reference.diseases import DISEASES, Disease
from geo.reference.fungicides import fungicides
from geo.reference.number import said
from geo.rounds.held import TOO_SHORT
from geo.rounds.hours import sprayer_hours
from geo.rounds.slots import NEVER, Slots, slots_of
from geo.rounds.tank import tank_effect
from geo.season.farm import Farm
from geo.texts import mark, phrase, phrase_for, phrase_of
from geo.windows.ask import windows_of_labels
from geo.windows.ask_material import codes_of
from geo.windows.gate import Gate, Rule
from geo.windows.open_hours import Windows

# Cautions about the material itself; those about the hours are told of each hour.
OF_THE_MATERIAL = ("copper-bloom", "agitation")
NO_HOURS = mark("No forecast hour is left today, and unknown is closed")


@dataclass(frozen=True, slots=True)
class Effect:
    """
    What a material is taken to do to a disease on its organ when fresh.

    Attributes
    ----------
    disease : Disease
        On its organ.
    low, expected, high : float
        Share of infections prevented: efficacy times coverage.
    standing, source, note : str
        What the efficacy rests on.
    """

    disease: Disease
    low: float
    expected: float
    high: float
    standing: str
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class Labelled:
    """
    A material of the user's label file, as every rule sees it today.

    Attributes
    ----------
    material : str
        Active ingredient.
    codes : tuple of str
        Its cross-resistance codes: several for a premix.
    effects : tuple of Effect
        By disease, in the order of the diseases.
    open_from : tuple of datetime.datetime or None
        Of each block: local start of today's first stretch of open hours that is long enough, if
        every rule passes there.
    closed_by : tuple of str
        Of each block: the rule that closes most of the day, with the value that failed first and
        the limit; empty where the block is open.
    uses : tuple of str
        Of each block: which use of a season and in a row it would be, in words.
    cautions : tuple of str
        Of each block: what about the material warns in its first open hour, and closes nothing.
    """

    material: str
    codes: tuple[str, ...]
    effects: tuple[Effect, ...]
    open_from: tuple[datetime | None, ...]
    closed_by: tuple[str, ...]
    uses: tuple[str, ...]
    cautions: tuple[str, ...]

    def against(self, disease: str) -> Effect:
        """
        Return what it does to a disease.

        Parameters
        ----------
        disease : str
            Its key.

        Returns
        -------
        Effect
            When fresh.
        """
        return next(effect for effect in self.effects if effect.disease.key == disease)


def labelled_materials(farm: Farm, season: xr.Dataset) -> tuple[Labelled, ...]:
    """
    Return what every rule says of each material of the user's label file.

    Parameters
    ----------
    farm : Farm
        With its labels; none give none.
    season : xarray.Dataset
        As for the spray windows.

    Returns
    -------
    tuple of Labelled
        In the order of the file. Nothing is picked: the label and a licensed applicator decide.
    """
    hours = sprayer_hours(farm, season)
    return tuple(
        _labelled(farm, label.material, slots_of(windows, hours))
        for label, windows in windows_of_labels(farm, season)
    )


def _labelled(farm: Farm, material: str, slots: Slots) -> Labelled:
    windows, codes = slots.windows, codes_of(farm, material)
    starts = [hour.replace(tzinfo=None) for hour in windows.start]
    return Labelled(
        material=material,
        codes=codes,
        effects=tuple(_effects(farm, material)),
        open_from=tuple(None if at == NEVER else starts[at] for at in slots.today.tolist()),
        closed_by=_closed_by(slots),
        uses=_uses(windows, codes),
        cautions=_cautions(slots),
    )


def _effects(farm: Farm, material: str) -> Iterator[Effect]:
    for disease in DISEASES:
        low, expected, high = tank_effect(farm, material, disease.key).tolist()
        known = fungicides()[material].efficacy[disease.key]
        words = said(known.note or known.where)
        yield Effect(disease, low, expected, high, known.standing, known.source, words)


def _closed_by(slots: Slots) -> tuple[str, ...]:
    """Return the rule that closes most hours of the day, block by block, all at once."""
    windows, day = slots.windows, slots.windows.hours_of_day
    count = len(windows.is_closed)
    if not day:
        return (phrase_of(NO_HOURS),) * count
    closing = windows.closing
    hours = [np.broadcast_to(gate.is_closed[:, :day].sum(axis=1), count) for gate in closing]
    # The order of the gates breaks ties: people and labels before weather.
    most = np.argmax(hours, axis=0)
    is_short = ~np.all(windows.is_closed[:, :day], axis=1)
    told = [phrase_of(TOO_SHORT) if short else "" for short in is_short.tolist()]
    for block in np.flatnonzero(~slots.is_open & ~is_short).tolist():
        told[block] = _closing_words(closing[int(most[block])], block, day)
    return tuple(
        "" if is_open else words
        for is_open, words in zip(slots.is_open.tolist(), told, strict=True)
    )


def _closing_words(gate: Gate, block: int, day: int) -> str:
    """Return what a rule is about, with the value that failed first and the limit."""
    first = int(gate.of_block(gate.is_closed, block)[:day].argmax())
    value = float(gate.of_block(gate.value, block)[first])
    return phrase(
        "{rule}: {value}, limit {limit}",
        rule=gate.rule.about,
        value=_measured(value, gate.rule),
        limit=_measured(gate.rule.limit, gate.rule),
    )


def _measured(value: float, rule: Rule) -> str:
    if not isfinite(value):
        return phrase_for("a value", "not known")
    unit = {"1": "", "degC": " °C"}.get(rule.unit, f" {rule.unit}")
    return f"{value:.3g}{unit}"


def _cautions(slots: Slots) -> tuple[str, ...]:
    """Return what warns of the material in each block's first open hour, all blocks at once."""
    shape = slots.windows.is_closed.shape
    place = np.arange(shape[0])
    told = [
        np.where(
            slots.is_open & np.broadcast_to(gate.is_closed, shape)[place, slots.today],
            gate.rule.title,
            "",
        ).tolist()
        for gate in slots.windows.gates
        if gate.rule.is_caution and gate.rule.key in OF_THE_MATERIAL and shape[1]
    ]
    by_block = zip([""] * shape[0], *told, strict=True)
    return tuple("; ".join(filter(None, words)) for words in by_block)


def _uses(windows: Windows, codes: tuple[str, ...]) -> tuple[str, ...]:
    """Return which use it would be, block by block."""
    gates = {gate.rule.key: gate for gate in windows.gates}
    count = len(windows.is_closed)
    by_label = mark("use {number:.0f} of {limit:g} in a year, by your label")
    parts = [_counted(gates.get("season-maximum"), count, by_label)]
    for code in codes:
        in_a_year = mark("use {number:.0f} of {limit:g} in a year")
        in_a_row = mark("use {number:.0f} of {limit:g} in a row")
        season = _counted(gates.get(f"frac-season-{code}"), count, in_a_year)
        running = _counted(gates.get(f"frac-running-{code}"), count, in_a_row)
        none = phrase("FRAC {code}: no rule counts its uses", code=code)
        both = [", ".join(filter(None, pair)) for pair in zip(season, running, strict=True)]
        parts.append([f"FRAC {code}: {uses}" if uses else none for uses in both])
    return tuple("; ".join(filter(None, told)) for told in zip(*parts, strict=True))


def _counted(gate: Gate | None, count: int, words: str) -> list[str]:
    """Return the use that a spray in the first hour would be, of how many: block by block."""
    if gate is None or not gate.value.shape[1] or not np.isfinite(gate.rule.limit):
        return [""] * count
    use: FloatArray = np.broadcast_to(gate.value[:, 0], count)
    return [phrase_of(words, number=number, limit=gate.rule.limit) for number in use.tolist()]
