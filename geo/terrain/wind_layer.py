"""What is left of the wind at each block, behind ground and behind windbreaks?"""

from collections.abc import Iterator

import numpy as np
import xarray as xr

from geo.arrays import FloatArray, IntArray
from geo.reference.number import values
from geo.season import variables as v
from geo.season.sectors import sector_directions
from geo.season.variable import Variable
from geo.terrain.block_means import CellSize, Means
from geo.terrain.shelter import shelter_halo, upwind_shelter, wind_share
from geo.terrain.windbreaks import WindbreakLaw, Windbreaks, windbreak_factor


def wind_at_blocks(
    season: xr.Dataset, means: Means, ground: FloatArray, cell: CellSize
) -> dict[Variable, FloatArray]:
    """
    Return how sheltered each block is from wind of each sector, and what that leaves of it.

    Parameters
    ----------
    season : xarray.Dataset
        For the windbreaks that somebody drew, and points of each block.
    means : callable
        `block_means` of the season's blocks.
    ground : [m]
        Shape (row, column). NaN where unknown.
    cell : CellSize
        Size of a cell.

    Returns
    -------
    dict
        Shelter by ground and share of the wind, shape (block, sector).
    """
    table = values("microclimate", "shelter")
    reach = {"reach": table.pop("reach"), "half_sector": table.pop("half_sector")}
    directions = sector_directions()

    def by_sector(grid: FloatArray, covered: IntArray) -> Iterator[FloatArray]:
        return upwind_shelter(
            grid, covered, **cell, wind_from_directions=directions.tolist(), **reach
        )

    halo = shelter_halo(reach["reach"], cell["cell_height"])
    shelter = means(by_sector, ground, quantities=directions.size, halo=halo).T
    return {
        v.SHELTER: shelter,
        # Where nothing is known the wind of the open is taken.
        v.WIND_SHARE: wind_share(np.nan_to_num(shelter), **table) * _behind_windbreaks(season),
    }


def _behind_windbreaks(season: xr.Dataset) -> FloatArray:
    """Return the share of the wind of each sector that drawn windbreaks leave to each block."""
    table = values("microclimate", "windbreak")
    usual_height, usual_porosity = table.pop("height"), table.pop("porosity")
    height, porosity = season.windbreak_height.values, season.windbreak_porosity.values
    return windbreak_factor(
        Windbreaks(
            start=np.column_stack([season.windbreak_start_x, season.windbreak_start_y]),
            end=np.column_stack([season.windbreak_end_x, season.windbreak_end_y]),
            height=np.where(np.isnan(height), usual_height, height),
            porosity=np.where(np.isnan(porosity), usual_porosity, porosity),
        ),
        WindbreakLaw(**table),
        point_block=season.point_block.values,
        point_x=season.point_x.values,
        point_y=season.point_y.values,
        point_share=season.point_share.values,
        block_count=season.sizes[v.BLOCK],
        wind_from_direction=sector_directions(),
    )
