"""What did the sprays of a block do, held against a check that got none?"""

from dataclasses import dataclass

import xarray as xr

from geo.comparison.counts import Count, clumping, confidence, counts_of
from geo.comparison.efficacy import Efficacy, abbott, henderson_tilton
from geo.comparison.sprays import Spray, sprays_of
from geo.texts import phrase

APART_DAYS = 3  # our own choice: disease of a week later is another disease to compare with


@dataclass(frozen=True, slots=True)
class TrialRow:
    """
    One block held against the check.

    Attributes
    ----------
    block : str
        Its id.
    sprays : tuple of Spray
        All before the count that is judged.
    since : tuple of Spray
        Those of them between the two counts of the block.
    before, after, check_before, check_after : Count or None
        What was compared; None where there is no such count.
    abbott, henderson_tilton : Efficacy or None
        None where it cannot be told.
    why_not : str
        Why not, in words; empty where both are told.
    """

    block: str
    sprays: tuple[Spray, ...]
    since: tuple[Spray, ...]
    before: Count | None
    after: Count | None
    check_before: Count | None
    check_after: Count | None
    abbott: Efficacy | None
    henderson_tilton: Efficacy | None
    why_not: str


def trial_row(season: xr.Dataset, place: int, check: int) -> TrialRow:
    """
    Return what the sprays of a block did.

    Parameters
    ----------
    season : xarray.Dataset
        Of one disease.
    place, check : int
        Of the block and of the untreated check.

    Returns
    -------
    TrialRow
        By its newest count after a spray, and by the count before that with a spray in between.
    """
    counts, untreated = counts_of(season, place), counts_of(season, check)
    sprays = tuple(spray for spray in sprays_of(season, place) if not spray.is_planned)
    after = _newest(counts, sprays)
    done = tuple(spray for spray in sprays if after and spray.day < after.day)
    before = _newest(counts, done, but=after)
    check_after, check_before = _beside(untreated, after), _beside(untreated, before)
    if check_before == check_after:
        check_before = None
    one, two = _efficacies((before, after), (check_before, check_after))
    return TrialRow(
        block=str(season["block"].values[place]),
        sprays=done,
        since=tuple(spray for spray in done if before and spray.day >= before.day),
        before=before,
        after=after,
        check_before=check_before,
        check_after=check_after,
        abbott=one,
        henderson_tilton=two,
        why_not=_why_not((before, after), (check_before, check_after), (one, two)),
    )


def _newest(
    counts: tuple[Count, ...], sprays: tuple[Spray, ...], *, but: Count | None = None
) -> Count | None:
    """Return the newest count after a spray, or, given that one, the newest with one since."""
    if but is None:
        # On the day of the spray itself nobody can see what it did.
        fit = [count for count in counts if any(spray.day < count.day for spray in sprays)]
    else:
        fit = [
            count
            for count in counts
            if count.day < but.day and any(spray.day >= count.day for spray in sprays)
        ]
    return fit[-1] if fit else None


def _beside(untreated: tuple[Count, ...], count: Count | None) -> Count | None:
    """Return the count of the check nearest in time, if it is near enough."""
    if count is None or not untreated:
        return None
    nearest = min(untreated, key=lambda other: abs(other.day - count.day))
    return nearest if abs(nearest.day - count.day) <= APART_DAYS else None


def _efficacies(
    treated: tuple[Count | None, Count | None], check: tuple[Count | None, Count | None]
) -> tuple[Efficacy | None, Efficacy | None]:
    (before, after), (check_before, check_after) = treated, check
    if after is None or check_after is None:
        return None, None
    effect, level = clumping(max(after.inspected, check_after.inspected)), confidence()
    one = abbott(after.pair, check_after.pair, confidence=level, effect=effect)
    if before is None or check_before is None:
        return one, None
    two = henderson_tilton(
        (before.pair, after.pair),
        (check_before.pair, check_after.pair),
        confidence=level,
        effect=effect,
    )
    return one, two


def _why_not(
    treated: tuple[Count | None, Count | None],
    check: tuple[Count | None, Count | None],
    told: tuple[Efficacy | None, Efficacy | None],
) -> str:
    (before, after), (check_before, check_after), (one, two) = treated, check, told
    if after is None:
        return phrase("Not counted since a spray.")
    if check_after is None:
        return phrase("The check was not counted within {days} days of it.", days=APART_DAYS)
    if one is None:
        return phrase("The check shows no disease: there was nothing to keep away.")
    if before is None:
        return phrase(
            "Not counted before its sprays: only Abbott's formula, which takes both to be alike."
        )
    if check_before is None:
        return phrase(
            "The check was not counted within {days} days of the count before.", days=APART_DAYS
        )
    return "" if two else phrase("No disease before the sprays: only Abbott's formula.")
