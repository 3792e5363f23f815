"""Which rule closes which hours of which block, as CSV."""

from collections.abc import Iterator
from datetime import timedelta
from math import isfinite
from pathlib import Path

import numpy as np

from geo.exports.farm_title import scenario_words
from geo.exports.files import write_text
from geo.exports.order_tables import as_csv, hour_text
from geo.season.farm import Farm
from geo.windows.gate import Gate
from geo.windows.open_hours import Windows

COLUMNS = (
    "farm", "material", "block_id", "rule", "verdict", "from", "until", "hours", "value", "limit",
    "unit", "clears", "standing", "scenario",
)  # fmt: skip


def write_gates(path: Path, *, farm: Farm, windows: Windows) -> None:
    """
    Write every stretch of hours that a rule closes, or warns of.

    Parameters
    ----------
    path : pathlib.Path
        Of the CSV.
    farm : Farm
        For the blocks' ids.
    windows : Windows
        The rules' verdict. A row is one block, one rule and the hours in a row that it closes;
        the value is that of the first of them.
    """
    rows = (row for gate in windows.gates for row in _rows(farm, windows, gate))
    write_text(path, as_csv(COLUMNS, rows))


def _rows(farm: Farm, windows: Windows, gate: Gate) -> Iterator[list[object]]:
    shape = windows.is_closed.shape
    closed = np.broadcast_to(gate.is_closed, shape)
    value = np.broadcast_to(gate.value, shape)
    padded = np.pad(closed.astype(np.int8), ((0, 0), (1, 1)))
    block, first = np.nonzero(np.diff(padded, axis=1) == 1)
    # Row by row, starts and ends of stretches come in the same order.
    _, end = np.nonzero(np.diff(padded, axis=1) == -1)
    rule, names = gate.rule, farm.blocks.index.to_numpy()
    for place, start, stop in zip(block.tolist(), first.tolist(), end.tolist(), strict=True):
        until = windows.start[stop - 1] + timedelta(hours=1)
        known = float(value[place, start])
        yield [
            farm.name, farm.settings.material, names[place], rule.key,
            "caution" if rule.is_caution else "closed", hour_text(windows.start[start]),
            hour_text(until), stop - start, known if isfinite(known) else None,
            rule.limit if isfinite(rule.limit) else None, rule.unit,
            hour_text(until) if stop < shape[1] else None, rule.standing,
            scenario_words(farm),
        ]  # fmt: skip
