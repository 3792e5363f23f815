"""What is already in, what shows, what is spent, and how large is the hazard?"""

from geo.epidemic.layer import EPIDEMIC as EPIDEMIC
