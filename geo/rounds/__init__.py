"""What is sprayed today, in which order, and what a rule keeps out."""

from geo.rounds.materials import Labelled as Labelled
from geo.rounds.materials import labelled_materials as labelled_materials
from geo.rounds.order import CannotNow as CannotNow
from geo.rounds.order import NotRanked as NotRanked
from geo.rounds.order import NotWorth as NotWorth
from geo.rounds.order import SprayEntry as SprayEntry
from geo.rounds.order import SprayOrder as SprayOrder
from geo.rounds.plan import plan_spray_order as plan_spray_order
