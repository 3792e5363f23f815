"""May this block be sprayed in this hour, and which rule says no?"""

from geo.windows.ask import spray_windows as spray_windows
from geo.windows.ask import windows_of_labels as windows_of_labels
from geo.windows.open_hours import Windows as Windows
