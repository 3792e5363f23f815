"""The blocks with their numbers and their coolest tenths: a GeoPackage for any desktop GIS."""

from datetime import datetime
from pathlib import Path

import geopandas as gpd
import numpy as np
import pyogrio
import shapely
import xarray as xr
from pyogrio.errors import DataLayerError, DataSourceError, FeatureError

from geo.exports.farm_title import scenario_words
from geo.exports.files import write_whole
from geo.exports.geopackage_styles import add_styles
from geo.exports.gis_styles import style_of_classes, style_of_coolest
from geo.ranking.classes import CLASS_WORDS, hazard_class
from geo.ranking.factors import FACTORS
from geo.ranking.ground import of_known_ground
from geo.rounds.order import SprayOrder
from geo.scouting.coolest import coolest_tenth
from geo.scouting.order import ScoutingOrder
from geo.season.farm import Farm
from geo.season.today import today_index

LAYER = "blocks"
COOLEST_LAYER = "coolest_tenth"
# 1.2 opens without a warning in older desktop GIS.
VERSION = "1.2"
OF_TODAY = (
    "hazard",
    "favourability",
    "stage_susceptibility",
    "protection_left",
    "day_minimum_temperature",
    "day_maximum_temperature",
    "humid_hours",
    "wet_hours_disagreement",
    "dew",
    "day_minimum_delta_t",
    "day_maximum_delta_t",
    "day_mean_wind_speed",
    "day_maximum_wind_speed",
)
OF_BLOCK = (
    "elevation",
    "slope",
    "aspect",
    "pool_depth",
    "depression_depth",
    "cold_air_accumulation",
    "hazard_ahead",
    "doubt",
    "already_in",
    "to_come",
    "rain_to_reapply",
    "dry_days_to_reapply",
    "terrain_covered",
    "terrain_doubt",
    "days_since_look",
)


def block_table(
    farm: Farm, season: xr.Dataset, *, spray: SprayOrder, scouting: ScoutingOrder
) -> gpd.GeoDataFrame:
    """
    Return one row a block: what it is, today's numbers, both ranks and the eight factors.

    Parameters
    ----------
    farm : Farm
        For the outlines.
    season : xarray.Dataset
        Ranked.
    spray : SprayOrder
        For the rank and the cannot-now rule.
    scouting : ScoutingOrder
        For the rank.

    Returns
    -------
    geopandas.GeoDataFrame
        Index ``block_id``, in the farm's metric system.
    """
    today = today_index(season)
    table = farm.blocks[["name", "cultivar", "area", "geometry"]].copy()
    for name in OF_BLOCK:
        table[name] = season[name].values
    for name in ("elevation", "pool_depth"):
        table[name] = of_known_ground(season, name)
    for radius in season.radius.values:
        position = season.topographic_position.sel(radius=radius).values
        table[f"topographic_position_{radius:.0f}_m"] = position
    for name in OF_TODAY:
        table[f"{name}_today"] = season[name].values[:, today]
    for estimator in season.estimator.values:
        wet_hours = season.wet_hours.sel(estimator=estimator).values
        table[f"wet_hours_{estimator}_today"] = wet_hours[:, today]
    words = np.array([*CLASS_WORDS, "Not known"])
    table["class_ahead"] = words[hazard_class(season.hazard_ahead.values)]
    ranks = {entry.block: entry.rank for entry in spray.entries}
    table["spray_rank"] = [float(ranks.get(block, np.nan)) for block in table.index]
    losses = {entry.block: entry.avoidable for entry in spray.entries}
    table["avoidable_ha_days"] = [losses.get(block, np.nan) for block in table.index]
    apart = {rest.block: rest.reason for rest in spray.not_worth}
    table["not_worth_it_now"] = [apart.get(block, "") for block in table.index]
    walks = {entry.block: entry.rank for entry in scouting.entries}
    table["scouting_rank"] = [float(walks.get(block, np.nan)) for block in table.index]
    rules = {held.block: held.reason for held in spray.cannot_now}
    table["cannot_now"] = [rules.get(block, "") for block in table.index]
    for column, factor in enumerate(FACTORS):
        name = f"factor_{factor.name.replace(' ', '_')}"
        table[name] = season.factors.values[:, column]
    table["farm"] = farm.name
    table["honesty_level"] = "relative"
    table["scenario"] = scenario_words(farm)
    return table


def coolest_table(farm: Farm, season: xr.Dataset) -> gpd.GeoDataFrame:
    """
    Return one row for each block that has a coolest tenth.

    Parameters
    ----------
    farm : Farm
        For the outlines and names.
    season : xarray.Dataset
        After the terrain layer.

    Returns
    -------
    geopandas.GeoDataFrame
        Index ``block_id``, multipolygons in the farm's metric system; ``name`` and ``scenario``
        as in the table of blocks.
    """
    tenth = coolest_tenth(farm, season)
    parts, owner = shapely.get_parts(tenth.geometry.values, return_index=True)
    columns = {
        "name": farm.blocks["name"].loc[tenth.index],
        "scenario": scenario_words(farm),
    }
    # One kind of shape for the whole layer: some readers refuse a mixture.
    shapes = shapely.multipolygons(parts, indices=owner)
    return gpd.GeoDataFrame(columns, index=tenth.index, geometry=shapes, crs=farm.crs)


def write_geopackage(
    path: Path, *, farm: Farm, season: xr.Dataset, table: gpd.GeoDataFrame
) -> None:
    """
    Write the blocks and the coolest tenth of each as two layers that open in their colours.

    Parameters
    ----------
    path : pathlib.Path
        Of the GeoPackage.
    farm : Farm
        For the outlines.
    season : xarray.Dataset
        Ranked.
    table : geopandas.GeoDataFrame
        As from `block_table`.

    Raises
    ------
    OSError
        If there is no room for it, as for every other file.
    """
    blocks = table.reset_index()
    coolest = coolest_table(farm, season).reset_index()
    # The data's own time, not the clock's: the same inputs give the same bytes.
    written = season.hour.values[-1].astype("datetime64[s]").astype(datetime)
    stamp = written.strftime("%Y-%m-%dT%H:%M:%S.000Z")

    def write(beside: Path) -> None:
        pyogrio.set_gdal_config_options({"OGR_CURRENT_DATE": stamp})
        try:
            pyogrio.write_dataframe(
                blocks, beside, layer=LAYER, driver="GPKG", dataset_options={"VERSION": VERSION}
            )
            pyogrio.write_dataframe(
                coolest,
                beside,
                layer=COOLEST_LAYER,
                driver="GPKG",
                geometry_type="MultiPolygon",
            )
        except (DataSourceError, DataLayerError, FeatureError) as error:
            raise OSError(str(error)) from error
        finally:
            pyogrio.set_gdal_config_options({"OGR_CURRENT_DATE": None})
        of_blocks = style_of_classes(LAYER, column="class_ahead", label="block_id")
        add_styles(beside, (of_blocks, style_of_coolest(COOLEST_LAYER)), stamp=stamp)

    write_whole(path, write)
