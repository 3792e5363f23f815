"""Which stage have the panicles reached, and how much of them can mildew infect?"""

from geo.phenology.layer import PHENOLOGY as PHENOLOGY
