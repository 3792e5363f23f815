"""Where the made blocks, neighbours, tracks and gates lie, and what is planted."""

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from layers_demo.valley_place import Numbers, map_to_degrees, valley_to_map

STEP = 45.0  # m between corners of an outline
STATION_ALONG, STATION_ACROSS = 905.0, 402.0

# (id, name, cultivar, planted, mildew seen last season, along from, to, across from, to), metres.
# Blocks that share a number share an edge; a gap of 10 to 16 m between two is a track.
Row = tuple[str, str, str, int, int, float, float, float, float]
BLOCKS: list[Row] = [
    ("B01", "Lower flat", "Keitt", 1996, 1, 80, 300, -165, -12),
    ("B02", "Pond flat", "Kent", 2001, 1, 312, 545, -170, -12),
    ("B03", "Reed flat", "Haden", 1988, 1, 557, 760, -160, -12),
    ("B04", "River flat", "Keitt 60, Kent 40", 2005, 0, 150, 390, 2, 162),
    ("B05", "Middle flat", "Tommy Atkins", 1999, 0, 390, 640, 2, 162),
    ("B06", "Long flat", "Alphonso", 1992, 1, 652, 900, 2, 165),
    ("B07", "Upper flat", "Tommy Atkins", 2008, 0, 912, 1120, 2, 150),
    ("B08", "Bench one", "Kensington Pride", 2003, 0, 120, 330, 385, 520),
    ("B09", "Bench two", "Kent", 1998, 0, 342, 540, 380, 530),
    ("B10", "Bowl", "Haden 70, Irwin 30", 1990, 1, 552, 735, 390, 550),
    ("B11", "Bowl rim", "Keitt", 2010, 0, 735, 880, 390, 550),
    ("B12", "Weather bench", "Sensation", 2006, 0, 935, 1130, 385, 530),
    ("B13", "East bench", "Tommy Atkins 50, Keitt 50", 2012, 0, 1142, 1350, 380, 500),
    ("B14", "Terrace one", "Nam Dok Mai", 2015, 1, 200, 420, 534, 670),
    ("B15", "Terrace two", "Kent", 1995, 0, 432, 560, 562, 690),
    ("B16", "Terrace three", "Irwin", 2009, 0, 572, 800, 564, 680),
    ("B17", "Terrace four", "Keitt", 2002, 0, 812, 1040, 564, 680),
    ("B18", "East hollow", "Kent 65, Haden 35", 1993, 1, 1230, 1430, 512, 640),
    ("B19", "Shoulder west", "Tommy Atkins", 2014, 0, 330, 570, 704, 830),
    ("B20", "Shoulder middle", "Kensington Pride", 2017, 0, 582, 800, 692, 810),
    ("B21", "Shoulder east", "Sensation", 2011, 0, 812, 1060, 692, 800),
    ("B22", "South spur one", "Alphonso 50, Kent 30, Haden 20", 2000, 1, 230, 450, -560, -405),
    ("B23", "South spur two", "Keitt", 2007, 0, 462, 690, -558, -402),
    ("B24", "South spur three", "Nam Dok Mai", 2019, 0, 690, 930, -558, -402),
]
NEIGHBOURS: list[tuple[str, str, str, float, float, float, float]] = [
    ("N1", "Untended trees down the valley", "known", -170, 40, 12, 190),
    ("N2", "Tended orchard up the valley", "unknown", 1160, 1400, 15, 200),
]
PLACES: list[tuple[str, str, list[tuple[float, float]]]] = [
    ("track", "Valley track", [(-190, -5), (150, -5), (400, -5), (650, -5), (906, -4), (1150, 0)]),
    ("track", "Bank road", [(646, -5), (646, 90), (646, 180), (690, 290), (738, 345), (743, 377)]),
    (
        "track",
        "Bench track",
        [(110, 373), (336, 367), (560, 373), (743, 377), (907, 380), (1360, 370)],
    ),
    ("track", "Terrace track", [(546, 375), (546, 552), (566, 558), (566, 690), (576, 820)]),
    ("track", "Spur track", [(306, -5), (306, -200), (380, -330), (456, -392), (456, -560)]),
    ("gate", "West gate", [(-190, -5)]),
    ("gate", "East gate", [(1150, 0)]),
    ("gate", "Bench gate", [(1360, 370)]),
    ("shed", "Sprayer shed", [(752, 366)]),
    ("water", "Filling point", [(646, 195)]),
    ("house", "Pickers' house", [(830, -230)]),
    ("hive", "Hives", [(120, 262)]),
    ("station", "Weather station", [(STATION_ALONG, STATION_ACROSS)]),
    ("track", "Shoulder track", [(210, 684), (330, 697), (566, 696), (576, 686), (1070, 686)]),
    ("track", "Hollow track", [(1360, 370), (1358, 506), (1215, 506)]),
    ("track", "Rim track", [(456, -392), (690, -394), (935, -394)]),
]


def block_outlines() -> list[BaseGeometry]:
    """
    Return the outlines of the blocks in the map system, in the order of ``BLOCKS``.

    Returns
    -------
    list of shapely geometry
        One has a pond in it, one lies on both sides of a track, one leaves out a gully.
    """
    outlines: dict[str, BaseGeometry] = {row[0]: _outline(*row[5:]) for row in BLOCKS}
    outlines["B02"] = outlines["B02"].difference(_oval(425, -95, 36, 21))
    outlines["B09"] = outlines["B09"].difference(_track([(438, 370), (446, 540)], 11.0))
    outlines["B21"] = outlines["B21"].difference(_oval(935, 815, 30, 62))
    return [outlines[row[0]] for row in BLOCKS]


def neighbour_outlines() -> list[BaseGeometry]:
    """
    Return the outlines of the neighbours in the map system.

    Returns
    -------
    list of shapely geometry
        In the order of ``NEIGHBOURS``.
    """
    return [_outline(*row[3:]) for row in NEIGHBOURS]


def place_geometries() -> list[BaseGeometry]:
    """
    Return tracks as lines and everything else as points, in the map system.

    Returns
    -------
    list of shapely geometry
        In the order of ``PLACES``.
    """
    geometries: list[BaseGeometry] = []
    for _, _, spots in PLACES:
        corners = _on_map(np.array(spots, dtype=float))
        geometries.append(shapely.LineString(corners) if len(spots) > 1 else shapely.Point(corners))
    return geometries


def in_degrees(geometry: BaseGeometry) -> BaseGeometry:
    """
    Return a geometry in longitude and latitude, wound as RFC 7946 asks.

    Parameters
    ----------
    geometry : shapely geometry
        In the map system.

    Returns
    -------
    shapely geometry
        Outer rings run against the clock.
    """

    def turned(corners: Numbers) -> Numbers:
        return np.column_stack(map_to_degrees(corners[:, 0], corners[:, 1]))

    return shapely.orient_polygons(shapely.transform(geometry, turned))


def _outline(
    along_from: float, along_to: float, across_from: float, across_to: float
) -> BaseGeometry:
    along = np.linspace(along_from, along_to, 1 + round((along_to - along_from) / STEP))
    across = np.linspace(across_from, across_to, 1 + round((across_to - across_from) / STEP))
    low, high = np.full_like(along, across_from), np.full_like(along, across_to)
    left, right = np.full_like(across, along_from), np.full_like(across, along_to)
    ring = np.concatenate(
        [
            np.column_stack([along, low]),
            np.column_stack([right, across])[1:],
            np.column_stack([along, high])[::-1][1:],
            np.column_stack([left, across])[::-1][1:-1],
        ]
    )
    return shapely.Polygon(_on_map(ring))


def _oval(along: float, across: float, length: float, width: float) -> BaseGeometry:
    turn = np.linspace(0.0, 2.0 * np.pi, 16, endpoint=False)
    ring = np.column_stack([along + length * np.cos(turn), across + width * np.sin(turn)])
    return shapely.Polygon(_on_map(ring))


def _track(spots: list[tuple[float, float]], width: float) -> BaseGeometry:
    return shapely.LineString(_on_map(np.array(spots, dtype=float))).buffer(width / 2.0)


def _on_map(spots: Numbers) -> Numbers:
    return np.column_stack(valley_to_map(spots[:, 0], spots[:, 1]))
