"""Which block comes first, by how much, and why."""

from geo.ranking.layer import RANKING as RANKING
