"""What the farm is: names, outlines and settings. What changes with the days is in the season."""

from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

import geopandas as gpd
from pyproj import CRS

from geo.errors import Issue
from geo.season.crews import Crews
from geo.season.label import Label
from geo.season.sprayers import RoundSettings, Sprayer


@dataclass(frozen=True, slots=True)
class Settings:
    """
    What the user may set in ``farm.toml``.

    Attributes
    ----------
    horizon_days : int
        Days ahead that the order looks at, today included.
    material : str
        Active ingredient planned for the next round, as in the fungicides table.
    sprayer_hours_per_hectare : float or None
        Sprayer time, if the user gave it.
    random_share : float
        Share of the scouting order's places that are drawn, so that looks also go where the
        model expects nothing.
    visit_interval_days : int
        Days after which a block with something at stake is due for a look.
    sulfur_limit : float or None
        The user's own heat limit for sulfur in degC; None for the common one.
    sulfur_limit_reason : str
        Why the user set it. A limit without a reason is refused on reading.
    reference_block : str or None
        Block that ratios are quoted against; None for the middle block of the order.
    sprayer : str or None
        Kind of sprayer: airblast, handgun, knapsack or hose_end; None where it is not known. Of
        several, that with the widest rules.
    agitated : bool or None
        Whether its tank is agitated, or any of several; None where it is not known.
    mixed_with : str
        Active ingredient planned for the same tank; empty for none.
    reapply_line : float or None
        Protection at which a new spray is worth a thought; None for the table's.
    disease : str
        Key of the disease that the orders are made for.
    kernel : str
        Name of the dispersal kernel.
    wind_rose : bool
        Whether spores on the wind fly by the direction of the day's wind.
    rain_mode : str
        What rain does to mildew: washoff, neutral or promote.
    vertical_error : float or None
        By how much heights of the elevation file may be off from cell to cell, in m; None for
        what the file itself tells.
    wetness_rule : str
        From which humidity on tissue counts as wet for anthracnose: conservative or liberal.
    sprayers : tuple of Sprayer
        All that were described; empty if none was.
    day_round : RoundSettings
        What was set for a day's round.
    language : str or None
        Tag of the language of pages, sheets and terminal; None where the farm does not say.
    """

    horizon_days: int = 3  # our own choice: forecasts blur beyond
    material: str = "sulfur"
    sprayer_hours_per_hectare: float | None = None
    random_share: float = 0.1  # our own choice: enough to tell later how often the model errs
    visit_interval_days: int = 14  # our own choice, in bloom
    sulfur_limit: float | None = None
    sulfur_limit_reason: str = ""
    reference_block: str | None = None
    sprayer: str | None = None
    agitated: bool | None = None
    mixed_with: str = ""
    reapply_line: float | None = None
    disease: str = "panicle_mildew"
    kernel: str = "two_dt"
    wind_rose: bool = False
    rain_mode: str = "washoff"
    vertical_error: float | None = None
    wetness_rule: str = "conservative"
    sprayers: tuple[Sprayer, ...] = ()
    day_round: RoundSettings = field(default_factory=RoundSettings)
    language: str | None = None


@dataclass(frozen=True, slots=True)
class FileRead:
    """
    One input file, as the run record names it.

    Attributes
    ----------
    role : str
        What it was read as: outlines, elevation, weather, forecast, diary, scouting ...
    path : pathlib.Path
        Where it is.
    size : int
        Bytes.
    sha256 : str
        Its digest.
    used : int
        Rows, features or cells used.
    held : int
        Rows or features set aside.
    """

    role: str
    path: Path
    size: int
    sha256: str
    used: int
    held: int


@dataclass(frozen=True, slots=True)
class Farm:
    """
    A farm as read.

    Attributes
    ----------
    name : str
        As on the page's title.
    is_made : bool
        True for a made scenario; every output then says so.
    zone : str
        IANA name of the farm's time zone.
    today : datetime.date
        Local day of the last measured hour.
    crs : pyproj.CRS
        The metric system all geometries below are in.
    blocks : geopandas.GeoDataFrame
        Index ``block_id``; columns ``name``, ``cultivar`` (as written), ``planted`` (year or
        NaN), ``area`` (ha), ``row_spacing``, ``canopy_height``, ``canopy_width`` (m) and
        ``row_direction`` (degrees from north), all NaN where the farm's own hold, ``geometry``.
        Same order as the season's blocks.
    neighbours : geopandas.GeoDataFrame
        Index ``neighbour_id``; columns ``name``, ``status``, ``geometry``. Sources after blocks.
    places : geopandas.GeoDataFrame
        Points and lines to draw: columns ``kind`` (gate, shed, water, house, hive, track, station),
        ``name``.
    station_elevation : float
        Metres above sea level.
    settings : Settings
        The user's choices.
    labels : tuple of Label or None
        What the user's label file says; None without such a file.
    crews : Crews or None
        Planned work in the blocks; None without a file of it.
    files : tuple of FileRead
        For the run record.
    issues : tuple of Issue
        What was noted, fixed or held while reading.
    """

    name: str
    is_made: bool
    zone: str
    today: date
    crs: CRS
    blocks: gpd.GeoDataFrame
    neighbours: gpd.GeoDataFrame
    places: gpd.GeoDataFrame
    station_elevation: float
    settings: Settings = field(default_factory=Settings)
    labels: tuple[Label, ...] | None = None
    crews: Crews | None = None
    files: tuple[FileRead, ...] = ()
    issues: tuple[Issue, ...] = ()
