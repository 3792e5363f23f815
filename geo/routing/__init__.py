"""What is the shortest way between places, and the best order to visit them in?"""

from geo.routing.solver import solve as solve
from geo.routing.visits import Route as Route
from geo.routing.visits import Tour as Tour
from geo.routing.visits import Vehicle as Vehicle
from geo.routing.visits import Visit as Visit
from geo.routing.visits import VisitProblem as VisitProblem
