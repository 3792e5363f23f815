"""What takes the room in a map page?"""

import json
import re
from collections import Counter
from collections.abc import Iterator
from typing import Any

SCRIPT = re.compile(r"<script(?P<kind>[^>]*)>(?P<text>.*?)</script>", re.DOTALL)
STYLE = re.compile(r"<style[^>]*>(.*?)</style>", re.DOTALL)
STILL = re.compile(r'<article class="paper"[^>]*>.*?</article>', re.DOTALL)
PICTURE = re.compile(r"data:image/[a-z]+;base64,[A-Za-z0-9+/=]+")
# A plain map of classes by day holds these, and no more.
ON_A_PLAIN_MAP = ("outlines", "labels", "id", "name", "cultivar", "area", "hazard")


def parts(page: str) -> dict[str, int]:
    """
    Return how many letters each part of a map page takes.

    Parameters
    ----------
    page : str
        HTML as `geo.exports.map_page.map_html` returns it.

    Returns
    -------
    dict
        Part to letters, together as many as the page has. "outlines and hazard" is what a plain
        map of classes by day would hold too.
    """
    found: Counter[str] = Counter()
    for script in SCRIPT.finditer(page):
        text = script["text"]
        if 'id="page-columns"' in script["kind"]:
            continue
        if 'id="page-data"' in script["kind"]:
            plain = _on_a_plain_map(json.loads(text))
            found["outlines and hazard"] += plain
            found["why and orders"] -= plain
        elif "Leaflet" in text[:200]:
            found["map library"] += len(text)
        elif "window.mangoPage" in text:
            found["own scripts"] += len(text)
    found["styles"] = sum(map(len, STYLE.findall(page)))
    found["still version"] = sum(map(len, STILL.findall(page)))
    found["pictures"] = sum(map(len, PICTURE.findall(page)))
    data = (script for script in SCRIPT.finditer(page) if "page-" in script["kind"])
    inside = [script["text"] for script in data]
    found["why and orders"] += sum(map(len, inside))
    found["why and orders"] -= sum(len(one) for text in inside for one in PICTURE.findall(text))
    found["the rest"] = len(page) - sum(found.values())
    return dict(found)


def _on_a_plain_map(data: dict[str, Any]) -> int:
    """Return the letters of packed columns that a plain map would hold."""
    blocks = data["blocks"], *(one["blocks"] for one in data["diseases"])
    return sum(
        end - first
        for columns in blocks
        for name in ON_A_PLAIN_MAP
        for first, end in _stretches(columns.get(name))
    )


def _stretches(told: object) -> Iterator[tuple[int, int]]:
    """Yield where the stretches of a packed column begin and end."""
    if isinstance(told, list):
        for one in told:
            yield from _stretches(one)
    elif isinstance(told, dict):
        for name, value in told.items():
            if name == "at":
                yield value[0], value[1]
            elif name == "chunks":
                yield from ((chunk[0], chunk[1]) for chunk in value)
            else:
                yield from _stretches(value)
