"""The walk for a phone or a hand-held receiver: every tree by name, and the way past them."""

from pathlib import Path

from pyproj import Transformer

from geo.exports.gpx import Mark, Way, write_gpx
from geo.scouting.stops import COOL, EDGE, LOT
from geo.scouting.walk import Walk
from geo.season.farm import Farm
from geo.texts import mark, phrase, phrase_of

PLANNED = mark("planned, not walked")
KIND_WORDS = {COOL: mark("coolest"), EDGE: mark("edge"), LOT: mark("by lot")}


def write_walk_gpx(path: Path, *, farm: Farm, walk: Walk, disease: str) -> None:
    """
    Write the walk.

    Parameters
    ----------
    path : pathlib.Path
        Of the GPX file.
    farm : Farm
        For its name.
    walk : Walk
        What was planned.
    disease : str
        Name of the disease that is looked for.
    """
    to_degrees = Transformer.from_crs(farm.crs, "EPSG:4326", always_xy=True)
    bends = tuple(to_degrees.transform(east, north) for east, north in walk.way)
    gate = Mark(walk.start, *to_degrees.transform(*walk.start_place), kind="gate")
    trees = tuple(
        Mark(
            name=f"{stop.number:02d} {visit.entry.block} {phrase_of(KIND_WORDS[stop.stop.kind])}",
            longitude=stop.longitude,
            latitude=stop.latitude,
            comment=stop.stop.reason,
            description=phrase(
                "Block {number} of {all}. {reason}",
                number=visit.number,
                all=len(walk.visits),
                reason=stop.stop.reason,
            ),
            kind="tree",
        )
        for visit in walk.visits
        for stop in visit.stops
    )
    write_gpx(
        path,
        farm=farm,
        day=walk.day,
        description=phrase(
            "Walk, looking for {disease}: planned, not walked; {ways}",
            disease=phrase_of(disease),
            ways=walk.ways,
        ),
        marks=(gate, *trees),
        ways=(Way(phrase("Walk"), phrase_of(PLANNED), bends, marks=(gate, *trees, gate)),),
    )
