"""Rank mango blocks by disease risk, and say why."""

import os

__version__ = "0.1.0"

# A desktop GIS or a database leaves these in the environment. They name data files of its own
# version, which the libraries we install cannot read ("proj.db contains ..."); each brings its own.
for _name in ("PROJ_DATA", "PROJ_LIB", "GDAL_DATA"):
    os.environ.pop(_name, None)
