"""One self-contained HTML page: the map, the two orders of the day, and why."""

import json
from collections.abc import Collection, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import xarray as xr
from markupsafe import escape

from geo.exports.files import write_text
from geo.exports.offline import OfflineFigure, guarded
from geo.exports.page_about import about_data, set_aside
from geo.exports.page_classes import NOT_KNOWN_COLOUR, class_key
from geo.exports.page_data import page_data
from geo.exports.page_links import SEASONS, links_data
from geo.exports.page_materials import materials_data
from geo.exports.page_orders import not_asked_words
from geo.exports.page_pack import packed
from geo.exports.page_risk import Risk
from geo.exports.page_since import Since, since_data
from geo.exports.page_texts import script_texts
from geo.exports.page_ways import Ways, lettered, ways_data
from geo.exports.page_windows import windows_data
from geo.exports.page_words import CAUTIONS, MEANING_OF_ONE, title
from geo.exports.paper import paper_html
from geo.exports.relief import relief
from geo.exports.season_page import places_of
from geo.exports.templates import filled, joined
from geo.rounds.materials import Labelled
from geo.season.farm import Farm
from geo.texts import phrase_of
from geo.texts.days import day_words
from geo.windows.open_hours import Windows

if TYPE_CHECKING:
    from folium import Map

# In the order in which each needs the ones before it.
SCRIPTS = (
    "codec.js",
    "inflate.js",
    "columns.js",
    "texts.js",
    "words.js",
    "said.js",
    "marks.js",
    "layer.js",
    "arrows.js",
    "ways.js",
    "stops.js",
    "places.js",
    "ground.js",
    "map.js",
    "rows.js",
    "choice.js",
    "unnumbered.js",
    "save.js",
    "heat.js",
    "lists.js",
    "days.js",
    "strips.js",
    "chart.js",
    "hours.js",
    "materials.js",
    "factors.js",
    "sources.js",
    "beside.js",
    "doubts.js",
    "card.js",
    "app.js",
)
STYLES = (
    "page.css",
    "map.css",
    "panel.css",
    "card.css",
    "beside.css",
    "heat.css",
    "contrast.css",
    "paper.css",
)
DEEPEST_ZOOM = 21


def write_map(
    path: Path,
    *,
    farm: Farm,
    risks: Sequence[Risk],
    windows: Windows | None = None,
    materials: Sequence[Labelled] | None = None,
    ways: Ways | None = None,
    written: Collection[str] = (),
    since: Since | None = None,
) -> None:
    """
    Write the map page, replacing an earlier one only when the new one is complete.

    Parameters
    ----------
    path : pathlib.Path
        Of the page.
    farm : Farm
        Names and outlines.
    risks : sequence of Risk
        Of each disease; the first is shown when the page opens, and is what is printed.
    windows : Windows or None
        Which rule closes which hour, for the strip on the card; None to leave it out.
    materials : sequence of Labelled or None
        What of the user's label file could be sprayed, for the card.
    ways : Ways or None
        Round and walk, if they are planned.
    written : collection of str
        Names of the files that the same run writes beside the page: those that are pages are
        linked to.
    since : Since or None
        An earlier run to hold this one against.
    """
    html = map_html(
        farm=farm,
        risks=risks,
        windows=windows,
        materials=materials,
        ways=ways,
        written=written,
        since=since,
    )
    write_text(path, html)


def map_html(
    *,
    farm: Farm,
    risks: Sequence[Risk],
    windows: Windows | None = None,
    materials: Sequence[Labelled] | None = None,
    ways: Ways | None = None,
    written: Collection[str] = (),
    since: Since | None = None,
) -> str:
    """
    Return the map page.

    Parameters
    ----------
    farm : Farm
        Names and outlines.
    risks : sequence of Risk
        Of each disease; the first is shown when the page opens, and is what is printed.
    windows : Windows or None
        Which rule closes which hour, for the strip on the card; None to leave it out.
    materials : sequence of Labelled or None
        What of the user's label file could be sprayed, for the card.
    ways : Ways or None
        Round and walk, if they are planned.
    written : collection of str
        Names of the files that the same run writes beside the page: those that are pages are
        linked to.
    since : Since or None
        An earlier run to hold this one against.

    Returns
    -------
    str
        HTML that opens with no network; the same bytes for the same input.
    """
    import folium

    data = page_data(farm, risks)
    if windows is not None:
        data["windows"] = windows_data(windows)
    data["materials"] = materials_data(None if farm.labels is None else materials or ())
    data |= ways_data(farm, ways or Ways())
    data["links"] = links_data(written)
    data["seasons"] = places_of(risks[0].season, None) if SEASONS in written else []
    for one, risk in zip(data["diseases"], risks, strict=True):
        one["since"] = since_data(risk, since)
    season = risks[0].season
    ground = folium.Map(
        tiles=None,
        location=_middle(farm),
        zoom_start=15,
        zoom_control=True,
        control_scale=False,
        max_zoom=DEEPEST_ZOOM,
        attribution_control=False,
        fade_animation=False,
        zoom_snap=0.25,
        zoom_delta=0.5,
        track_resize=False,  # the page follows the map's own size, which is none while printing
    )
    # Only the map library itself: none of the others that the shell would link.
    ground.default_js = [link for link in ground.default_js if link[0] == "leaflet"]
    ground.default_css = [link for link in ground.default_css if link[0] == "leaflet_css"]
    figure = OfflineFigure(
        title=str(escape(title(farm, risks[0].disease))),
        head=f"{script_texts()}<style>\n{joined(STYLES)}</style>\n<script>\n{guarded(joined(SCRIPTS))}</script>",
        body=_panel(farm, risks[0], data)
        + paper_html(farm, risks[0], written=written, since=since),
    )
    figure.add_child(ground)
    _add_relief(ground, farm, season)
    figure.start = f"mangoPage.start({ground.get_name()});"
    return figure.render()


def _middle(farm: Farm) -> list[float]:
    west, south, east, north = farm.blocks.to_crs(4326).total_bounds
    return [round(float(south + north) / 2, 6), round(float(west + east) / 2, 6)]


def _add_relief(ground: "Map", farm: Farm, season: xr.Dataset) -> None:
    import folium

    picture = relief(
        season["elevation_grid"].transpose("row", "column").values,
        cell_width=float(season["cell_width"]),
        cell_height=float(season["cell_height"]),
        west=float(season.attrs["grid_west"]),
        north=float(season.attrs["grid_north"]),
        crs=farm.crs,
    )
    if picture is None:
        return
    # A pane of its own under the blocks: in the usual one a picture would veil them.
    folium.map.CustomPane("relief", z_index=250, pointer_events=False).add_to(ground)
    folium.raster_layers.ImageOverlay(
        picture.picture, picture.bounds, pane="relief", pixelated=False, alt=""
    ).add_to(ground)


def _panel(farm: Farm, risk: Risk, data: dict[str, Any]) -> str:
    lean, columns = packed(data)
    text = json.dumps(lean, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    # Within a script element only this character could end it.
    text = text.replace("<", "\\u003c")
    markup = filled(
        "panel.html",
        farm=farm,
        about=data["farm"],
        diseases=data["diseases"],
        today=day_words(farm.today),
        year=farm.today.year,
        key=class_key(),
        apart=data["apart"],
        links=data["links"],
        since=next((one["since"]["day"] for one in data["diseases"] if one["since"]), None),
        has_not_worth=any(one["spray"]["apart"] for one in data["diseases"]),
        has_round=bool(data["round"]),
        letters=lettered([way["name"] for way in data["round"]]),
        has_walk=bool(data["walk"]),
        unknown_colour=NOT_KNOWN_COLOUR,
        meaning=phrase_of(MEANING_OF_ONE),
        cautions=phrase_of(CAUTIONS),
        notes=risk.spray.notes,
        not_asked=not_asked_words(risk.spray),
        about_data=about_data(farm, risk.season),
        set_aside=set_aside(farm),
    )
    return (
        f'{markup}<script type="application/json" id="page-data">{text}</script>\n'
        f'<script type="text/plain" id="page-columns">{columns}</script>\n'
    )
