"""The made valley farm, run once for all tests that need what a run decides and writes."""

from dataclasses import replace
from functools import cache
from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory

from geo.pipeline import Outcome, run, write

FARM = Path(str(files("layers_demo") / "valley_farm"))
# Every file that a run writes.
NAMES = frozenset(
    {
        "block-map.html",
        "spray-order.csv",
        "gates.csv",
        "materials.csv",
        "scouting-order.csv",
        "tally.html",
        "risk.csv",
        "tables.xlsx",
        "blocks.gpkg",
        "blocks.geojson",
        "blocks.kml",
        "favourability.tif",
        "last-night.tif",
        "season.html",
        "blocks-by-day.html",
        "rules.html",
        "rules.csv",
        "run.json",
    }
)
# And what a day's whole job writes besides.
OF_TODAY = frozenset(
    {
        "day-sheet.html",
        "day-sheet.pdf",
        "round.gpx",
        "round.csv",
        "spray-record.csv",
        "walk-sheet.html",
        "walk.gpx",
    }
)
_KEPT: list[TemporaryDirectory[str]] = []


@cache
def demo_outcome() -> Outcome:
    """Return what the demo decides; nobody may change it."""
    return run(FARM)


@cache
def demo_folder() -> Path:
    """Return a folder with all outputs of the demo; nobody may change them."""
    _KEPT.append(TemporaryDirectory(prefix="demo"))
    folder = Path(_KEPT[-1].name)
    write(demo_outcome(), folder)
    return folder


def with_other(outcome: Outcome, *, season: object = None, **orders: object) -> Outcome:
    """Return an outcome with another season, spray order or scouting order of its disease."""
    key = outcome.farm.settings.disease
    changed = replace(outcome.orders[key], **orders)
    seasons = outcome.seasons | ({} if season is None else {key: season})
    return replace(outcome, seasons=seasons, orders=outcome.orders | {key: changed})
