"""Where does cold air pool? Depth of each block in its surroundings."""

from geo.terrain.layer import TERRAIN as TERRAIN
