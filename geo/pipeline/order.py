"""The layers in the order the data flow: read it top to bottom."""

from geo.dispersal import DISPERSAL
from geo.infection import INFECTION
from geo.phenology import PHENOLOGY
from geo.protection import PROTECTION
from geo.ranking import RANKING
from geo.season import Layer
from geo.terrain import TERRAIN
from geo.weather import POOLS, WEATHER

ORDER: tuple[Layer, ...] = (
    TERRAIN,
    POOLS,
    WEATHER,
    PHENOLOGY,
    PROTECTION,
    DISPERSAL,
    INFECTION,
    RANKING,
)
