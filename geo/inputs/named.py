"""What may a row about sprays name?"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from zoneinfo import ZoneInfo


@dataclass(frozen=True, slots=True)
class Named:
    """
    What rows about sprays may name.

    Attributes
    ----------
    blocks : sequence of str
        Ids in order.
    held : collection of str
        Ids whose outlines are set aside.
    materials : collection of str
        Active ingredients we know, and what else may be done.
    zone : zoneinfo.ZoneInfo
        The farm's zone.
    """

    blocks: Sequence[str]
    held: Collection[str]
    materials: Collection[str]
    zone: ZoneInfo
