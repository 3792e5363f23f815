"""What do all files of the farm say? Each is read, whatever is wrong with the others."""

from collections.abc import Collection
from dataclasses import dataclass, replace
from datetime import date

import pandas as pd

from geo.errors import quoted
from geo.inputs.at import at_key
from geo.inputs.crews import read_crews
from geo.inputs.distances import check_distances
from geo.inputs.drawn import Drawn, read_drawn
from geo.inputs.elevation import refuse_unreadable
from geo.inputs.folder import Folder
from geo.inputs.labels import read_labels
from geo.inputs.land import Land, read_land
from geo.inputs.loggers import Loggers, read_loggers, read_rows
from geo.inputs.names import matched, nearest
from geo.inputs.reading import tried
from geo.inputs.scouting import Looks, read_scouting
from geo.inputs.sprays import read_sprays
from geo.inputs.stations import Site, read_site
from geo.inputs.timeline import Timeline, read_hours, read_timeline
from geo.season import Settings
from geo.season.crews import Crews
from geo.season.label import Label
from geo.texts import phrase

# Where the weather cannot be used no note is too early or too late: what else is wrong with
# it is looked for all the same.
LONG_AGO, FAR_AHEAD = pd.Timestamp(1900, 1, 1), pd.Timestamp(2200, 12, 31)


@dataclass(frozen=True, slots=True)
class Known:
    """
    What names we know.

    Attributes
    ----------
    materials, cultivars, stages : collection of str
        Active ingredients, cultivars with a rating, BBCH codes.
    """

    materials: Collection[str]
    cultivars: Collection[str]
    stages: Collection[str]


@dataclass(frozen=True, slots=True)
class Parts:
    """
    All that the files of a farm say.

    Attributes
    ----------
    land : Land
        Where everything is.
    settings : Settings
        The user's choices.
    site : Site
        Where the weather holds.
    timeline : Timeline
        Hours, days and weather.
    sprays : pandas.DataFrame
        What was done.
    looks : Looks
        What was found.
    loggers : Loggers
        What hangs in the blocks.
    labels : tuple of Label or None
        What labels say; None without such a file.
    crews : Crews or None
        Who is planned to be where; None without such a file.
    """

    land: Land
    settings: Settings
    site: Site
    timeline: Timeline
    sprays: pd.DataFrame
    looks: Looks
    loggers: Loggers
    labels: tuple[Label, ...] | None
    crews: Crews | None


def read_parts(folder: Folder, known: Known) -> Parts:
    """
    Return what all files of a farm say.

    Parameters
    ----------
    folder : Folder
        The farm folder.
    known : Known
        What names we know.

    Returns
    -------
    Parts
        Only of a farm that can be used.

    Raises
    ------
    InputError
        If a file cannot be used: with every fault of every file. What leans on a file that
        cannot be used is held against itself alone.
    """
    hours = read_hours(folder)
    drawn = read_drawn(folder, cultivars=known.cultivars)
    if drawn.blocks is not None and not folder.settings.is_stopped():
        blocks = drawn.blocks
        tried(lambda: check_distances(folder, blocks))
    land = tried(lambda: read_land(folder, drawn))
    if land is None and drawn.blocks is None and "elevation" in folder.readings:
        tried(lambda: refuse_unreadable(folder.readings["elevation"]))
    settings = tried(lambda: _settings(folder, drawn))
    site = timeline = None
    if land is not None and not folder.settings.is_stopped():
        on_land = land
        site = tried(lambda: read_site(folder, on_land))
    if site is not None and all(station.role in hours for station in site.stations):
        at_site = site
        timeline = tried(lambda: read_timeline(folder, at_site, hours))
    labels = tried(lambda: _labels(folder, timeline, known=known))
    sprays = tried(
        lambda: read_sprays(folder, drawn, timeline, materials=known.materials, labels=labels or ())
    )
    looks = tried(lambda: _looks(folder, drawn, timeline, known=known))
    loggers = tried(lambda: _loggers(folder, land, timeline))
    crews = tried(lambda: _crews(folder, drawn, timeline))
    if land is None or settings is None or site is None or timeline is None:
        raise folder.error()
    if sprays is None or looks is None or loggers is None or folder.is_stopped():
        raise folder.error()
    return Parts(land, settings, site, timeline, sprays, looks, loggers, labels, crews)


def _settings(folder: Folder, drawn: Drawn) -> Settings:
    settings = folder.farm.settings
    if settings.reference_block is None or drawn.blocks is None:
        return settings
    block = matched(pd.Series([settings.reference_block]), drawn.blocks.index)[0]
    if pd.isna(block):
        name = settings.reference_block
        found = phrase("{block} is no block that can be used", block=quoted(name))
        fix = phrase("Name another; nearest: {nearest}", nearest=nearest(name, drawn.blocks.index))
        at = at_key("plan.reference_block")
        raise folder.settings.refused("E-CHOICE-UNKNOWN", at, found=found, fix=fix)
    return replace(settings, reference_block=str(block))


def _looks(folder: Folder, drawn: Drawn, timeline: Timeline | None, *, known: Known) -> Looks:
    reading = folder.readings.get("scouting")
    if reading is None:
        visits = pd.DataFrame(
            {"disease": [], "source": [], "day": [], "inspected": [], "infected": []}
        )
        return Looks(visits, pd.DataFrame({"block": [], "day": [], "stage": [], "share": []}))
    sources = drawn.ids(reading, with_neighbours=True)
    return read_scouting(
        reading,
        sources=sources,
        block_count=len(sources) if drawn.blocks is None else len(drawn.blocks),
        held=drawn.held,
        stages=known.stages,
        days=pd.DatetimeIndex([LONG_AGO]) if timeline is None else timeline.days,
        today=FAR_AHEAD if timeline is None else timeline.today,
    )


def _loggers(folder: Folder, land: Land | None, timeline: Timeline | None) -> Loggers | None:
    if land is not None and timeline is not None:
        return read_loggers(folder, land, pd.DatetimeIndex(timeline.weather.index))
    if "loggers" in folder.readings:
        read_rows(folder.readings["loggers"], zone=folder.farm.zone)
    return None


def _labels(folder: Folder, timeline: Timeline | None, *, known: Known) -> tuple[Label, ...] | None:
    if "labels" not in folder.readings:
        return None
    today = date.min if timeline is None else timeline.today.date()
    return read_labels(folder.readings["labels"], materials=known.materials, today=today)


def _crews(folder: Folder, drawn: Drawn, timeline: Timeline | None) -> Crews | None:
    reading = folder.readings.get("crews")
    if reading is None:
        return None
    return read_crews(
        reading,
        blocks=drawn.ids(reading),
        held=drawn.held,
        zone=folder.farm.zone,
        first_hour=LONG_AGO if timeline is None else timeline.weather.index[0],
        first_day=LONG_AGO if timeline is None else timeline.days[0],
    )
