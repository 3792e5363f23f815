"""What was sprayed? The diary and the record together, each spray once."""

from collections.abc import Collection, Iterator, Mapping
from datetime import date
from functools import partial
from zoneinfo import ZoneInfo

import pandas as pd

from geo.errors import Outcome
from geo.inputs.amounts import COLUMNS as AMOUNTS
from geo.inputs.amounts import check_amounts
from geo.inputs.diary import done_sprays, read_diary
from geo.inputs.drawn import Drawn
from geo.inputs.folder import Folder
from geo.inputs.named import Named
from geo.inputs.reading import Reading, tried
from geo.inputs.records import recorded_sprays
from geo.inputs.timeline import Timeline
from geo.season.acts import ACTS
from geo.season.label import Label
from geo.texts import mark, phrase

DIARY, RECORDS = "diary", "records"
_COLUMNS = ["block", "material", "time"]


def read_sprays(
    folder: Folder,
    drawn: Drawn,
    timeline: Timeline | None,
    *,
    materials: Collection[str],
    labels: Collection[Label] = (),
) -> pd.DataFrame:
    """
    Return what was sprayed, by diary and record.

    Parameters
    ----------
    folder : Folder
        The farm folder, with or without either.
    drawn : Drawn
        For the blocks.
    timeline : Timeline or None
        For what is past; None where the weather cannot be used.
    materials : collection of str
        Active ingredients we know.
    labels : collection of Label
        To hold the rates of the diary against.

    Returns
    -------
    pandas.DataFrame
        ``block``, ``material`` and ``time`` (UTC) of each spray and of each other act. A spray
        that both tell of on the same day counts once, as the diary has it.

    Raises
    ------
    InputError
        If either cannot be used: with the faults of both.
    """
    found: dict[str, pd.DataFrame] = {}
    for role in (DIARY, RECORDS):
        reading = folder.readings.get(role)
        if reading is not None:
            named = Named(drawn.ids(reading), drawn.held, [*materials, *ACTS], folder.farm.zone)
            sprays = tried(partial(_of, role, reading, named, timeline))
            if sprays is not None:
                found[role] = sprays
            if sprays is not None and role == DIARY and drawn.blocks is not None:
                _check_amounts(reading, sprays, drawn.blocks["area"], labels)
    if len(found) < len({DIARY, RECORDS} & folder.readings.keys()):
        raise folder.error()
    return _together(folder.readings, found, zone=folder.farm.zone)


def _check_amounts(
    reading: Reading, sprays: pd.DataFrame, area: pd.Series, labels: Collection[Label]
) -> None:
    told = sprays[(sprays[list(AMOUNTS)] != "").any(axis=1)]
    if told.empty:
        return
    names = told["block"].map(dict(enumerate(area.index)))
    rows = told[~told.index.duplicated()].copy()
    rows["blocks"] = names.groupby(level=0).agg(lambda blocks: tuple(dict.fromkeys(blocks)))
    by_material = {label.material: label for label in labels}
    check_amounts(reading, rows, labels=by_material, area=area.to_dict())


def _of(role: str, reading: Reading, named: Named, timeline: Timeline | None) -> pd.DataFrame:
    if role == DIARY:
        sprays = read_diary(
            reading,
            blocks=named.blocks,
            held=named.held,
            materials=named.materials,
            zone=named.zone,
        )
    else:
        sprays = recorded_sprays(reading, named)
    if timeline is None:
        return sprays
    return done_sprays(
        reading,
        sprays,
        first_hour=timeline.weather.index[0],
        last_measured=timeline.last_measured,
        is_recorded=role == RECORDS,
    )


def _acts_of_days(sprays: pd.DataFrame, zone: ZoneInfo) -> Iterator[tuple[int, str, date]]:
    """Return block, material and local day of each: two files may write a day in two ways."""
    local = sprays["time"].dt.tz_localize("UTC").dt.tz_convert(zone).dt.date
    return zip(sprays["block"], sprays["material"], local, strict=True)


def _together(
    readings: Mapping[str, Reading], found: dict[str, pd.DataFrame], *, zone: ZoneInfo
) -> pd.DataFrame:
    if not found:
        return pd.DataFrame({"block": [], "material": [], "time": pd.DatetimeIndex([])})
    if len(found) == 1:
        return next(iter(found.values()))
    diary, record = found[DIARY], found[RECORDS]
    told = set(_acts_of_days(diary, zone))
    is_told = pd.Series(
        [row in told for row in _acts_of_days(record, zone)],
        index=record.index,
        dtype=bool,
    )
    readings[RECORDS].add_rows(
        Outcome.NOTE,
        "E-RECORD-TWICE",
        record["date"][is_told],
        found=mark("{value} is the day of a spray that the diary tells of too: it counts once"),
        fix=phrase("Take it out of the diary"),
    )
    return pd.concat([diary[_COLUMNS], record[_COLUMNS][~is_told]], ignore_index=True)
