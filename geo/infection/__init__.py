"""How favourable is each day for disease, and how large the hazard."""

from geo.infection.cells_layer import FAVOURABLE_CELLS as FAVOURABLE_CELLS
from geo.infection.layer import INFECTION as INFECTION
