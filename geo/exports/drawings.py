"""Our own drawings of what to look for on panicle, leaf, blossom and fruit."""

from dataclasses import dataclass
from functools import cache

import numpy as np
import shapely

from geo.arrays import FloatArray
from geo.exports.drawing_pens import (
    along,
    bezier,
    dots,
    filled,
    flowers,
    path,
    powder,
    spot,
    strokes,
    tubes,
)
from geo.exports.drawing_plants import Leaf, leaf, panicle
from geo.texts import mark

SHEET = "0 0 120 150"
POWDERED, BLACKENED = frozenset({0, 2, 3, 4, 6, 8, 10}), frozenset({1, 4, 5, 8, 9, 11})
MIDDLE_OF_AXIS, AXIS_POWDERED = 86.0, 26.0
ILL_TWIGS, FLECKED_FLOWERS = 0.8, 0.2  # shares
RIMMED = 4.0  # smaller spots are drawn without the bright edge of a hollow
FALLEN = np.array([[96.0, 128.0], [24.0, 140.0], [84.0, 142.0], [104.0, 113.0], [38.0, 131.0]])
SUNKEN = (
    (70, 42, 6.5), (82, 51, 4.2), (62, 53, 3.2), (77, 67, 8.2), (91, 71, 3.6), (61, 87, 5.2),
    (85, 93, 4.4), (70, 113, 3.4), (24, 78, 3.4), (67, 34, 2.6),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Drawing:
    """
    A picture for the sheet.

    Attributes
    ----------
    disease : str
        Key of the disease it shows.
    title : str
        What it is, in English.
    words : str
        What to look for, in English.
    markup : str
        Inside of an SVG element.
    """

    disease: str
    title: str
    words: str
    markup: str


@cache
def drawings() -> tuple[Drawing, ...]:
    """
    Return the pictures.

    Returns
    -------
    tuple of Drawing
        One for each disease on its organ; the same each time.
    """
    return (
        Drawing(
            "panicle_mildew",
            mark("Powdery mildew on a panicle"),
            mark(
                "White powder on stalks and flowers; they turn brown and drop. Right: still clean."
            ),
            _powdered_panicle(np.random.default_rng(11)),
        ),
        Drawing(
            "leaf_mildew",
            mark("Powdery mildew on a young leaf"),
            mark("White powder, often along the midrib and on the underside."),
            _powdered_leaf(np.random.default_rng(3)),
        ),
        Drawing(
            "blossom_anthracnose",
            mark("Anthracnose on blossom"),
            mark("Black flecks and streaks on stalks; flowers blacken and fall."),
            _blackened_panicle(np.random.default_rng(5)),
        ),
        Drawing(
            "fruit_anthracnose",
            mark("Anthracnose on fruit"),
            mark("Black sunken spots that run together; tear stains down from the stalk."),
            _spotted_fruit(np.random.default_rng(9)),
        ),
    )


def _powdered_panicle(chance: np.random.Generator) -> str:
    plant = panicle(np.random.default_rng(7))
    ill = [plant.branches[number] for number in sorted(POWDERED)]
    well = [branch for number, branch in enumerate(plant.branches) if number not in POWDERED]
    open_flowers = np.concatenate([plant.axis[-1:], *(branch.flowers for branch in well)])
    axis = along(plant.axis, 1.6)
    on = [(axis[np.abs(axis[:, 1] - MIDDLE_OF_AXIS) < AXIS_POWDERED], 1.6, 2.6)]
    for branch in ill:
        on.append((along(branch.line, 1.5)[3:], 1.0, 1.9))
        on += [(along(twig, 1.5), 0.8, 1.5) for twig in branch.twigs]
        on.append((branch.flowers, 1.9, 2.6))
    points = np.concatenate([part for part, _, _ in on])
    radius = np.concatenate([chance.uniform(low, high, len(part)) for part, low, high in on])
    tufts = powder(points + chance.normal(0.0, 0.5, points.shape), radius, chance)
    return tubes(plant.stems) + flowers(open_flowers, "open", chance) + tufts


def _blackened_panicle(chance: np.random.Generator) -> str:
    plant = panicle(np.random.default_rng(7))
    left = [plant.axis[-1:]]
    black = [
        _streak(plant.axis, place, (chance.uniform(3.0, 5.5), 1.7), chance)
        for place in (12, 18, 28, 31, 42)
    ]
    for number, branch in enumerate(plant.branches):
        is_ill = (number in BLACKENED) & (chance.random(len(branch.twigs)) < ILL_TWIGS)
        left.append(branch.flowers[~is_ill])
        if number not in BLACKENED:
            continue
        black += [
            _streak(branch.line, place, (chance.uniform(2.0, 4.5), 1.3), chance)
            for place in chance.integers(4, 22, 3)
        ]
        # Of two blackened flowers one is still there; of most twigs the end is black.
        hanging = branch.flowers[is_ill][::2]
        black += [spot(flower, (1.9, 1.3), chance.uniform(0, 3), chance) for flower in hanging]
        black += [
            _streak(along(twig, 1.0), 2, (2.2, 0.9), chance)
            for twig, ill in zip(branch.twigs, is_ill, strict=True)
            if ill
        ]
    still = np.concatenate(left)
    flecks = still[chance.random(len(still)) < FLECKED_FLOWERS] + chance.normal(0.0, 0.8, 2)
    black += [spot(fleck, (1.1, 0.8), chance.uniform(0, 3), chance) for fleck in flecks]
    black += [spot(flower, (1.9, 1.2), chance.uniform(0, 3), chance) for flower in FALLEN]
    return tubes(plant.stems) + flowers(still, "left", chance) + filled(black)


def _powdered_leaf(chance: np.random.Generator) -> str:
    behind = leaf(bezier((50, 11), (86, 12), (106, 44), (113, 98), count=80), 12.0)
    before = leaf(bezier((41, 12), (33, 54), (52, 98), (59, 147), count=80), 20.0)
    patches = ((9, 30, 0.0, 0.5), (26, 44, -0.3, 0.45), (40, 60, 0.25, 0.5), (58, 68, 0.0, 0.3))
    found = []
    for first, last, side, reach in patches:
        many = round((last - first) * 3.4)
        aside = np.clip(side + chance.normal(0.0, reach / 2, many), -0.88, 0.88)
        found.append(before.at(chance.integers(first, last, many), aside))
    points = np.concatenate(found)
    tufts = powder(points, chance.uniform(0.9, 2.1, len(points)), chance)
    stalk = (bezier((3, 4), (22, 7), (44, 4), (66, 12)), 3.2)
    return (
        _blade(behind)
        + _blade(before)
        + tufts
        + tubes([(before.midrib[: len(before.midrib) - 6], 1.4), stalk])
    )


def _blade(of: Leaf) -> str:
    return (
        f'<path d="{path(of.outline)}Z" fill="#fff" stroke="#000" stroke-width=".9"/>'
        + strokes(of.veins, 0.4)
        + strokes([of.midrib], 0.9)
    )


def _spotted_fruit(chance: np.random.Generator) -> str:
    outline = np.concatenate(
        [
            bezier((58, 26), (88, 22), (108, 52), (104, 86)),
            bezier((104, 86), (100, 122), (76, 143), (54, 140)),
            bezier((54, 140), (40, 138), (35, 129), (30, 119)),
            bezier((30, 119), (15, 97), (10, 66), (22, 46)),
            bezier((22, 46), (30, 32), (44, 28), (58, 26)),
        ]
    )
    body = shapely.Polygon(outline)
    pores = chance.uniform((12, 30), (104, 138), (260, 2))
    pores = pores[shapely.contains(body.buffer(-4.0), shapely.points(pores))]
    tear = bezier((51, 30), (36, 54), (34, 84), (46, 124), count=60)
    place = chance.integers(0, 60, 150)
    wide = 1.4 + 2.4 * place / 60
    stain = tear[place] + chance.normal(0.0, 1.0, (150, 2)) * np.stack([wide, wide * 0 + 1.2], 1)
    black = [spot(at, (size, size * 0.8), 0.0, chance) for at, size in zip(
        stain, chance.uniform(0.35, 1.15, 150), strict=True
    )]  # fmt: skip
    black += [
        spot(np.array([x, y]), (size, size * 0.86), chance.uniform(0, 3), chance)
        for x, y, size in SUNKEN
    ]
    rims = [_rim(x, y, size * 0.6) for x, y, size in SUNKEN if size > RIMMED]
    stalk = (bezier((58, 28), (57, 19), (53, 11), (45, 3)), 3.4)
    return (
        f'<path d="{path(outline)}Z" fill="#fff" stroke="#000" stroke-width="1.1"/>'
        + _shading(body)
        + dots(pores, 0.5)
        + filled(black)
        + strokes(rims, 0.6, "#fff")
        + tubes([stalk])
        + strokes([bezier((46, 30), (52, 24), (64, 23), (71, 29), count=12)], 0.8)
    )


def _shading(body: shapely.Polygon) -> str:
    """Return lines along the right side, which round the fruit."""
    drawn = []
    for number, inwards in enumerate((3.0, 6.0, 9.5, 13.5)):
        ring = shapely.get_coordinates(body.buffer(-inwards).exterior)
        x, y = ring.T
        side = ring[(x > 72 + 2 * number) & (y > 58 + 6 * number) & (y < 132 - 5 * number)]
        # Broken lines: each gap a little longer than the one before.
        steps = along(side[np.argsort(side[:, 1])], 1.0)
        dashes = [steps[first : first + 8 - number] for first in range(0, len(steps), 10)]
        drawn.append(strokes(dashes, 0.55 - 0.07 * number))
    return "".join(drawn)


def _rim(x: float, y: float, radius: float) -> FloatArray:
    """Return the edge of a hollow that light from the upper left falls on."""
    turn = np.linspace(0.0, np.pi * 0.7, 10)
    return np.stack([x + radius * np.cos(turn), y + 0.86 * radius * np.sin(turn)], axis=1)


def _streak(
    line: FloatArray, place: int, size: tuple[float, float], chance: np.random.Generator
) -> str:
    ahead = line[place + 1] - line[place]
    return spot(line[place], size, float(np.arctan2(ahead[1], ahead[0])), chance)
