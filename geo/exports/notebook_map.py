"""The ranked blocks as a folium map for a notebook."""

from math import isnan
from typing import TYPE_CHECKING, Any

import geopandas as gpd

from geo.exports.page_classes import CLASS_COLOURS, NOT_KNOWN_COLOUR, NOT_KNOWN_WORD
from geo.ranking.classes import CLASS_WORDS

if TYPE_CHECKING:
    from folium import Map

COLOURS = dict(zip((*CLASS_WORDS, NOT_KNOWN_WORD), (*CLASS_COLOURS, NOT_KNOWN_COLOUR), strict=True))
# Column of the table, and what stands beside its value when the pointer is on a block.
TOLD = {
    "block_id": "block",
    "class_ahead": "hazard ahead",
    "spray_rank": "spray order",
    "scouting_rank": "scouting order",
    "cultivar": "cultivar",
    "cannot_now": "cannot now",
}


def notebook_map(blocks: gpd.GeoDataFrame) -> "Map":
    """
    Return the blocks in the colours of their classes.

    Parameters
    ----------
    blocks : geopandas.GeoDataFrame
        As `geo.rank` gives them.

    Returns
    -------
    folium.Map
        Without tiles.

    Raises
    ------
    ValueError
        If there are no blocks.
    """
    import folium

    if blocks.empty:
        message = "no blocks to draw"
        raise ValueError(message)
    shown = blocks.reset_index()[[*TOLD, "geometry"]].to_crs("EPSG:4326")
    # Ranks are whole numbers, and empty where a block is in no order.
    for name in ("spray_rank", "scouting_rank"):
        shown[name] = ["" if isnan(rank) else f"{rank:.0f}" for rank in shown[name]]
    ground = folium.Map(tiles=None, attribution_control=False)
    folium.GeoJson(
        shown,
        name="blocks",
        style_function=_style,
        tooltip=folium.GeoJsonTooltip(fields=list(TOLD), aliases=list(TOLD.values())),
    ).add_to(ground)
    west, south, east, north = map(float, shown.total_bounds)
    ground.fit_bounds([[south, west], [north, east]])
    return ground


def _style(feature: dict[str, Any]) -> dict[str, Any]:
    # Opaque enough to tell five classes apart, on a page that has no ground beneath.
    colour = COLOURS[feature["properties"]["class_ahead"]]
    return {"fillColor": colour, "fillOpacity": 0.9, "color": "#333333", "weight": 1}
