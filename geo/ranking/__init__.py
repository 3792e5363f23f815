"""Which block first, by how much, and why."""

from geo.ranking.layer import RANKING as RANKING
from geo.ranking.orders import CannotNow as CannotNow
from geo.ranking.orders import SprayEntry as SprayEntry
from geo.ranking.orders import SprayOrder as SprayOrder
