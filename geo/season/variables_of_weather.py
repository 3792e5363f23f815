"""The vocabulary of the ground, the cool pools and the weather."""

from geo.season.dimensions import (
    BLOCK,
    COLUMN,
    CORNER,
    DAY,
    ESTIMATOR,
    HEIGHT_KNOT,
    HOUR,
    POOL_KNOT,
    RADIUS,
    ROW,
    SECTOR,
    SPOT,
)
from geo.season.variable import Variable
from geo.texts import mark

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
    "last_night_temperature_grid",
    "degC",
    (ROW, COLUMN),
    mark("Air of each cell in that hour"),
    -60,
    70,
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
