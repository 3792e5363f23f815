"""What is already in, what shows, what is spent?"""

from geo.epidemic.course import Course as Course
from geo.epidemic.course import first_state as first_state
from geo.epidemic.course import over_days as over_days
from geo.epidemic.drivers import Drivers as Drivers
from geo.epidemic.outlook import outlook as outlook
from geo.epidemic.parameters import epidemic_parameters as epidemic_parameters
