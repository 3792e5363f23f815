"""
Rank mango blocks by disease risk, and say why.

In a notebook::

    import geo

    blocks = geo.rank("my_farm")  # a GeoDataFrame, first to spray on top
    blocks[["spray_rank", "class_ahead", "hazard_ahead"]].head()
    geo.draw(blocks)  # a folium map

Everything else is reached by the rooms: `geo.pipeline.run` decides, `geo.pipeline.write` writes.
"""

import os
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from folium import Map
    from geopandas import GeoDataFrame

__version__ = "0.1.0"
__all__ = ["__version__", "draw", "rank"]

# A desktop GIS or a database leaves these in the environment. They name data files of its own
# version, which the libraries we install cannot read ("proj.db contains ..."); each brings its own.
for _name in ("PROJ_DATA", "PROJ_LIB", "GDAL_DATA"):
    os.environ.pop(_name, None)


# The rooms are imported when asked for: they take a second, and `import geo` none.
def rank(folder: str | Path, *, disease: str | None = None) -> "GeoDataFrame":
    """
    Return the blocks of a farm, those to spray first on top.

    Parameters
    ----------
    folder : str or pathlib.Path
        Holds ``farm.toml``.
    disease : str or None
        Key of a disease, such as ``leaf_mildew``; None for the one of the settings.

    Returns
    -------
    geopandas.GeoDataFrame
        Index ``block_id``, in the farm's metric system; the columns are those of ``blocks.gpkg``:
        ranks, class, hazard, weather of today, protection left and the eight factors. Blocks
        outside the spray order follow by hazard.

    Raises
    ------
    InputError
        If the farm cannot be used as it stands.
    ValueError
        If there is no such disease.
    """
    from geo.exports.geopackage import block_table
    from geo.pipeline import run

    outcome = run(Path(folder))
    key = disease or outcome.farm.settings.disease
    if key not in outcome.seasons:
        message = f"no disease {key!r}: one of {', '.join(outcome.seasons)}"
        raise ValueError(message)
    orders = outcome.orders[key]
    table = block_table(
        outcome.farm, outcome.seasons[key], spray=orders.spray, scouting=orders.scouting
    )
    return table.sort_values(["spray_rank", "hazard_ahead"], ascending=[True, False])


def draw(blocks: "GeoDataFrame") -> "Map":
    """
    Return the blocks on a map for a notebook, in the colours of their classes.

    Parameters
    ----------
    blocks : geopandas.GeoDataFrame
        As `rank` gives them, or some of them.

    Returns
    -------
    folium.Map
        Without tiles. The notebook fetches folium's scripts; a page that needs no network is
        what `geo.pipeline.write` makes.

    Raises
    ------
    ValueError
        If there are no blocks.
    """
    from geo.exports.notebook_map import notebook_map

    return notebook_map(blocks)
