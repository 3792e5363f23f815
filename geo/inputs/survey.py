"""What is wrong with a farm folder, all of it at once?"""

from collections.abc import Collection
from contextlib import suppress
from pathlib import Path
from zoneinfo import ZoneInfo

import pandas as pd

from geo.errors import InputError
from geo.inputs.column_map import ROLE
from geo.inputs.folder import Folder, open_folder
from geo.inputs.parts import Known, read_parts
from geo.inputs.timeline import Timeline
from geo.season.survey import ColumnRead, Survey
from geo.texts import phrase


def survey(
    folder: Path,
    *,
    materials: Collection[str],
    cultivars: Collection[str],
    stages: Collection[str],
) -> Survey:
    """
    Return what is wrong with a farm folder, without deciding anything.

    Parameters
    ----------
    folder : pathlib.Path
        The farm folder. Nothing in it is changed.
    materials, cultivars, stages : collection of str
        As for `geo.inputs.season.read_farm`.

    Returns
    -------
    Survey
        Also of a folder that cannot be used.
    """
    try:
        opened = open_folder(folder, materials=materials)
    except InputError as error:
        return Survey(folder.resolve().name, is_made=False, files=(), issues=error.issues)
    # Each fault stands in the reading of its file.
    hours = ""
    with suppress(InputError):
        parts = read_parts(opened, Known(materials, cultivars, stages))
        hours = hours_in_words(parts.timeline, opened.farm.zone)
    name = opened.farm.name or folder.resolve().name
    columns = columns_of(opened)
    return Survey(name, opened.farm.is_made, opened.files(), opened.issues(), columns, hours)


def hours_in_words(timeline: Timeline, zone: ZoneInfo) -> str:
    """
    Return where measured hours end and the forecast takes over.

    Parameters
    ----------
    timeline : Timeline
        Of a farm that can be used.
    zone : zoneinfo.ZoneInfo
        The farm's, whose clock is told.

    Returns
    -------
    str
        A sentence.
    """
    is_forecast = timeline.weather["is_forecast"].to_numpy() > 0
    local = pd.DatetimeIndex(timeline.weather.index).tz_localize("UTC").tz_convert(zone)
    clock = local.strftime("%Y-%m-%d %H:%M")
    measured = {"first": clock[0], "last": clock[~is_forecast][-1], "zone": zone.key}
    ahead = clock[is_forecast]
    if not len(ahead):
        return phrase(
            "Measured from {first} to {last}, no hour is forecast ({zone}; each hour by its "
            "start).",
            **measured,
        )
    return phrase(
        "Measured from {first} to {last}, forecast from {first_ahead} to {last_ahead} ({zone}; "
        "each hour by its start).",
        first_ahead=ahead[0],
        last_ahead=ahead[-1],
        **measured,
    )


def columns_of(folder: Folder) -> tuple[ColumnRead, ...]:
    """
    Return how the columns of a farm's tables were understood.

    Parameters
    ----------
    folder : Folder
        After its files were read.

    Returns
    -------
    tuple of ColumnRead
        File by file.
    """
    return tuple(
        ColumnRead(reading.path.name, heading.written, heading.means, heading.unit, heading.how)
        for role, reading in folder.readings.items()
        for heading in reading.headings
        if role != ROLE
    )
