"""The one data set that travels, and the words for what is in it."""

from geo.season.farm import Farm as Farm
from geo.season.farm import FileRead as FileRead
from geo.season.farm import Settings as Settings
from geo.season.layer import Layer as Layer
from geo.season.variable import Variable as Variable
from geo.season.variables import VOCABULARY as VOCABULARY
