"""Whose spores does a block receive?"""

from geo.dispersal.layer import DISPERSAL as DISPERSAL
