"""Everything a planned round is handed out as, in one folder."""

from pathlib import Path

import xarray as xr

from geo.exports.day_sheet import day_sheet_html
from geo.exports.day_sheet_pdf import pdf_missing, write_day_sheet_pdf
from geo.exports.files import write_text
from geo.exports.out_folder import output_folder
from geo.exports.record_rows import write_record_rows
from geo.exports.round_gpx import write_round_gpx
from geo.exports.round_table import write_round_table
from geo.rounds.day_round import DayRound
from geo.rounds.order import SprayOrder
from geo.season.farm import Farm
from geo.texts import mark

PDF = "day-sheet.pdf"


def write_round_sheets(
    folder: Path, *, farm: Farm, season: xr.Dataset, order: SprayOrder, day_round: DayRound
) -> dict[str, Path]:
    """
    Write the day sheet, the way for a navigation device, the tables and the rows of the record.

    Parameters
    ----------
    folder : pathlib.Path
        Made if it is not there. Files of an earlier round are replaced one by one, each whole.
    farm : Farm
        Names, outlines, labels.
    season : xarray.Dataset
        For the age of the data and the stages.
    order : SprayOrder
        Why each block is sprayed.
    day_round : DayRound
        What was planned.

    Returns
    -------
    dict of str to pathlib.Path
        What each file is for, and where it is. The PDF is among them where it can be written;
        else `geo.exports.day_sheet_pdf.pdf_missing` says why not.

    Raises
    ------
    InputError
        If the folder cannot be written to, or a file in it is one of the farm's own.
    """
    paths = {
        mark("day sheet"): folder / "day-sheet.html",
        mark("day sheet, PDF"): folder / PDF,
        mark("way, for GPS"): folder / "round.gpx",
        mark("stops and loads"): folder / "round.csv",
        mark("rows to complete"): folder / "spray-record.csv",
    }
    page = day_sheet_html(farm=farm, season=season, day_round=day_round)
    with output_folder(folder, read=farm.files, paths=paths):
        write_text(paths["day sheet"], page)
        write_round_gpx(paths["way, for GPS"], farm=farm, day_round=day_round)
        write_round_table(paths["stops and loads"], farm=farm, day_round=day_round)
        write_record_rows(
            paths["rows to complete"], farm=farm, season=season, order=order, day_round=day_round
        )
        if pdf_missing():
            # One of an earlier round would be taken for this one.
            paths.pop("day sheet, PDF").unlink(missing_ok=True)
        else:
            write_day_sheet_pdf(paths["day sheet, PDF"], page)
    return paths
