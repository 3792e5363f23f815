"""Rows of the tables of a comparison, in words."""

from math import isfinite
from typing import Any

from geo.comparison.counts import Count
from geo.comparison.cultivars import CultivarRow
from geo.comparison.efficacy import Efficacy
from geo.comparison.pooled import Pooled
from geo.comparison.side_by_side import Record
from geo.comparison.trial import TrialRow
from geo.exports.season_frame import Frame
from geo.ranking.sentences import two_digits
from geo.texts import phrase, phrase_of
from geo.texts.days import day_words

UNKNOWN = "–"


def count_rows(records: tuple[Record, ...], frame: Frame) -> list[dict[str, Any]]:
    """
    Return every count of the blocks.

    Parameters
    ----------
    records : tuple of Record
        Of the blocks.
    frame : Frame
        For dates.

    Returns
    -------
    list of dict
        One a look.
    """
    return [
        {
            "block": record.block,
            "day": day_words(frame.date(count.day)),
            "infected": count.infected,
            "inspected": count.inspected,
            **_shares(count),
        }
        for record in records
        for count in record.counts
    ]


def record_rows(records: tuple[Record, ...], frame: Frame) -> list[dict[str, Any]]:
    """
    Return how much disease each block carried.

    Parameters
    ----------
    records : tuple of Record
        Of the blocks.
    frame : Frame
        For dates.

    Returns
    -------
    list of dict
        One a block.
    """
    return [
        {
            "block": record.block,
            "looks": len(record.counts),
            "first": _day(record.counts[:1], frame),
            "last": _day(record.counts[-1:], frame),
            "area": two_digits(record.area) if isfinite(record.area) else UNKNOWN,
            "mean": two_digits(record.mean) if isfinite(record.mean) else UNKNOWN,
        }
        for record in records
    ]


def cultivar_cells(rows: tuple[CultivarRow, ...]) -> list[dict[str, Any]]:
    """
    Return the cultivars of the farm.

    Parameters
    ----------
    rows : tuple of CultivarRow
        As compared.

    Returns
    -------
    list of dict
        One a cultivar.
    """
    return [
        {
            "cultivar": row.cultivar,
            "blocks": ", ".join(row.blocks),
            "infected": row.infected,
            "inspected": row.inspected,
            **_shares(row.pooled),
            "favourability": two_digits(row.favourability),
            "pool_depth": two_digits(row.pool_depth) if row.pool_depth else "0",
            "sprays": f"{row.sprays:.1f}",
        }
        for row in rows
    ]


def trial_cells(rows: tuple[TrialRow, ...], frame: Frame) -> list[dict[str, Any]]:
    """
    Return what the sprays did.

    Parameters
    ----------
    rows : tuple of TrialRow
        As held against the check.
    frame : Frame
        For dates.

    Returns
    -------
    list of dict
        One a block.
    """
    return [
        {
            "block": row.block,
            "sprays": "; ".join(
                f"{phrase_of(spray.material)} {day_words(frame.date(spray.day))}"
                for spray in row.sprays
            )
            or UNKNOWN,
            "after": _found(row.after, frame),
            "check_after": _found(row.check_after, frame),
            "abbott": efficacy_words(row.abbott),
            "henderson_tilton": efficacy_words(row.henderson_tilton),
            "remark": row.why_not,
        }
        for row in rows
    ]


def efficacy_words(efficacy: Efficacy | None) -> str:
    """
    Return an efficacy with its interval.

    Parameters
    ----------
    efficacy : Efficacy or None
        None where it cannot be told.

    Returns
    -------
    str
        In per cent.

    Examples
    --------
    >>> efficacy_words(Efficacy(0.75, 0.0, 0.914)), efficacy_words(None)
    ('75 % (0 to 91)', '–')
    """
    if efficacy is None:
        return UNKNOWN
    low, high = per_cent(efficacy.low), per_cent(efficacy.high)
    return phrase("{share} % ({low} to {high})", share=per_cent(efficacy.share), low=low, high=high)


def per_cent(share: float) -> str:
    """
    Return a share in per cent.

    Parameters
    ----------
    share : float
        0 to 1; below 0 for less than none.

    Returns
    -------
    str
        Two digits, with a proper minus sign; how far below minus a hundred tells nobody anything.

    Examples
    --------
    >>> per_cent(0.0312), per_cent(-0.4), per_cent(0.0), per_cent(-11.3)
    ('3.1', '−40', '0', 'below −100')
    """
    if share < -1.0:
        return phrase("below {edge}", edge="\N{MINUS SIGN}100")
    sign = "\N{MINUS SIGN}" if share < 0 else ""
    return sign + two_digits(abs(share) * 100) if share else "0"


def _shares(found: Count | Pooled) -> dict[str, str]:
    return {part: per_cent(getattr(found, part)) for part in ("share", "low", "high")}


def _found(count: Count | None, frame: Frame) -> str:
    if count is None:
        return UNKNOWN
    return phrase(
        "{infected} of {inspected}, {day}",
        infected=count.infected,
        inspected=count.inspected,
        day=day_words(frame.date(count.day)),
    )


def _day(counts: tuple[Count, ...], frame: Frame) -> str:
    return day_words(frame.date(counts[0].day)) if counts else UNKNOWN
