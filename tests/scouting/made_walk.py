"""Small things to plan walks with: trees in a row, a scouting order, a morning."""

from datetime import date, datetime, timedelta

from geo.scouting.order import VALUE, ScoutingEntry, ScoutingOrder
from geo.scouting.stops import LOT, Stop
from geo.scouting.walk import Morning

OPENS = datetime.fromisoformat("2024-08-14T06:30")
CLOSES = OPENS + timedelta(hours=4)


def trees(*places: tuple[float, float]) -> tuple[Stop, ...]:
    return tuple(Stop(LOT, east, north, "By lot.") for east, north in places)


def entry(rank: int, block: str, *, score: float = 1.0, count: int = 5, why: str = VALUE):
    return ScoutingEntry(
        rank=rank,
        block=block,
        score=score,
        doubt=1.0,
        stake=1.0,
        days_since_look=None,
        chosen=why,
        trees=count,
        organs_per_tree=10,
        share_left=0.05,
        # As long as a real one, or no test of the sheet's one page means anything.
        proof=(
            f"Look at 10 panicles on each of {count} trees. None of {10 * count} would still "
            "leave up to 5.5 % infected (95 % sure; clumped on trees they prove what 53 one by "
            "one would: design effect 1.9)."
        ),
        reason="Nobody has looked.",
    )


def order_of(*entries: ScoutingEntry) -> ScoutingOrder:
    return ScoutingOrder(today=date(2024, 8, 14), entries=entries)


def morning(blocks: list[str], **closed: object) -> Morning:
    """Return a morning on which all blocks are open, but for those closed after a spray."""
    hours = dict.fromkeys(blocks, (OPENS, CLOSES))
    for block, ends in closed.items():
        hours.pop(block)
        if isinstance(ends, datetime) and ends < CLOSES:
            hours[block] = (ends, CLOSES)
    return Morning(OPENS, CLOSES, hours, dict(closed), "Walk early.")
