"""The made valley farm, run once for all tests that need what a run decides and writes."""

from dataclasses import replace
from functools import cache
from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory

from geo.comparison.side_by_side import side_by_side
from geo.exports.day_sheet import write_day_sheet
from geo.pipeline import Outcome, run, write
from geo.pipeline.check import check, write_survey
from geo.pipeline.pages import write_comparison, write_plots
from geo.pipeline.today import today_of
from geo.pipeline.walk import write_walk
from geo.pipeline.write import write_map_files
from geo.texts import speaking

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
# And what is asked for one by one.
PAGES_ASKED_FOR = frozenset({"season.html", "comparison.html", "check.html"})
ALL_PAGES = sorted(name for name in NAMES | OF_TODAY | PAGES_ASKED_FOR if name.endswith(".html"))
_KEPT: list[TemporaryDirectory[str]] = []


@cache
def demo_outcome() -> Outcome:
    """Return what the demo decides, said in English; nobody may change it."""
    # It is kept: the test that asks first may speak another language.
    with speaking("en"):
        return run(FARM)


@cache
def demo_folder() -> Path:
    """Return a folder with all outputs of the demo; nobody may change them."""
    _KEPT.append(TemporaryDirectory(prefix="demo"))
    folder = Path(_KEPT[-1].name)
    with speaking("en"):
        write(demo_outcome(), folder)
    return folder


@cache
def pages_folder() -> Path:
    """Return a folder with every page the tool can write of the demo; nobody may change them."""
    _KEPT.append(TemporaryDirectory(prefix="pages"))
    folder = Path(_KEPT[-1].name)
    with speaking("en"):
        write_pages(demo_outcome(), folder)
    return folder


def write_pages(demo: Outcome, folder: Path) -> None:
    """Write every page the tool can write of the demo, in the language spoken now."""
    key = demo.farm.settings.disease
    ways = today_of(demo, walk_hours=2.0).ways
    write_map_files(demo, folder, ways=ways)
    # Not the PDF beside it, which takes as long as all the rest.
    write_day_sheet(
        folder / "day-sheet.html", farm=demo.farm, season=demo.season, day_round=ways.day_round
    )
    write_walk(demo, ways.walk, folder, disease=key)
    write_plots(demo, key, folder, blocks=None)
    write_comparison(demo, key, side_by_side(demo.season, ["B10", "B14", "B22"]), folder)
    write_survey(check(FARM), folder)


def with_other(outcome: Outcome, *, season: object = None, **orders: object) -> Outcome:
    """Return an outcome with another season, spray order or scouting order of its disease."""
    key = outcome.farm.settings.disease
    changed = replace(outcome.orders[key], **orders)
    seasons = outcome.seasons | ({} if season is None else {key: season})
    return replace(outcome, seasons=seasons, orders=outcome.orders | {key: changed})
