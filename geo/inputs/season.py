"""The only maker of a season from files."""

from collections.abc import Collection
from dataclasses import replace
from pathlib import Path

import pandas as pd
import xarray as xr

from geo.errors import quoted
from geo.inputs.assembly import assembled
from geo.inputs.crews import read_crews
from geo.inputs.diary import done_sprays, read_diary
from geo.inputs.folder import Folder, open_folder
from geo.inputs.labels import read_labels
from geo.inputs.land import Land, read_land
from geo.inputs.loggers import read_loggers
from geo.inputs.names import matched, nearest
from geo.inputs.scouting import Looks, read_scouting
from geo.inputs.stations import read_site
from geo.inputs.timeline import Timeline, read_timeline
from geo.season import Farm, Settings
from geo.season.acts import ACTS
from geo.season.crews import Crews


def read_farm(
    folder: Path,
    *,
    materials: Collection[str],
    cultivars: Collection[str],
    stages: Collection[str],
) -> tuple[Farm, xr.Dataset]:
    """
    Return a farm and its season from a folder with a ``farm.toml``.

    Parameters
    ----------
    folder : pathlib.Path
        The farm folder. Nothing in it is changed.
    materials : collection of str
        Active ingredients we know. A spray of another is set aside.
    cultivars : collection of str
        Cultivars with a rating. Another is kept under its own name and noted.
    stages : collection of str
        BBCH codes we know, as text. A look that names another is set aside.

    Returns
    -------
    Farm
        Names, outlines and settings, with all that was held, fixed or noted.
    xarray.Dataset
        The season as read: whole local days, without a gap.

    Raises
    ------
    InputError
        If a file cannot be used: with every fault of that file, one line each.
    """
    opened = open_folder(Path(folder), materials=materials)
    land = read_land(opened, cultivars=cultivars)
    settings = _settings(opened, land)
    site = read_site(opened, land)
    timeline = read_timeline(opened, site)
    sprays = _sprays(opened, land, timeline, materials=materials)
    looks = _looks(opened, land, timeline, stages=stages)
    loggers = read_loggers(opened, land, pd.DatetimeIndex(timeline.weather.index))
    labels = None
    if "labels" in opened.readings:
        labels = read_labels(
            opened.readings["labels"], materials=materials, today=timeline.today.date()
        )
    season = assembled(land, timeline, site=site, loggers=loggers, sprays=sprays, looks=looks)
    farm = Farm(
        name=opened.farm.name,
        is_made=opened.farm.is_made,
        zone=opened.farm.zone.key,
        today=timeline.today.date(),
        crs=land.crs,
        blocks=land.blocks[["name", "cultivar", "planted", "area", "note", "geometry"]],
        neighbours=land.neighbours,
        places=land.places,
        station_elevation=site.elevation,
        settings=settings,
        labels=labels,
        crews=_crews(opened, land, timeline),
        files=opened.files(),
        issues=opened.issues(),
    )
    return farm, season


def _settings(opened: Folder, land: Land) -> Settings:
    settings = opened.farm.settings
    if settings.reference_block is None:
        return settings
    block = matched(pd.Series([settings.reference_block]), land.blocks.index)[0]
    if pd.isna(block):
        found = f"{quoted(settings.reference_block)} is no block that can be used"
        fix = f"Name another; nearest: {nearest(settings.reference_block, land.blocks.index)}"
        at = 'key "plan.reference_block"'
        raise opened.settings.refused("E-CHOICE-UNKNOWN", at, found=found, fix=fix)
    return replace(settings, reference_block=str(block))


def _sprays(
    opened: Folder, land: Land, timeline: Timeline, *, materials: Collection[str]
) -> pd.DataFrame:
    if "diary" not in opened.readings:
        return pd.DataFrame({"block": [], "material": [], "time": pd.DatetimeIndex([])})
    reading = opened.readings["diary"]
    sprays = read_diary(
        reading,
        blocks=list(land.blocks.index),
        held=land.held,
        materials=[*materials, *ACTS],
        zone=opened.farm.zone,
    )
    return done_sprays(
        reading,
        sprays,
        first_hour=timeline.weather.index[0],
        last_measured=timeline.last_measured,
    )


def _crews(opened: Folder, land: Land, timeline: Timeline) -> Crews | None:
    if "crews" not in opened.readings:
        return None
    return read_crews(
        opened.readings["crews"],
        blocks=list(land.blocks.index),
        held=land.held,
        zone=opened.farm.zone,
        first_hour=timeline.weather.index[0],
        first_day=timeline.days[0],
    )


def _looks(opened: Folder, land: Land, timeline: Timeline, *, stages: Collection[str]) -> Looks:
    if "scouting" not in opened.readings:
        visits = pd.DataFrame(
            {"disease": [], "source": [], "day": [], "inspected": [], "infected": []}
        )
        return Looks(visits, pd.DataFrame({"block": [], "day": [], "stage": [], "share": []}))
    return read_scouting(
        opened.readings["scouting"],
        sources=[*land.blocks.index, *land.neighbours.index],
        block_count=len(land.blocks),
        held=land.held,
        stages=stages,
        days=timeline.days,
        today=timeline.today,
    )
