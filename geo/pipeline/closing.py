"""What is written last of a run: the workbook of its tables, and the record of it all."""

from collections.abc import Mapping
from pathlib import Path

from geo.exports.files import write_text
from geo.exports.out_folder import output_folder
from geo.exports.run_decided import decided
from geo.exports.run_outputs import outputs
from geo.exports.run_record import run_record, write_run_record
from geo.exports.semicolons import with_semicolons
from geo.exports.workbook import sheets_of, write_workbook
from geo.pipeline.later import LATER
from geo.pipeline.order import ORDER
from geo.pipeline.run import Outcome

WORKBOOK, RECORD = "the tables", "run record"


def close_run(
    outcome: Outcome, folder: Path, paths: Mapping[str, Path], *, asked: Mapping[str, object]
) -> None:
    """
    Write what can be written only when everything else of the run is there.

    Parameters
    ----------
    outcome : Outcome
        What the run decided.
    folder : pathlib.Path
        Of the outputs.
    paths : mapping of str to pathlib.Path
        All files of the run, workbook and record among them.
    asked : mapping of str to object
        Which job was asked for and with which options, ready for JSON. With ``semicolons`` the
        tables are written again with ``;`` and decimal commas.

    Raises
    ------
    InputError
        If the folder cannot be written to.
    """
    tables = [path for path in paths.values() if path.suffix == ".csv"]
    with output_folder(folder, read=outcome.farm.files, paths=paths):
        write_workbook(paths[WORKBOOK], sheets_of(tables), day=outcome.farm.today)
        if asked["semicolons"]:
            for table in tables:
                write_text(table, with_semicolons(table.read_text("utf-8")))
        written = [path for what, path in paths.items() if what != RECORD]
        record = record_of(outcome) | {"asked": dict(asked), "outputs": outputs(written)}
        record[LATER] = []  # what stands there now is this run's own
        write_run_record(paths[RECORD], record)


def record_of(outcome: Outcome) -> dict[str, object]:
    """
    Return the record of a run.

    Parameters
    ----------
    outcome : Outcome
        What it decided.

    Returns
    -------
    dict
        Ready for JSON.
    """
    return run_record(
        outcome.farm,
        outcome.season,
        spray=outcome.spray,
        scouting=outcome.scouting,
        layers=[layer.name for layer in ORDER],
        seasons=outcome.seasons,
        decided={
            key: decided(of_it, outcome.orders[key].spray) for key, of_it in outcome.seasons.items()
        },
    )
