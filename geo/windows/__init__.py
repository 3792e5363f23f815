"""May this block be sprayed on this day, and which rule says no."""

from geo.windows.sulfur_heat import HeatGate as HeatGate
from geo.windows.sulfur_heat import sulfur_heat_gate as sulfur_heat_gate
