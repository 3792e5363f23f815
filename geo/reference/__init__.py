"""Published and assumed numbers, each with its source, and typed readers of them."""

from geo.reference.cultivars import cultivar as cultivar
from geo.reference.fungicides import fungicides as fungicides
from geo.reference.growth_stages import growth_stages as growth_stages
from geo.reference.number import Number as Number
from geo.reference.number import numbers as numbers
