"""The ranked blocks as a folium map for a notebook."""

from math import isnan
from typing import TYPE_CHECKING, Any

import geopandas as gpd

from geo.exports.page_classes import CLASS_COLOURS, NOT_KNOWN_COLOUR, NOT_KNOWN_WORD
from geo.ranking.classes import CLASS_WORDS
from geo.texts import mark, phrase, phrase_of

if TYPE_CHECKING:
    from folium import Map

COLOURS = dict(zip((*CLASS_WORDS, NOT_KNOWN_WORD), (*CLASS_COLOURS, NOT_KNOWN_COLOUR), strict=True))
# Column of the table, and what stands beside its value when the pointer is on a block.
TOLD = {
    "block_id": mark("block"),
    "class_words": mark("hazard ahead"),
    "spray_rank": mark("spray order"),
    "scouting_rank": mark("scouting order"),
    "cultivar": mark("cultivar"),
    "cannot_now": mark("cannot now"),
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
        message = phrase("no blocks to draw")
        raise ValueError(message)
    # Coloured by the class as tables have it, told in the language spoken.
    shown = blocks.reset_index().to_crs("EPSG:4326")
    shown["class_words"] = shown["class_ahead"].map(phrase_of)
    shown = shown[[*TOLD, "class_ahead", "geometry"]]
    # Ranks are whole numbers, and empty where a block is in no order.
    for name in ("spray_rank", "scouting_rank"):
        shown[name] = ["" if isnan(rank) else f"{rank:.0f}" for rank in shown[name]]
    ground = folium.Map(tiles=None, attribution_control=False)
    folium.GeoJson(
        shown,
        name="blocks",
        style_function=_style,
        tooltip=folium.GeoJsonTooltip(
            fields=list(TOLD), aliases=[phrase_of(words) for words in TOLD.values()]
        ),
    ).add_to(ground)
    west, south, east, north = map(float, shown.total_bounds)
    ground.fit_bounds([[south, west], [north, east]])
    return ground


def _style(feature: dict[str, Any]) -> dict[str, Any]:
    # Opaque enough to tell five classes apart, on a page that has no ground beneath.
    colour = COLOURS[feature["properties"]["class_ahead"]]
    return {"fillColor": colour, "fillOpacity": 0.9, "color": "#333333", "weight": 1}
