"""What hour by hour does a block feel, when only the station is measured?"""

from geo.weather.fit_layer import POOLS as POOLS
from geo.weather.layer import WEATHER as WEATHER
