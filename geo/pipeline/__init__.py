"""The whole program on one screen."""

from geo.pipeline.run import Outcome as Outcome
from geo.pipeline.run import run as run
from geo.pipeline.write import write as write
