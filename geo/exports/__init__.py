"""What people open: the map, the two orders, the GIS file and the run record."""
