"""The small map of the day sheet: numbered blocks, tracks, water, the shed and the way."""

from itertools import pairwise
from math import ceil, hypot, log10
from typing import Any

import geopandas as gpd
import numpy as np
import shapely
from shapely.affinity import affine_transform

from geo.arrays import FloatArray
from geo.exports.outlines import inside_circles
from geo.exports.sheet_words import shown
from geo.rounds.day_round import SprayerDay
from geo.season.farm import Farm
from geo.texts import mark

# Units of the drawing; on paper one is a quarter of a millimetre.
WIDTH, HEIGHT, MARGIN = 352.0, 262.0, 14.0
# Where the sprayer goes to, and what it must keep away from.
POINTS = {
    "water": mark("water"),
    "shed": mark("shed"),
    "gate": mark("gate"),
    "house": mark("house"),
    "hive": mark("hives"),
    "hives": mark("hives"),
}
ARROW_EVERY, ARROW_LEAST = 70.0, 12.0
SHORTEST_BAR = 60.0
_STEPS = (1, 2, 5)


def sheet_map(farm: Farm, sprayer: SprayerDay) -> dict[str, Any]:
    """
    Return the drawing of a sprayer's way.

    Parameters
    ----------
    farm : Farm
        Outlines and places.
    sprayer : SprayerDay
        Its stops and its way.

    Returns
    -------
    dict
        Paths and points in the units of the drawing, north up. It shows what the way crosses and
        the blocks it stops at; of a large farm the rest is cut off.
    """
    way = _metres(farm, sprayer.path)
    numbers: dict[str, list[int]] = {}
    for stop in sprayer.stops:
        numbers.setdefault(stop.block, []).append(stop.number)
    matrix = _matrix(farm, way, list(numbers))
    frame = shapely.box(0, 0, WIDTH, HEIGHT)
    drawn = farm.blocks.geometry.map(lambda shape: affine_transform(shape, matrix))
    drawn = drawn[drawn.intersects(frame)]
    middles = inside_circles(drawn)
    bar = _bar(matrix[0])
    points = _points(farm.places, matrix, frame)
    drawn_way = np.column_stack([way, np.ones(len(way))]) @ _columns(matrix)
    return {
        "width": WIDTH,
        "height": HEIGHT,
        "blocks": [
            {"path": _path(shape), "is_stop": block in numbers}
            for block, shape in zip(map(str, drawn.index), drawn, strict=True)
        ],
        "labels": [
            {"x": round(float(x), 1), "y": round(float(y), 1)} | _label(block, numbers)
            for block, (x, y, _) in zip(map(str, drawn.index), middles, strict=True)
            if shapely.box(4, 4, WIDTH - 4, HEIGHT - 4).contains(shapely.Point(x, y))
        ],
        "tracks": _tracks(farm.places, matrix, frame),
        "points": points,
        "kinds": list(dict.fromkeys(point["kind"] for point in points)),
        "way": _line(drawn_way),
        "arrows": _arrows(drawn_way),
        "bar": {"length": round(bar * matrix[0], 1), "words": f"{bar:.0f} m"},
    }


def _matrix(farm: Farm, way: FloatArray, blocks: list[str]) -> list[float]:
    """Return how metres become units of the drawing: the way and its blocks just fill it."""
    known = [_bounds(way), farm.blocks.loc[blocks].total_bounds]
    # Where there is neither a way nor a stop, the whole farm is shown.
    frames = [frame for frame in known if np.isfinite(frame).all()] or [farm.blocks.total_bounds]
    west, south = np.min(frames, axis=0)[:2].tolist()
    east, north = np.max(frames, axis=0)[2:].tolist()
    wide, high = max(east - west, 1.0), max(north - south, 1.0)
    scale = min((WIDTH - 2 * MARGIN) / wide, (HEIGHT - 2 * MARGIN) / high)
    left, top = (WIDTH - (east - west) * scale) / 2, (HEIGHT - (north - south) * scale) / 2
    return [scale, 0.0, 0.0, -scale, left - west * scale, top + north * scale]


def _metres(farm: Farm, path: tuple[tuple[float, float], ...]) -> FloatArray:
    if not path:
        return np.empty((0, 2))
    points = gpd.GeoSeries(shapely.points(np.array(path)), crs=4326).to_crs(farm.crs)
    corners: FloatArray = shapely.get_coordinates(points.values)
    return corners


def _bounds(points: FloatArray) -> FloatArray:
    if not len(points):
        return np.full(4, np.nan)
    return np.concatenate([points.min(axis=0), points.max(axis=0)])


def _columns(matrix: list[float]) -> FloatArray:
    a, b, d, e, x, y = matrix
    return np.array([[a, d], [b, e], [x, y]])


def _label(block: str, numbers: dict[str, list[int]]) -> dict[str, str]:
    found = numbers.get(block)
    if not found:
        return {"number": "", "id": shown(block)}
    # A block sprayed from several tanks has a number for each.
    return {"number": "·".join(map(str, found)), "id": shown(block)}


def _path(outline: shapely.Geometry) -> str:
    rings = shapely.get_rings(shapely.get_parts(outline))
    return "".join(f"{_line(shapely.get_coordinates(ring)[:-1])}Z" for ring in rings)


def _line(corners: FloatArray) -> str:
    return "M" + " ".join(f"{x:.1f},{y:.1f}" for x, y in corners) if len(corners) else ""


def _tracks(places: gpd.GeoDataFrame, matrix: list[float], frame: shapely.Polygon) -> list[str]:
    lines = places.geometry[places["kind"] == "track"]
    cut = [shapely.intersection(affine_transform(line, matrix), frame) for line in lines]
    return [
        _line(shapely.get_coordinates(part))
        for line in cut
        for part in shapely.get_parts(line)
        if part.geom_type == "LineString"
    ]


def _points(
    places: gpd.GeoDataFrame, matrix: list[float], frame: shapely.Polygon
) -> list[dict[str, Any]]:
    found = []
    for kind, shape in zip(places["kind"], places.geometry, strict=True):
        point = affine_transform(shape.representative_point(), matrix)
        if kind in POINTS and frame.contains(point):
            at = {"x": round(point.x, 1), "y": round(point.y, 1)}
            found.append({"kind": POINTS[kind]} | at)
    return found


def _arrows(way: FloatArray) -> list[dict[str, float]]:
    """Return a head on the way every now and then: where it is, and where it points."""
    heads: list[dict[str, float]] = []
    since = ARROW_EVERY / 2
    for (x, y), (to_x, to_y) in pairwise(way):
        length = hypot(to_x - x, to_y - y)
        since += length
        if since >= ARROW_EVERY and length >= ARROW_LEAST:
            turn = float(np.degrees(np.arctan2(to_y - y, to_x - x)))
            middle = {"x": round((x + to_x) / 2, 1), "y": round((y + to_y) / 2, 1)}
            heads.append(middle | {"turn": round(turn, 1)})
            since = 0.0
    return heads


def _bar(scale: float) -> float:
    """Return the metres of the scale bar: 1, 2 or 5 of a power of ten, no shorter than a thumb."""
    least = SHORTEST_BAR / scale
    power = 10.0 ** ceil(log10(least) - 1)
    return next((step * power for step in _STEPS if step * power >= least), 10 * power)
