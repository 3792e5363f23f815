"""The vocabulary: one name, one unit, one meaning for every quantity that travels."""

from geo.season.variable import Variable

BLOCK, SOURCE, DAY, HOUR, SPOT, CORNER = "block", "source", "day", "hour", "spot", "corner"
ROW, COLUMN, COVER, EDGE, POINT = "row", "column", "cover", "edge", "point"
RADIUS, SECTOR, LINE, WINDBREAK = "radius", "sector", "line", "windbreak"
SPRAY, VISIT, PORTION, FACTOR = "spray", "visit", "portion", "factor"
STATION, LOGGER, ESTIMATOR = "station", "logger", "estimator"
POOL_KNOT, HEIGHT_KNOT = "pool_knot", "height_knot"

# Read from files ------------------------------------------------------------------------------
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
SPRAY_BLOCK = Variable("spray_block", "1", (SPRAY,), "Block that was sprayed", 0)
SPRAY_HOUR = Variable("spray_hour", "h", (SPRAY,), "Spray, in hours since the season's first hour")
SPRAY_MATERIAL = Variable("spray_material", "1", (SPRAY,), "Active ingredient, as in fungicides")
VISIT_BLOCK = Variable("visit_block", "1", (VISIT,), "Source (block or neighbour) looked at", 0)
VISIT_DAY = Variable("visit_day", "d", (VISIT,), "Day index of a look for mildew on panicles")
VISIT_INSPECTED = Variable("visit_inspected", "1", (VISIT,), "Panicles inspected", 1)
VISIT_INFECTED = Variable("visit_infected", "1", (VISIT,), "Panicles with mildew", 0)
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

# terrain --------------------------------------------------------------------------------------
POOL_DEPTH_GRID = Variable(
    "pool_depth_grid", "m", (ROW, COLUMN), "How deep a cell lies in its surroundings", 0
)
# Of both the stations' where a block's own is unknown.
ELEVATION = Variable("elevation", "m", (BLOCK,), "Mean ground of the block", -500, 9000)
POOL_DEPTH = Variable("pool_depth", "m", (BLOCK,), "Mean pool depth of the block", 0)
STATION_POOL_DEPTH = Variable("station_pool_depth", "m", (), "Pool depth at the stations", 0)
SLOPE = Variable("slope", "degree", (BLOCK,), "Mean steepness of the block", 0, 90)
ASPECT = Variable(
    "aspect", "degree", (BLOCK,), "Direction the block falls to, from north; NaN if level", 0, 360
)
TOPOGRAPHIC_POSITION = Variable(
    "topographic_position", "m", (BLOCK, RADIUS), "Height of the block above its surroundings"
)
DEPRESSION_DEPTH = Variable(
    "depression_depth", "m", (BLOCK,), "How deep the block lies in hollows without a way out", 0
)
COLD_AIR_ACCUMULATION = Variable(
    "cold_air_accumulation",
    "1",
    (BLOCK,),
    "Logarithm to base 10 of the square metres whose air drains through the block",
)
SHELTER = Variable(
    "shelter", "degree", (BLOCK, SECTOR), "Steepest angle up to ground upwind of the block", -90, 90
)
WIND_SHARE = Variable(
    "wind_share", "1", (BLOCK, SECTOR), "Wind at the block as a share of open wind", 0, 2
)
TERRAIN_COVERED = Variable(
    "terrain_covered", "1", (BLOCK,), "Share of the block with known ground", 0, 1.0001
)
TERRAIN_DOUBT = Variable("terrain_doubt", "1", (BLOCK,), "Doubt for want of good ground", 0)


# pools ----------------------------------------------------------------------------------------
POOL_FULL_STRENGTH = Variable(
    "pool_full_strength", "K", (), "Coldness of a pool without bottom on a perfect night", 0
)
POOL_FULL_STRENGTH_LOW = Variable("pool_full_strength_low", "K", (), "Low end, 90 %", 0)
POOL_FULL_STRENGTH_HIGH = Variable("pool_full_strength_high", "K", (), "High end, 90 %", 0)
POOL_FULL_STRENGTH_PRIOR_SHARE = Variable(
    "pool_full_strength_prior_share", "1", (), "Share of it known without loggers", 0, 1.0001
)
POOL_SCALE_DEPTH = Variable("pool_scale_depth", "m", (), "Depth that reaches 63 % of it", 0)
POOL_SCALE_DEPTH_LOW = Variable("pool_scale_depth_low", "m", (), "Low end, 90 %", 0)
POOL_SCALE_DEPTH_HIGH = Variable("pool_scale_depth_high", "m", (), "High end, 90 %", 0)
POOL_SCALE_DEPTH_PRIOR_SHARE = Variable(
    "pool_scale_depth_prior_share", "1", (), "Share of it known without loggers", 0, 1.0001
)

# weather --------------------------------------------------------------------------------------
SPOT_POOL_DEPTH = Variable("spot_pool_depth", "m", (SPOT,), "Pool depth of a weather spot", 0)
SPOT_ELEVATION = Variable("spot_elevation", "m", (SPOT,), "Ground of a weather spot", -500, 9000)
SPOT_OF_BLOCK = Variable("spot_of_block", "1", (BLOCK, CORNER), "Spots a block lies between", 0)
SPOT_WEIGHT = Variable("spot_weight", "1", (BLOCK, CORNER), "Weights of those spots", 0, 1)
SPOT_OF_SITE = Variable(
    "spot_of_site", "1", (BLOCK, CORNER), "The same, had the block the station's pool depth", 0
)
SITE_WEIGHT = Variable("site_weight", "1", (BLOCK, CORNER), "Weights of those spots", 0, 1)
KNOT_POOL_DEPTH = Variable(
    "knot_pool_depth", "m", (POOL_KNOT,), "Pool depths that pixels lie between", 0
)
KNOT_ELEVATION = Variable(
    "knot_elevation", "m", (HEIGHT_KNOT,), "Heights that pixels lie between", -500, 9000
)
SPOT_OF_KNOT = Variable(
    "spot_of_knot", "1", (POOL_KNOT, HEIGHT_KNOT), "Weather spot of each pair of knots", 0
)
LAST_NIGHT_HOUR = Variable(
    "last_night_hour", "h", (), "Coolest hour of the last measured night, from the first; -1: none"
)
LAST_NIGHT_TEMPERATURE_GRID = Variable(
    "last_night_temperature_grid", "degC", (ROW, COLUMN), "Air of each cell in that hour", -60, 70
)
POOL_STRENGTH = Variable("pool_strength", "1", (HOUR,), "How fully cool pools stand", 0, 1.2)
AIR_TEMPERATURE_AT_SPOT = Variable(
    "air_temperature_at_spot", "degC", (SPOT, HOUR), "Air at a weather spot", -60, 70
)
RELATIVE_HUMIDITY_AT_SPOT = Variable(
    "relative_humidity_at_spot", "%", (SPOT, HOUR), "Air at a weather spot", 0, 100
)
DAY_MINIMUM_TEMPERATURE = Variable(
    "day_minimum_temperature", "degC", (BLOCK, DAY), "Coolest hour of the local day", -60, 70
)
DAY_MAXIMUM_TEMPERATURE = Variable(
    "day_maximum_temperature", "degC", (BLOCK, DAY), "Warmest hour of the local day", -60, 70
)
DAY_MEAN_TEMPERATURE = Variable(
    "day_mean_temperature", "degC", (BLOCK, DAY), "Mean of the local day", -60, 70
)
HUMID_HOURS = Variable(
    "humid_hours", "h", (BLOCK, DAY), "Hours of the day with air at 90 % humidity or more", 0, 25
)
DAY_MEAN_WIND_SPEED = Variable(
    "day_mean_wind_speed", "m s-1", (BLOCK, DAY), "Wind at the block, behind its shelter", 0, 100
)
DAY_MAXIMUM_WIND_SPEED = Variable(
    "day_maximum_wind_speed", "m s-1", (BLOCK, DAY), "Its strongest hour of the local day", 0, 100
)
RAIN = Variable("rain", "mm", (DAY,), "Rain of the local day", 0)
DEW = Variable(
    "dew", "g m-3", (BLOCK, DAY), "Most water beyond saturation in a dark hour of the local day", 0
)
DAY_MINIMUM_DELTA_T = Variable(
    "day_minimum_delta_t", "K", (BLOCK, DAY), "Least Delta T of the daylight hours", 0, 60
)
DAY_MAXIMUM_DELTA_T = Variable(
    "day_maximum_delta_t", "K", (BLOCK, DAY), "Most Delta T of the daylight hours", 0, 60
)
WET_HOURS = Variable(
    "wet_hours", "h", (ESTIMATOR, BLOCK, DAY), "Hours with wet leaves, by each rule", 0, 25
)
WET_HOURS_DISAGREEMENT = Variable(
    "wet_hours_disagreement", "h", (BLOCK, DAY), "Between the estimators, most less least", 0, 25
)

# phenology ------------------------------------------------------------------------------------
STAGE_PROGRESS = Variable(
    "stage_progress", "d", (BLOCK, DAY), "Mean place on the panicle's scale of reference days"
)
STAGE_SUSCEPTIBILITY = Variable(
    "stage_susceptibility", "1", (BLOCK, DAY), "Susceptible share of the panicles by stage", 0, 1
)
ORGAN_SIZE = Variable(
    "organ_size", "1", (BLOCK, DAY), "Size of the organ as a share of full size", 0, 1
)
DAYS_SINCE_STAGE_SEEN = Variable(
    "days_since_stage_seen", "d", (BLOCK,), "Age of the newest stage observation, NaN if none", 0
)

# protection -----------------------------------------------------------------------------------
PROTECTION_LEFT = Variable(
    "protection_left", "1", (BLOCK, DAY), "Share of infections the sprays still prevent", 0, 0.95
)

# dispersal ------------------------------------------------------------------------------------
SPORULATING = Variable(
    "sporulating", "1", (SOURCE, DAY), "Share of a source's panicles that shed spores", 0, 1
)
ARRIVAL_SHARE = Variable(
    "arrival_share",
    "1",
    (BLOCK, SOURCE),
    "Share of today's spores in a block, by source; the rest is the background",
    0,
    1.0001,
)
HOME_INOCULUM = Variable(
    "home_inoculum",
    "1",
    (BLOCK, DAY),
    "Spores of the block and the background, in multiples of the background",
    0,
)
INCOMING_INOCULUM = Variable(
    "incoming_inoculum",
    "1",
    (BLOCK, DAY),
    "Spores from other sources on the map, in multiples of the background",
    0,
)

# infection ------------------------------------------------------------------------------------
FAVOURABILITY = Variable(
    "favourability", "1", (BLOCK, DAY), "Share of a perfect day for the disease", 0, 1
)
SITE_FAVOURABILITY = Variable(
    "site_favourability", "1", (BLOCK, DAY), "The same without the cool pool", 0, 1
)
SEASON_FAVOURABILITY_GRID = Variable(
    "season_favourability_grid",
    "1",
    (ROW, COLUMN),
    "Mean share of a perfect mildew day at each cell, from the first day to today",
    0,
    1,
)
CULTIVAR_SUSCEPTIBILITY = Variable(
    "cultivar_susceptibility", "1", (BLOCK,), "Prior rating of the cultivars present", 0, 1
)
CULTIVAR_DOUBT = Variable(
    "cultivar_doubt", "1", (BLOCK,), "Standard deviation of the logarithm of that rating", 0
)
AGE_SUSCEPTIBILITY = Variable(
    "age_susceptibility", "1", (BLOCK,), "Weight of the trees' age: neutral until published", 0
)
HAZARD = Variable("hazard", "1", (BLOCK, DAY), "Daily hazard index of the disease on its organ", 0)

# ranking --------------------------------------------------------------------------------------
FACTORS = Variable("factors", "1", (BLOCK, FACTOR), "The eight factors of the hazard to come", 0)
HAZARD_AHEAD = Variable(
    "hazard_ahead", "1", (BLOCK,), "Mean daily hazard index over the days ahead", 0
)
DAYS_SINCE_LOOK = Variable(
    "days_since_look", "d", (BLOCK,), "Days since panicles were last counted, NaN if never", 0
)
DOUBT = Variable("doubt", "1", (BLOCK,), "Standard deviation of the logarithm of that hazard", 0)

VOCABULARY: dict[str, Variable] = {
    item.name: item for item in list(globals().values()) if isinstance(item, Variable)
}
