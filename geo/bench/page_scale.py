"""What does the map page of many blocks cost, beside the map library's own layer of outlines?"""

import gzip
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

import numpy as np

from geo.bench.in_browser import Cost, cost, missing
from geo.bench.laid_out import Pages, laid_out, one_piece
from geo.bench.page_parts import parts
from geo.exports.map_page import map_html
from geo.exports.offline import OfflineFigure
from geo.exports.page_classes import CLASS_COLOURS
from geo.ranking.classes import hazard_class

PHONE = 4.0  # times slower than this machine
DAYS_SHOWN = 14
# More blocks than these keep the library's layer busy for minutes.
MANY = 20_000


@dataclass(frozen=True)
class _Measured:
    size: float
    desk: Cost
    phone: Cost


def lines(*, full: bool) -> Iterator[str]:
    """
    Write pages of made blocks, open each in Debian's chromium, and hold them side by side.

    Parameters
    ----------
    full : bool
        Up to 100 000 blocks instead of 3000.

    Yields
    ------
    str
        What was found, a line each.
    """
    if lack := missing():
        yield f"map page of many blocks : not measured. {lack}"
        return
    piece = one_piece()
    for count in (300, 3000, 20_000, 100_000) if full else (300, 3000):
        pages = laid_out(piece, count)
        yield from _at(pages, count)


def _at(pages: Pages, count: int) -> Iterator[str]:
    """Measure every way to show so many blocks."""
    ways: dict[str, Callable[[], str]] = {
        "one disease": lambda: _ours(pages, 1),
        f"{len(pages.risks)} diseases": lambda: _ours(pages, len(pages.risks)),
    }
    if count <= MANY:
        ways["library's layer, SVG"] = lambda: _of_library(pages, on_canvas=False)
        ways["library's layer, canvas"] = lambda: _of_library(pages, on_canvas=True)
    found: dict[str, _Measured] = {}
    for name, write in ways.items():
        with TemporaryDirectory() as folder:
            path = Path(folder) / "page.html"
            started = perf_counter()
            page = write()
            seconds = perf_counter() - started
            html = page.encode()
            path.write_bytes(html)
            times = 1 if count >= MANY else 3
            desk, phone = cost(path, times=times), cost(path, slower=PHONE, times=1)
        found[name] = _Measured(len(html) / 1e6, desk, phone)
        yield (
            f"{count} blocks, {name} : {len(html) / 1e6:.2f} MB "
            f"({len(gzip.compress(html, 6)) / 1e6:.2f} MB with gzip), {seconds:.1f} s to write"
        )
        if name == "one disease":
            sizes = ", ".join(f"{part} {size / 1e6:.2f}" for part, size in parts(page).items())
            yield f"    of it in MB : {sizes}"
        yield f"    desk : {_words(desk)}"
        yield f"    phone, {PHONE:g} times slower : {_words(phone)}"
    first = found["one disease"]
    for name, other in found.items():
        if other is not first:
            yield f"    {name} : one disease = {_ratios(other, first)}"


def _ours(pages: Pages, diseases: int) -> str:
    return map_html(
        farm=pages.farm,
        risks=pages.risks[:diseases],
        windows=pages.windows,
        materials=pages.materials,
        written={"spray-order.csv", "scouting-order.csv", "risk.csv"},
    )


def _of_library(pages: Pages, *, on_canvas: bool) -> str:
    """Return a page of the library's own GeoJSON layer: outlines with classes of 14 days."""
    import folium

    season = pages.risks[0].season
    hazard = season["hazard"].transpose("block", "day").to_numpy()[:, -DAYS_SHOWN:]
    classes = hazard_class(hazard)
    blocks = pages.farm.blocks[["name", "geometry"]].to_crs(4326)
    for day in range(DAYS_SHOWN):
        blocks[f"day_{day}"] = classes[:, day].astype(np.int64)
    west, south, east, north = blocks.total_bounds
    ground = folium.Map(tiles=None, prefer_canvas=on_canvas, max_zoom=20)
    ground.default_js = [link for link in ground.default_js if link[0] == "leaflet"]
    ground.default_css = [link for link in ground.default_css if link[0] == "leaflet_css"]
    ground.fit_bounds([[south, west], [north, east]])
    folium.GeoJson(
        blocks,
        style_function=lambda feature: {
            "fillColor": CLASS_COLOURS[max(0, feature["properties"]["day_0"])],
            "color": "#333",
            "weight": 1,
            "fillOpacity": 0.8,
        },
        tooltip=folium.GeoJsonTooltip(["name", "day_0"]),
        popup=folium.GeoJsonPopup(["name"]),
    ).add_to(ground)
    figure = OfflineFigure(title="The library's layer", head="", body="")
    figure.add_child(ground)
    return figure.render()


def _words(found: Cost) -> str:
    day = ""
    if found.day is not None:
        day = f"another day with its list {found.day:.0f} ms ({found.day_work:.0f}), "
    return (
        f"painted after {found.paint:.0f} ms ({found.paint_work:.0f} of work), {day}longest frame "
        f"of a pan {found.pan:.0f} ms ({found.pan_work:.0f} in all), {found.heap:.1f} MB of "
        f"objects and {found.buffers:.1f} MB of numbers kept"
    )


def _ratios(other: _Measured, ours: _Measured) -> str:
    """Return ratios of sizes, and of work: those of times would be the busy machine's too."""
    pairs = {
        "size": (other.size, ours.size),
        "work to paint": (other.desk.paint_work, ours.desk.paint_work),
        "work to pan": (other.desk.pan_work, ours.desk.pan_work),
        "objects": (other.desk.heap, ours.desk.heap),
        "paint on the phone": (other.phone.paint, ours.phone.paint),
    }
    return ", ".join(f"{name} {theirs / own:.2g}" for name, (theirs, own) in pairs.items())
