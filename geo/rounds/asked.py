"""Which numbers of a round did somebody ask for in place of the farm's own?"""

from dataclasses import replace
from datetime import time

from geo.errors import stop
from geo.rounds.ready import ReadyRound
from geo.texts import phrase

HOURS_A_DAY = 24.0


def asked_round(
    ready: ReadyRound, *, hours: float | None, start: time | None, sprayers: int | None
) -> ReadyRound:
    """
    Return the numbers of a round with what was asked for in place of the farm's own.

    Parameters
    ----------
    ready : ReadyRound
        The farm's.
    hours : float or None
        Of work for each sprayer; None for the farm's own.
    start : datetime.time or None
        Local time before which none leaves; None for the farm's own.
    sprayers : int or None
        How many of the farm's sprayers go, the first ones; None for all.

    Returns
    -------
    ReadyRound
        Without what was assumed for sprayers that stay in the shed.

    Raises
    ------
    InputError
        If hours or sprayers cannot be.
    """
    if hours is not None and not 0.0 <= hours <= HOURS_A_DAY:
        found = phrase("{value:g} hours of work", value=hours)
        fix = phrase("Give between 0 and 24 hours")
        raise stop("E-HOURS-RANGE", "--hours", found, fix)
    if sprayers is not None and not 1 <= sprayers <= len(ready.sprayers):
        found = phrase(
            "{asked} sprayers, and {count} are described",
            asked=sprayers,
            count=len(ready.sprayers),
        )
        fix = phrase("Describe more in farm.toml, or ask less")
        raise stop("E-SPRAYERS-RANGE", "--sprayers", found, fix)
    # What was assumed for sprayers that stay in the shed is not of this round.
    stay = {one.name for one in (ready.sprayers[sprayers:] if sprayers else ())}
    return replace(
        ready,
        hours=ready.hours if hours is None else hours,
        start=ready.start if start is None else start,
        sprayers=ready.sprayers[:sprayers],
        assumed=tuple(one for one in ready.assumed if one.sprayer not in stay),
    )
