"""What is drawn of the farm? Blocks, neighbours and places, in one system."""

from collections.abc import Collection
from dataclasses import dataclass

import geopandas as gpd
import pandas as pd

from geo.inputs.folder import Folder
from geo.inputs.outlines import no_neighbours, read_blocks, read_neighbours
from geo.inputs.places import no_places, read_places
from geo.inputs.reading import Reading, tried
from geo.inputs.tables import read_table
from geo.inputs.vectors import DEGREES


@dataclass(frozen=True, slots=True)
class Drawn:
    """
    What is drawn of the farm, None where the file stopped it.

    Attributes
    ----------
    blocks : geopandas.GeoDataFrame or None
        As `geo.inputs.outlines.read_blocks` gives them.
    held : tuple of str
        Ids of blocks set aside.
    neighbours, places : geopandas.GeoDataFrame or None
        As their readers give them, in the system of the blocks; without rows if none are named.
    """

    blocks: gpd.GeoDataFrame | None
    held: tuple[str, ...]
    neighbours: gpd.GeoDataFrame | None
    places: gpd.GeoDataFrame | None

    def ids(self, notes: Reading, *, with_neighbours: bool = False) -> list[str]:
        """
        Return the ids that notes may speak of.

        Parameters
        ----------
        notes : Reading
            The file of notes.
        with_neighbours : bool
            Whether they may speak of neighbours too.

        Returns
        -------
        list of str
            Those drawn, in order; where the drawing cannot be used, those the notes themselves
            name, so that only their own faults are found.
        """
        blocks = self.blocks
        beside = self.neighbours if with_neighbours else no_neighbours(DEGREES)
        if blocks is None or beside is None:
            return _written(notes)
        return [*blocks.index, *beside.index]


def read_drawn(folder: Folder, *, cultivars: Collection[str]) -> Drawn:
    """
    Return what is drawn of the farm; one faulty file does not keep the others from being read.

    Parameters
    ----------
    folder : Folder
        The farm folder.
    cultivars : collection of str
        Those with a rating.

    Returns
    -------
    Drawn
        Faults stand in the readings.
    """
    readings = folder.readings
    blocks: gpd.GeoDataFrame | None = None
    held: tuple[str, ...] = ()
    if "outlines" in readings:
        read = tried(lambda: read_blocks(readings["outlines"], cultivars=cultivars))
        blocks, held = read or (None, ())
    system = DEGREES if blocks is None else blocks.crs
    taken = () if blocks is None else blocks.index
    neighbours, places = no_neighbours(system), no_places(system)
    if "neighbours" in readings:
        neighbours = tried(lambda: read_neighbours(readings["neighbours"], crs=system, taken=taken))
    if "places" in readings:
        places = tried(lambda: read_places(readings["places"], crs=system))
    return Drawn(blocks, held, neighbours, places)


def _written(notes: Reading) -> list[str]:
    # A reading of its own: faults of the file are written down by whoever reads all of it.
    apart = Reading(notes.role, notes.path)
    if apart.is_blank():
        return []
    table = tried(lambda: read_table(apart, required=["block_id"]))
    if table is None:
        return []
    names = pd.Series(table["block_id"].str.split(";").explode().str.strip().unique())
    return [str(name) for name in names[names != ""]]
