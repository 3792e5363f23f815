"""How much of the sprays of the diary still protects."""

from geo.protection.layer import PROTECTION as PROTECTION
