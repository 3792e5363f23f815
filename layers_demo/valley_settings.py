"""The made farm's ``farm.toml``, which also explains every key it may hold."""

import numpy as np

from layers_demo.valley_ground import elevation_at
from layers_demo.valley_outlines import STATION_ACROSS, STATION_ALONG
from layers_demo.valley_place import NAME, ZONE, Numbers, map_to_degrees, valley_to_map


def settings_text(ground: Numbers) -> str:
    """
    Return what is written to ``farm.toml``.

    Parameters
    ----------
    ground : [m]
        As made by ``valley_ground.elevation``.

    Returns
    -------
    str
        The whole file.
    """
    x, y = valley_to_map(np.float64(STATION_ALONG), np.float64(STATION_ACROSS))
    longitude, latitude = map_to_degrees(x, y)
    return _TEXT.format(
        name=NAME,
        zone=ZONE,
        longitude=f"{longitude:.6f}",
        latitude=f"{latitude:.6f}",
        elevation=f"{elevation_at(ground, float(x), float(y)):.0f}",
    )


_TEXT = """\
# A made scenario: no real farm, no real weather. Copy this file and put your own farm in it.

name = "{name}"
# true only for made data: every page then says so.
made = true
# Time zone by its IANA name. Times without an offset in the files below are local times in it.
zone = "{zone}"
# Language of pages, sheets and terminal: en or es (español). Left out, it is your computer's.
language = "en"

# Paths, seen from this file. The first three are needed; leave out what you do not have. Files
# outside this folder are read only if you allow it, above this line: files_elsewhere = true
[files]
# Blocks, in any format GDAL reads, with a coordinate system. Columns: block_id, cultivar ("Keitt"
# or "Keitt 60, Kent 40"), and if you like name, planted (year), mildew_last_season (0 or 1),
# note (your own words, shown with the block), and row_spacing, row_direction, canopy_height and
# canopy_width (see [round] below).
outlines = "blocks.geojson"
# Ground in metres (or feet, if the file says so), any format GDAL reads. It should reach 1 km or
# more beyond the blocks, or cool air cannot be followed. Blocks it does not reach are taken to lie
# as the weather station does, and their doubt grows.
elevation = "elevation.tif"
# Hourly: time, air_temperature_degC, relative_humidity_percent, wind_speed_m_s, precipitation_mm,
# and if you like cloud_cover_fraction (0 to 1) and wind_from_direction_degree (90 is from the
# east). An hour is named by its start: rain at 05:00 fell from 05:00 to 06:00. Leave a cell empty
# where nothing was measured; never write 0 for it.
weather = "station.csv"
# The same columns. Starts at the latest in the hour after the last measured one.
forecast = "forecast.csv"
# date (2026-02-18), block_id (one, or several with ; between), material (active ingredient), and
# if you like time (local, 08:00 if left empty). Further columns may stay.
diary = "diary.csv"
# The record that "mangoblock record" adds completed rows of a round to. Only rows with a start and
# a finish count; a row is corrected by a new one that names it in corrects.
# records = "sprays-done.csv"
# date, block_id, inspected and infected (panicles), stage (BBCH code such as "615", or shares such
# as "613:0.4;615:0.6"). Counts or stage may be left empty.
scouting = "scouting.csv"
# Orchards next door: neighbour_id, name, status (known, suspected or unknown mildew).
neighbours = "neighbours.geojson"
# To draw, to route by and to keep away from: kind (gate, shed, water, house, hive, track, station)
# and name. A line of kind dam
# (wall, hedge, road bank; height_m) holds cold air, one of kind drain (gap, ditch; depth_m) lets
# it off; without height_m or depth_m 2 m are assumed. A line of kind windbreak (height_m, porosity
# from 0 closed to 1 open) takes wind from the blocks behind it.
places = "places.geojson"
# Air in the blocks, by two loggers or more that hang at different depths: time, logger_id,
# air_temperature_degC; and for each a place of kind logger with that name. How cold your hollows
# get is then fitted to them.
# loggers = "loggers.csv"
# What your own labels say, a row for each material: material, frac_codes ("3+11" for a premix),
# rate, rate_unit (kg/ha, L/ha, g/100 L), formulation (WP, WG, SC, EC), re_entry_hours,
# pre_harvest_days, season_maximum (uses in a season, or "none"), minimum_interval_days, country,
# label_date. The one here is made: copy yours from the label in the store. What is left empty is
# unknown, and unknown closes the rule that needs it.
labels = "labels.csv"
# Who will be where: date, block_id (several with ; between), start, end (local times), task. A task
# with "pick" or "harvest" in it counts for the days before harvest too.
# crews = "crews.csv"

[station]
longitude = {longitude}
latitude = {latitude}
# Metres above sea level, and metres from the ground to the wind sensor.
elevation = {elevation}
wind_height = 2.0
# Metres above ground of the forecast's wind, mostly 10; as wind_height if left out.
forecast_wind_height = 10.0
# Several stations: in place of this table and of "weather" above, write for each of them
#   [[stations]]
#   name = "Ridge"
#   weather = "ridge.csv"
# with its longitude, latitude, elevation and wind_height; and once, for the forecast's wind,
#   [forecast]
#   wind_height = 10.0

# If the file of outlines has several layers, name the one that is meant; and say whether lines
# walked around a block, with ends within 10 m of each other, are outlines.
# [outlines]
# layer = "blocks"
# close_lines = true

# Whether "all" in the diary means every block.
# [diary]
# all_means_every_block = true

[plan]
# Days the order looks ahead, today included.
horizon_days = 3
# Active ingredient planned for the next round.
material = "sulfur"
# What is to go into the same tank.
# mixed_with = "mineral oil"
# Hours of sprayer time for a hectare, filling and turning included.
sprayer_hours_per_hectare = 0.9
# Block that ratios are quoted against; the middle of the order if left out.
# reference_block = "B12"
# Your own heat limit for sulfur in degC. A limit needs its reason.
# sulfur_limit = 28.0
# sulfur_limit_reason = "the label of the product in the store says so"

[scouting]
# Share of the scouting order that is drawn by lot, and days after which a block in bloom is due.
# random_share = 0.1
# visit_interval_days = 14

# Each sprayer; with one only, a single table [sprayer] with the same keys will do. kind is
# airblast, handgun, knapsack or hose_end: it says how much of the tissue the drops are taken to
# reach (assumed; 0.80 if left out), and how far people must stay away. agitated: whether its tank
# is, since sulfur settles. tank_litres has no default. nozzles: how many spray at once. speed (4
# while spraying) and travel_speed (12) in km/h and refill_minutes (15) are assumed if left out.
[[sprayers]]
name = "Large sprayer"
kind = "airblast"
agitated = true
tank_litres = 2000
nozzles = 24
# speed = 4.0
# travel_speed = 12.0
# refill_minutes = 15

[[sprayers]]
name = "Small sprayer"
kind = "airblast"
agitated = true
tank_litres = 1000
nozzles = 16
refill_minutes = 10

# A day's round of the sprayers. Columns row_spacing, row_direction, canopy_height and canopy_width
# of the outlines hold for their block in place of these.
[round]
# Local time they leave the shed, and hours of work for each of them.
start = "06:30"
hours = 8
# Metres from row to row, and degrees from north along the rows; along the block's longer side if
# left out.
row_spacing = 8.0
# row_direction = 60
# Spray volume, litres for a hectare. There is no default: it comes from your own calibration and
# label. In place of it: canopy_height and canopy_width of a row in metres, and litres for a
# thousand cubic metres of such a canopy.
litres_per_hectare = 1000
# canopy_height = 3.5
# canopy_width = 4.0
# litres_per_1000_m3 = 100
# Seconds from one row into the next (25 if left out), minutes at each block before spraying (2),
# both assumed; metres of turning radius, if you know it, for the pattern of rows.
# turn_seconds = 25
# setup_minutes = 2
# turning_radius = 4.5

[rules]
# Protection at which a new spray is worth a thought; 0.30 (assumed) if left out.
# reapply_line = 0.4

[terrain]
# By how many metres heights in the elevation file may be off from cell to cell: 0 for a survey
# from the air by laser, 2 to 3 for a model of the whole world (from memory). Pools count as
# shallower by it, so that an error never makes one, and the doubt grows with it. If left out: 0,
# or half a metre where all heights are whole metres.
# vertical_error = 2.0

[model]
# The disease that the orders are made for: panicle_mildew, leaf_mildew, blossom_anthracnose or
# fruit_anthracnose. All four are computed, and the map shows whichever is chosen.
disease = "panicle_mildew"
# How mildew thins out with distance (two_dt, exponential or power_law), and what rain does to it
# (washoff, neutral or promote).
kernel = "two_dt"
rain_mode = "washoff"
# Whether its spores fly by the wind of each day's hours from 11 to 16, or all round.
# wind_rose = true
# From which humidity on tissue counts as wet for anthracnose: conservative (95 %), liberal (90 %).
# wetness_rule = "liberal"
"""
