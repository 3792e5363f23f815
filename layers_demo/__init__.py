"""
A made farm, and the seeded script that makes it.

``python -m layers_demo.make_valley_farm`` writes ``valley_farm/`` again, value for value. The
farm, its people, its ground and its weather are invented; nothing in it was measured anywhere.
"""
