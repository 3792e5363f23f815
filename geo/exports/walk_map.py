"""The maps of the walk sheet: the way between blocks, and the numbered trees in each block."""

from typing import Any

import numpy as np
import shapely
from shapely.affinity import affine_transform

from geo.arrays import FloatArray
from geo.scouting.stops import COOL, EDGE, LOT
from geo.scouting.walk import Walk, WalkVisit
from geo.season.farm import Farm

# Units of the drawings: on paper one is a quarter of a millimetre.
UNITS_A_MILLIMETRE = 4.0
OVERVIEW = (364.0, 172.0)
MARGIN = 18.0
# Of a block's map, as a share of its height and at most: the margin, and a numbered mark.
MARGIN_SHARE, MARK_SHARE, MARKS = 0.12, 0.1, (12.5, 16.5)
PUSHES = 60  # of marks that lie on each other
SHAPES = {COOL: "disc", EDGE: "square", LOT: "ring"}
# Lengths of a scale bar: the longest that is at most this share of the width.
BARS, LONGEST_BAR = (5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000), 0.3


class _Sheet:
    """From the farm's metres to the units of a drawing, north up."""

    def __init__(
        self, bounds: FloatArray, size: tuple[float, float], *, margin: float = MARGIN
    ) -> None:
        west, south, east, north = bounds
        width, height = max(east - west, 1.0), max(north - south, 1.0)
        self.size = size
        self.scale = min((size[0] - 2 * margin) / width, (size[1] - 2 * margin) / height)
        left = (size[0] - width * self.scale) / 2 - west * self.scale
        top = (size[1] - height * self.scale) / 2 + north * self.scale
        self.matrix = (self.scale, 0.0, 0.0, -self.scale, left, top)

    def drawn(self, shape: shapely.Geometry) -> shapely.Geometry:
        return affine_transform(shape, self.matrix)

    def place(self, east: float, north: float) -> dict[str, float]:
        x, y = shapely.get_coordinates(self.drawn(shapely.Point(east, north)))[0].tolist()
        return {"x": round(x, 1), "y": round(y, 1)}

    def bar(self) -> dict[str, Any]:
        """Return a scale bar of a round length."""
        most = LONGEST_BAR * self.size[0] / self.scale
        metres = max((bar for bar in BARS if bar <= most), default=BARS[0])
        return {"length": round(metres * self.scale, 1), "words": f"{metres} m"}


def overview(farm: Farm, walk: Walk) -> dict[str, Any]:
    """
    Return the drawing of the way from the gate through the blocks and back.

    Parameters
    ----------
    farm : Farm
        Outlines and tracks.
    walk : Walk
        With one block at least.

    Returns
    -------
    dict
        Paths and points in units of the drawing. What the way does not come near is cut off.
    """
    walked = {visit.entry.block: visit.number for visit in walk.visits}
    way = shapely.LineString(walk.way)
    seen = shapely.union_all([way, *farm.blocks.geometry.loc[list(walked)]])
    sheet = _Sheet(np.array(seen.bounds), OVERVIEW)
    frame = shapely.box(0, 0, *OVERVIEW)
    blocks, labels = [], []
    for block, outline in farm.blocks.geometry.items():
        shape = sheet.drawn(outline)
        if not shape.intersects(frame):
            continue
        blocks.append({"path": path_of(shape), "is_walked": block in walked})
        middle = shape.representative_point()
        if block not in walked and shapely.box(12, 8, OVERVIEW[0] - 12, OVERVIEW[1] - 8).contains(
            middle
        ):
            labels.append({"words": block, "x": round(middle.x, 1), "y": round(middle.y, 1)})
    tracks = farm.places.geometry[farm.places["kind"] == "track"]
    return {
        "width": OVERVIEW[0],
        "height": OVERVIEW[1],
        "blocks": blocks,
        "labels": labels,
        "tracks": "".join(path_of(sheet.drawn(track)) for track in tracks),
        "way": path_of(sheet.drawn(way)),
        "visits": [
            {"number": visit.number, "block": visit.entry.block}
            | sheet.place(*_middle(farm, visit))
            for visit in walk.visits
        ],
        "start": sheet.place(*walk.start_place),
        "bar": sheet.bar(),
    }


def inset(farm: Farm, visit: WalkVisit, size: tuple[float, float]) -> dict[str, Any]:
    """
    Return the drawing of a block with its trees.

    Parameters
    ----------
    farm : Farm
        For the outline.
    visit : WalkVisit
        The trees.
    size : tuple of float
        Width and height in units.

    Returns
    -------
    dict
        Paths and points in units of the drawing.
    """
    outline = farm.blocks.geometry.loc[visit.entry.block]
    sheet = _Sheet(np.array(outline.bounds), size, margin=min(MARGIN, MARGIN_SHARE * size[1]))
    mark = float(np.clip(MARK_SHARE * size[1], *MARKS))
    places = [(stop.stop.east, stop.stop.north) for stop in visit.stops]
    true = shapely.get_coordinates(sheet.drawn(shapely.MultiPoint(places)))
    return {
        "width": size[0],
        "height": size[1],
        "radius": round(mark / 2 - 0.75, 1),
        "is_small": mark < MARKS[1],
        "path": path_of(sheet.drawn(outline)),
        "way": path_of(sheet.drawn(shapely.LineString([visit.gate, *places, visit.gate]))),
        "gate": sheet.place(*visit.gate),
        "stops": [
            {"number": stop.number, "shape": SHAPES[stop.stop.kind]}
            | {"x": round(x, 1), "y": round(y, 1), "from": f"{at[0]:.1f},{at[1]:.1f}"}
            for stop, (x, y), at in zip(
                visit.stops,
                pushed_apart(true, size, mark=mark).tolist(),
                true.tolist(),
                strict=True,
            )
        ],
        "bar": sheet.bar(),
    }


def pushed_apart(places: FloatArray, size: tuple[float, float], *, mark: float) -> FloatArray:
    """
    Return where marks can be read: beside their places where they would lie on each other.

    Parameters
    ----------
    places : numpy.ndarray
        Shape (mark, 2), in units.
    size : tuple of float
        Of the drawing, which no mark leaves.
    mark : float
        Width of a mark.

    Returns
    -------
    numpy.ndarray
        Shape (mark, 2).
    """
    found = places.copy()
    # Marks on one spot part along a circle.
    turn = np.arange(len(found)) * 2.4  # the golden angle: no two alike
    found += 1e-3 * np.stack([np.cos(turn), np.sin(turn)], axis=1)
    least, most = np.full(2, mark / 2), np.array(size) - mark / 2
    for _ in range(PUSHES):
        step = found[:, None] - found[None]
        far = np.hypot(step[..., 0], step[..., 1])
        lacking = np.where(far < mark, mark - far, 0.0)
        np.fill_diagonal(lacking, 0.0)
        push = step / np.maximum(far, 1e-9)[..., None] * lacking[..., None] / 2.0
        found = np.clip(found + push.sum(axis=1), least, most)
    return found


def path_of(shape: shapely.Geometry) -> str:
    """
    Return the path data of lines, and of polygons with their holes.

    Parameters
    ----------
    shape : shapely.Geometry
        In units of a drawing.

    Returns
    -------
    str
        Path data; rings are closed.
    """
    found = []
    for part in shapely.get_parts(shape):
        is_area = part.geom_type == "Polygon"
        for line in shapely.get_rings(part) if is_area else (part,):
            corners = shapely.get_coordinates(line)
            words = " ".join(f"{x:.1f},{y:.1f}" for x, y in corners[: -1 if is_area else None])
            found.append(f"M{words}{'Z' if is_area else ''}")
    return "".join(found)


def _middle(farm: Farm, visit: WalkVisit) -> tuple[float, float]:
    point = farm.blocks.geometry.loc[visit.entry.block].representative_point()
    return point.x, point.y
