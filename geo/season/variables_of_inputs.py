"""The vocabulary of what is read from files."""

from geo.season.dimensions import (
    ACT,
    BLOCK,
    COLUMN,
    COVER,
    DAY,
    EDGE,
    HOUR,
    LINE,
    LOGGER,
    POINT,
    PORTION,
    ROW,
    SOURCE,
    SPRAY,
    STATION,
    VISIT,
    WINDBREAK,
)
from geo.season.variable import Variable

ELEVATION_GRID = Variable(
    "elevation_grid", "m", (ROW, COLUMN), "Ground above sea level, NaN where unknown", -500, 9000
)
CELL_WIDTH = Variable("cell_width", "m", (), "Width of an elevation cell, west to east", 0)
CELL_HEIGHT = Variable("cell_height", "m", (), "Height of an elevation cell, north to south", 0)
COVER_BLOCK = Variable("cover_block", "1", (COVER,), "Block that a covered cell belongs to", 0)
COVER_CELL = Variable("cover_cell", "1", (COVER,), "Flat index of a covered elevation cell", 0)
COVER_SHARE = Variable("cover_share", "1", (COVER,), "Share of the cell inside the block", 0, 1)
BLOCK_CELLS = Variable("block_cells", "1", (BLOCK,), "Size of a whole block in cells", 0)
VERTICAL_ERROR = Variable("vertical_error", "m", (), "By how much heights may be off", 0)
STATION_ELEVATION = Variable(
    "station_elevation", "m", (), "Height at which the farm's weather holds", -500, 9000
)
STATION_CELL = Variable(
    "station_cell", "1", (STATION,), "Flat index of a station's elevation cell, -1 if outside"
)
STATION_WEIGHT = Variable(
    "station_weight", "1", (STATION,), "Share of a station in the farm's weather", 0, 1.0001
)
LINE_CELL = Variable("line_cell", "1", (LINE,), "Flat index of a cell under a drawn line", 0)
LINE_IS_DRAIN = Variable("line_is_drain", "1", (LINE,), "1 under a drain, 0 under a dam", 0, 1)
LINE_HEIGHT = Variable(
    "line_height", "m", (LINE,), "Height of the dam or depth of the drain, NaN if not given", 0, 50
)
WINDBREAK_START_X = Variable("windbreak_start_x", "m", (WINDBREAK,), "East of its first end")
WINDBREAK_START_Y = Variable("windbreak_start_y", "m", (WINDBREAK,), "North of its first end")
WINDBREAK_END_X = Variable("windbreak_end_x", "m", (WINDBREAK,), "East of its last end")
WINDBREAK_END_Y = Variable("windbreak_end_y", "m", (WINDBREAK,), "North of its last end")
WINDBREAK_HEIGHT = Variable(
    "windbreak_height", "m", (WINDBREAK,), "Height of its trees, NaN if not given", 0, 60
)
WINDBREAK_POROSITY = Variable(
    "windbreak_porosity", "1", (WINDBREAK,), "Share of sky seen through it, NaN if not given", 0, 1
)
AREA = Variable("area", "ha", (BLOCK,), "Geodesic area of a block", 0)
CULTIVAR_SHARE_TEXT = Variable(
    "cultivar_share_text", "1", (BLOCK,), "Cultivars and shares, as 'Keitt:0.6;Kent:0.4'"
)
HAD_MILDEW_LAST_SEASON = Variable(
    "had_mildew_last_season", "1", (BLOCK,), "1 if mildew was seen in the block last season", 0, 1
)
EDGE_SOURCE = Variable("edge_source", "1", (EDGE,), "Source whose outline an edge belongs to", 0)
EDGE_START_X = Variable("edge_start_x", "m", (EDGE,), "East of an outline edge's first end")
EDGE_START_Y = Variable("edge_start_y", "m", (EDGE,), "North of an outline edge's first end")
EDGE_END_X = Variable("edge_end_x", "m", (EDGE,), "East of an outline edge's last end")
EDGE_END_Y = Variable("edge_end_y", "m", (EDGE,), "North of an outline edge's last end")
POINT_BLOCK = Variable("point_block", "1", (POINT,), "Block that a sample point stands for", 0)
POINT_X = Variable("point_x", "m", (POINT,), "East of a sample point")
POINT_Y = Variable("point_y", "m", (POINT,), "North of a sample point")
POINT_SHARE = Variable("point_share", "1", (POINT,), "Share of its block a point stands for", 0, 1)
HOUR_DAY = Variable("hour_day", "1", (HOUR,), "Index of the local calendar day of an hour", 0)
SOLAR_ELEVATION = Variable(
    "solar_elevation", "degree", (HOUR,), "Sun above the horizon, mid-hour", -90, 90
)
SUNRISE = Variable(
    "sunrise", "h", (DAY,), "Since the season's first hour; NaN where the sun does not rise", 0
)
AIR_TEMPERATURE = Variable("air_temperature", "degC", (HOUR,), "Air at the station", -40, 60)
RELATIVE_HUMIDITY = Variable("relative_humidity", "%", (HOUR,), "Air at the station", 0, 100)
WIND_SPEED = Variable("wind_speed", "m s-1", (HOUR,), "Wind at 2 m at the station", 0, 80)
WIND_FROM_DIRECTION = Variable(
    "wind_from_direction", "degree", (HOUR,), "Clockwise from north, NaN where unknown", 0, 360
)
PRECIPITATION = Variable("precipitation", "mm", (HOUR,), "Rain in the hour", 0, 500)
CLOUD_COVER = Variable("cloud_cover", "1", (HOUR,), "Opaque cloud, NaN where unknown", 0, 1)
IS_FORECAST = Variable("is_forecast", "1", (HOUR,), "1 for forecast hours, 0 for measured", 0, 1)
IS_FILLED = Variable("is_filled", "1", (HOUR,), "1 for hours filled across a short gap", 0, 1)
POOL_STRENGTH_BEFORE = Variable(
    "pool_strength_before", "1", (), "How fully pools stood in the hour before the first", 0, 1.2
)
SPRAY_BLOCK = Variable("spray_block", "1", (SPRAY,), "Block that was sprayed", 0)
SPRAY_HOUR = Variable("spray_hour", "h", (SPRAY,), "Spray, in hours since the season's first hour")
SPRAY_MATERIAL = Variable("spray_material", "1", (SPRAY,), "Active ingredient, as in fungicides")
ACT_BLOCK = Variable("act_block", "1", (ACT,), "Block in which something else was done", 0)
ACT_HOUR = Variable("act_hour", "h", (ACT,), "When, in hours since the season's first hour")
ACT_KIND = Variable("act_kind", "1", (ACT,), "What was done: an act known, or a strange spray")
VISIT_BLOCK = Variable("visit_block", "1", (VISIT,), "Source (block or neighbour) looked at", 0)
VISIT_DISEASE = Variable("visit_disease", "1", (VISIT,), "Disease looked for: its key")
VISIT_DAY = Variable("visit_day", "d", (VISIT,), "Day index of a look for the disease")
VISIT_INSPECTED = Variable(
    "visit_inspected", "1", (VISIT,), "Panicles, leaves or fruit inspected", 1
)
VISIT_INFECTED = Variable("visit_infected", "1", (VISIT,), "Those with the disease", 0)
PORTION_BLOCK = Variable("portion_block", "1", (PORTION,), "Block of a stage observation", 0)
PORTION_DAY = Variable("portion_day", "d", (PORTION,), "Day index of a stage observation")
PORTION_STAGE = Variable("portion_stage", "1", (PORTION,), "BBCH code observed, as text")
PORTION_SHARE = Variable("portion_share", "1", (PORTION,), "Share of the block's panicles", 0, 1)
LOGGER_CELL = Variable(
    "logger_cell", "1", (LOGGER,), "Flat index of the elevation cell of a logger in a block", 0
)
LOGGER_AIR_TEMPERATURE = Variable(
    "logger_air_temperature", "degC", (LOGGER, HOUR), "Air in a block, NaN if unknown", -40, 60
)
SOURCE_STATUS = Variable(
    "source_status", "1", (SOURCE,), "Disease in a source: scouted, unknown, suspected or known"
)
