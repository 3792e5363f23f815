"""How long does it take, as ratios of two runs on the same machine?"""
