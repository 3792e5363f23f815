"""What is taken for a share before the first look at it?"""

JEFFREYS = 0.5  # jeffreys1946: half a find and half a miss
