"""The layers in the order the data flow: read it top to bottom."""

from geo.dispersal import DISPERSAL
from geo.epidemic import EPIDEMIC
from geo.infection import FAVOURABLE_CELLS, INFECTION
from geo.phenology import PHENOLOGY
from geo.protection import PROTECTION
from geo.ranking import RANKING
from geo.rules import RULES
from geo.season import Layer
from geo.terrain import TERRAIN
from geo.weather import POOLS, WEATHER

# What is the same whatever the disease.
SHARED: tuple[Layer, ...] = (TERRAIN, POOLS, WEATHER, RULES, DISPERSAL)
# What is computed anew for each disease on its organ.
OF_A_DISEASE: tuple[Layer, ...] = (
    PHENOLOGY,
    PROTECTION,
    INFECTION,
    EPIDEMIC,
    RANKING,
)
# What only the disease that the orders are made for is drawn with.
OF_THE_CHOSEN: tuple[Layer, ...] = (FAVOURABLE_CELLS,)

ORDER: tuple[Layer, ...] = (*SHARED, *OF_A_DISEASE, *OF_THE_CHOSEN)
