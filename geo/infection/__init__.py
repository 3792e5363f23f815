"""How favourable is each day for disease, and how large the hazard."""

from geo.infection.layer import INFECTION as INFECTION
