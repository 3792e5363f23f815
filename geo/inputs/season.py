"""The only maker of a season from files."""

from collections.abc import Collection
from pathlib import Path

import xarray as xr

from geo.inputs.assembly import assembled
from geo.inputs.folder import open_folder
from geo.inputs.outline_rows import ROWS
from geo.inputs.parts import Known, read_parts
from geo.season import Farm


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
        If a file cannot be used: with every fault of every file, one line each.
    """
    opened = open_folder(Path(folder), materials=materials)
    parts = read_parts(opened, Known(materials, cultivars, stages))
    land, timeline = parts.land, parts.timeline
    season = assembled(
        land,
        timeline,
        site=parts.site,
        loggers=parts.loggers,
        sprays=parts.sprays,
        looks=parts.looks,
    )
    farm = Farm(
        name=opened.farm.name,
        is_made=opened.farm.is_made,
        zone=opened.farm.zone.key,
        today=timeline.today.date(),
        crs=land.crs,
        blocks=land.blocks[["name", "cultivar", "planted", "area", "note", *ROWS, "geometry"]],
        neighbours=land.neighbours,
        places=land.places,
        station_elevation=parts.site.elevation,
        settings=parts.settings,
        labels=parts.labels,
        crews=parts.crews,
        files=opened.files(),
        issues=opened.issues(),
    )
    return farm, season
