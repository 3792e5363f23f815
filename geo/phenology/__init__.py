"""Which stage have panicles, leaves and fruit reached, and how much of them can be infected?"""

from geo.phenology.layer import PHENOLOGY as PHENOLOGY
