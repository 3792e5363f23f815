"""The names of the dimensions that quantities travel in."""

BLOCK, SOURCE, DAY, HOUR, SPOT, CORNER = "block", "source", "day", "hour", "spot", "corner"
ROW, COLUMN, COVER, EDGE, POINT = "row", "column", "cover", "edge", "point"
RADIUS, SECTOR, LINE, WINDBREAK = "radius", "sector", "line", "windbreak"
SPRAY, ACT, VISIT, PORTION, FACTOR = "spray", "act", "visit", "portion", "factor"
STATION, LOGGER, ESTIMATOR = "station", "logger", "estimator"
RULE = "rule"
POOL_KNOT, HEIGHT_KNOT = "pool_knot", "height_knot"
