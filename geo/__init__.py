"""Rank mango blocks by disease risk, and say why."""

__version__ = "0.1.0"
