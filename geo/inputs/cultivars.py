"""Which cultivars stand in a block? Names and shares out of a cell of text."""

import re
from collections.abc import Collection

import pandas as pd

from geo.errors import Outcome, quoted
from geo.inputs.at import at_column
from geo.inputs.names import nearest, plain
from geo.inputs.reading import Reading
from geo.texts import phrase

UNKNOWN = "unknown"  # the reference table's neutral row with wide doubt
# Shares that add up to about 100 are rounded ones; further off, something else was meant
# (our choice).
LOWEST_SUM, HIGHEST_SUM = 0.95, 1.05
ROUNDING = 0.006  # of the sum, as thirds written in whole percent leave it
_PART = re.compile(r"(?P<name>.*?)(?:[\s:]+(?P<percent>\d+(?:\.\d+)?)\s*%?)?")


def cultivar_shares(reading: Reading, texts: pd.Series, *, known: Collection[str]) -> pd.Series:
    """
    Return each block's cultivars as name and share.

    Parameters
    ----------
    reading : Reading
        The file, for notes.
    texts : pandas.Series
        As written, by block: "Keitt", or "Keitt 60, Kent 40" in percent.
    known : collection of str
        Cultivars with a rating.

    Returns
    -------
    pandas.Series
        Such as "Keitt:0.6;Kent:0.4". A cultivar without a rating keeps its own name; a block
        without a usable text is "unknown:1".
    """
    spelling = {plain(name): name for name in known}
    shares = pd.Series(
        [_shares(reading, str(block), text, spelling) for block, text in texts.items()],
        index=texts.index,
        dtype=object,
    )
    strangers: dict[str, list[str]] = {}
    for block, parts in shares.items():
        for name in parts:
            if plain(name) not in spelling and name != UNKNOWN:
                strangers.setdefault(name, []).append(str(block))
    for name, blocks in strangers.items():
        found = phrase(
            "unknown cultivar {cultivar}: neutral rating with wide doubt", cultivar=quoted(name)
        )
        at = at_column("cultivar", of=blocks)
        fix = phrase("Check the spelling; nearest: {nearest}", nearest=nearest(name, known))
        reading.add(Outcome.NOTE, "E-CULTIVAR-UNKNOWN", at, found=found, fix=fix)
    return shares.map(
        lambda parts: ";".join(f"{name}:{share:.6g}" for name, share in parts.items())
    )


def _shares(reading: Reading, block: str, text: str, spelling: dict[str, str]) -> dict[str, float]:
    parts = [_part(part, spelling) for part in re.split(r"[,;/+]", text) if part.strip()]
    at = at_column("cultivar", of=[block])
    if not parts:
        found = phrase("no cultivar: neutral rating with wide doubt")
        fix = phrase("Write what is planted")
        reading.add(Outcome.NOTE, "E-CULTIVAR-EMPTY", at, found=found, fix=fix)
        return {UNKNOWN: 1.0}
    if all(share is None for _, share in parts):
        parts = [(name, 1.0 / len(parts)) for name, _ in parts]
    total = sum(share or 0.0 for _, share in parts)
    if not LOWEST_SUM <= total <= HIGHEST_SUM or any(share is None for _, share in parts):
        found = phrase(
            "shares of {cultivars} add up to {total:.0f} %: cultivar taken as unknown",
            cultivars=quoted(text),
            total=100 * total,
        )
        fix = phrase("Write shares that add up to 100")
        reading.add(Outcome.HOLD, "E-CULTIVAR-SHARES", at, found=found, fix=fix)
        return {UNKNOWN: 1.0}
    if abs(total - 1.0) > ROUNDING:
        found = phrase(
            "shares of {cultivars} add up to {total:.0f} %: taken in proportion",
            cultivars=quoted(text),
            total=100 * total,
        )
        fix = phrase("Write shares that add up to 100")
        reading.add(Outcome.FIX, "E-CULTIVAR-SHARES", at, found=found, fix=fix)
    shares: dict[str, float] = {}
    for name, share in parts:
        shares[name] = shares.get(name, 0.0) + (share or 0.0) / total
    return shares


def _part(part: str, spelling: dict[str, str]) -> tuple[str, float | None]:
    """Return one cultivar and its share; a number that belongs to a known name stays there."""
    if plain(part) in spelling:
        return spelling[plain(part)], None
    found = _PART.fullmatch(part.strip())
    name = found["name"].strip() if found else part.strip()
    percent = found["percent"] if found else None
    own = " ".join(name.replace(":", " ").split()) or UNKNOWN
    return spelling.get(plain(name), own), None if percent is None else float(percent) / 100.0
