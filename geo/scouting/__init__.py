"""Where a look at the panicles is worth most."""

from geo.scouting.look import look_at as look_at
from geo.scouting.order import ScoutingEntry as ScoutingEntry
from geo.scouting.order import ScoutingOrder as ScoutingOrder
from geo.scouting.plan import plan_scouting_order as plan_scouting_order
from geo.scouting.walk_hours import walk_hours as walk_hours
