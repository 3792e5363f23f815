"""All outputs of a run into one folder."""

from pathlib import Path

import xarray as xr

from geo.exports.days_page import write_days_page
from geo.exports.exchange_files import write_geojson, write_kml
from geo.exports.gates_table import write_gates
from geo.exports.geopackage import block_table, write_geopackage
from geo.exports.geotiff import write_favourability, write_last_night
from geo.exports.map_page import write_map
from geo.exports.materials_table import write_materials
from geo.exports.order_tables import write_scouting_order, write_spray_order
from geo.exports.out_folder import output_folder
from geo.exports.page_risk import Risk
from geo.exports.page_since import Since
from geo.exports.page_ways import Ways
from geo.exports.risk_table import write_risks
from geo.exports.rules_page import write_rules_page
from geo.exports.rules_table import write_rules
from geo.exports.season_page import write_season_page
from geo.exports.tally_page import write_tally_page
from geo.pipeline.closing import close_run
from geo.pipeline.run import Outcome, Say
from geo.pipeline.since import keep_earlier, since_asked, since_in
from geo.reference.diseases import DISEASES, disease_with
from geo.texts import mark, phrase, phrase_of


def write(
    outcome: Outcome,
    folder: Path,
    *,
    semicolons: bool = False,
    since: Path | None = None,
    say: Say = lambda _: None,
) -> dict[str, Path]:
    """
    Write the map, the two orders, the blocks, the cells, the other rules and the run record.

    Parameters
    ----------
    outcome : Outcome
        What a run decided.
    folder : pathlib.Path
        Made if it is not there. Files of an earlier run are replaced one by one, each whole.
    semicolons : bool
        Whether CSV has ``;`` and decimal commas, for spreadsheets of countries that write them.
    since : pathlib.Path or None
        Record of an earlier run to hold this one against; else the last one of an earlier day
        that is still in the folder, if there is one.
    say : callable
        Told what is being worked on.

    Returns
    -------
    dict of str to pathlib.Path
        What each file is for, and where it is.

    Raises
    ------
    InputError
        If the folder cannot be written to.
    """
    paths = write_map_files(outcome, folder, since=since, say=say)
    asked = {"job": "map", "semicolons": semicolons, "since": since and since.name}
    close_run(outcome, folder, paths, asked=asked)
    return paths


def write_map_files(
    outcome: Outcome,
    folder: Path,
    *,
    ways: Ways | None = None,
    since: Path | None = None,
    say: Say = lambda _: None,
) -> dict[str, Path]:
    """
    Write everything but what `geo.pipeline.closing` writes last.

    Parameters
    ----------
    outcome : Outcome
        What a run decided.
    folder : pathlib.Path
        Made if it is not there.
    ways : Ways or None
        Round and walk to draw on the map, if they are planned.
    since : pathlib.Path or None
        Record of an earlier run to hold this one against, as for `write`.
    say : callable
        Told what is being worked on.

    Returns
    -------
    dict of str to pathlib.Path
        What each file is for, and where it is; workbook and record, not written yet, among them.

    Raises
    ------
    InputError
        If the folder cannot be written to.
    """
    paths = {
        mark("the map"): folder / "block-map.html",
        mark("spray order"): folder / "spray-order.csv",
        mark("closed hours"): folder / "gates.csv",
        mark("your labels"): folder / "materials.csv",
        mark("scouting order"): folder / "scouting-order.csv",
        mark("tally page"): folder / "tally.html",
        mark("every disease"): folder / "risk.csv",
        mark("the tables"): folder / "tables.xlsx",
        mark("for desktop GIS"): folder / "blocks.gpkg",
        mark("for exchange"): folder / "blocks.geojson",
        mark("for phones"): folder / "blocks.kml",
        mark("season's cells"): folder / "favourability.tif",
        mark("last night"): folder / "last-night.tif",
        mark("blocks' seasons"): folder / "season.html",
        mark("blocks by day"): folder / "blocks-by-day.html",
        mark("other rules"): folder / "rules.html",
        mark("their days"): folder / "rules.csv",
        mark("run record"): folder / "run.json",
    }
    earlier = since_in(outcome, folder) if since is None else since_asked(outcome, since)
    with output_folder(folder, read=outcome.farm.files, paths=paths):
        keep_earlier(outcome, folder)
        _write_all(outcome, paths, ways=ways, since=earlier, say=say)
    return paths


def _write_all(
    outcome: Outcome,
    paths: dict[str, Path],
    *,
    ways: Ways | None,
    since: Since | None,
    say: Say,
) -> None:
    farm, season = outcome.farm, outcome.season
    spray, scouting, risks = outcome.spray, outcome.scouting, _risks(outcome)
    disease = disease_with(farm.settings.disease).name
    say(phrase("writing the tables"))
    write_spray_order(paths["spray order"], farm=farm, season=season, order=spray)
    write_gates(paths["closed hours"], farm=farm, windows=outcome.windows)
    write_materials(paths["your labels"], farm=farm, materials=outcome.materials)
    write_scouting_order(paths["scouting order"], farm=farm, order=scouting)
    write_risks(paths["every disease"], farm=farm, risks=risks)
    table = block_table(farm, season, spray=spray, scouting=scouting)
    write_geopackage(paths["for desktop GIS"], farm=farm, season=season, table=table)
    write_geojson(paths["for exchange"], table)
    write_kml(paths["for phones"], table, title=f"{farm.name}, {farm.today}: {phrase_of(disease)}")
    write_favourability(paths["season's cells"], farm=farm, season=season)
    write_last_night(paths["last night"], farm=farm, season=season)
    write_rules(paths["their days"], farm=farm, season=season, disease=disease)
    say(phrase("drawing the map"))
    write_map(
        paths["the map"],
        farm=farm,
        risks=risks,
        windows=outcome.windows,
        materials=outcome.materials,
        ways=ways,
        written={path.name for path in paths.values()} | _sheets(ways),
        since=since,
    )
    write_season_page(paths["blocks' seasons"], farm=farm, season=season)
    write_days_page(paths["blocks by day"], farm=farm, season=season)
    write_tally_page(paths["tally page"], farm=farm, risks=risks)
    write_rules_page(
        paths["other rules"],
        farm=farm,
        season=season,
        disease=disease,
        held_against=_by_agent(outcome),
    )


def _sheets(ways: Ways | None) -> set[str]:
    """Return the sheets that follow the map where a round or a walk is planned."""
    if ways is None:
        return set()
    sheets = {"day-sheet.html": ways.day_round, "walk-sheet.html": ways.walk}
    return {name for name, planned in sheets.items() if planned is not None}


def _risks(outcome: Outcome) -> list[Risk]:
    """Return what was decided of each disease, the chosen one first."""
    chosen = outcome.farm.settings.disease
    keys = sorted(outcome.seasons, key=lambda key: key != chosen)
    return [
        Risk(outcome.seasons[key], outcome.orders[key].spray, outcome.orders[key].scouting)
        for key in keys
    ]


def _by_agent(outcome: Outcome) -> dict[str, xr.Dataset]:
    """Return the season that rules about an agent are held against: the chosen one, if it can."""
    chosen = outcome.farm.settings.disease
    by_agent = {disease.agent: outcome.seasons[disease.key] for disease in reversed(DISEASES)}
    return by_agent | {disease_with(chosen).agent: outcome.season}
