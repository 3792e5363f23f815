"""Walks through the blocks of the made farm."""

from geo.scouting.plan_walk import plan_walk
from geo.scouting.walk import Walk
from tests.exports.made import Made
from tests.scouting.made_walk import entry, morning, order_of


def walk_through(
    farm_made: Made, counts: dict[str, int], *, hours: float = 3.0, **closed: object
) -> Walk:
    entries = [
        entry(rank, block, count=count) for rank, (block, count) in enumerate(counts.items(), 1)
    ]
    gate = farm_made.farm.places[farm_made.farm.places["kind"] == "gate"].iloc[0]
    return plan_walk(
        farm_made.farm,
        farm_made.season,
        order_of(*entries),
        morning=morning(list(counts), **closed),
        hours=hours,
        starts=[(str(gate["name"]), gate.geometry)],
    )
