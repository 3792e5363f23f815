"""Read a farm folder, convert it to house names and units, or refuse it in words."""

from geo.inputs.season import read_farm as read_farm
