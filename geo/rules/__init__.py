"""What do other published rules say? Shown beside our own hazard, never blended into it."""

from geo.rules.layer import RULES as RULES
from geo.rules.names import RIVALS as RIVALS
from geo.rules.names import Rival as Rival
