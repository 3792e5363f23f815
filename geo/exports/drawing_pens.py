"""What our line drawings are drawn with: tubes, powder, spots, dots. Black and white only."""

from collections.abc import Iterable, Sequence

import numpy as np

from geo.arrays import FloatArray

INK = 0.9  # of the outlines; all sizes here are of a sheet of 120 by 150
POWDER_INK = 0.7
ROUND = 'fill="none" stroke-linecap="round" stroke-linejoin="round"'
DOTS_ON_POWDER = 0.3  # a square unit
FINE_DOTS = 0.75  # share of them
PETALS = 5
TURNS = 4  # flowers that are drawn: the same one, turned

Tube = tuple[FloatArray, float]


def bezier(*corners: tuple[float, float] | FloatArray, count: int = 40) -> FloatArray:
    """
    Return points along a cubic curve.

    Parameters
    ----------
    *corners : tuple or numpy.ndarray
        Start, two handles, end.
    count : int
        Points.

    Returns
    -------
    numpy.ndarray
        Shape (point, 2).
    """
    start, one, two, end = (np.asarray(corner, dtype=float) for corner in corners)
    at = np.linspace(0.0, 1.0, count)[:, None]
    points: FloatArray = (
        start * (1 - at) ** 3
        + 3 * one * at * (1 - at) ** 2
        + 3 * two * at**2 * (1 - at)
        + end * at**3
    )
    return points


def along(line: FloatArray, step: float) -> FloatArray:
    """
    Return points in equal steps along a line.

    Parameters
    ----------
    line : numpy.ndarray
        Shape (point, 2).
    step : float
        About how far apart.

    Returns
    -------
    numpy.ndarray
        Shape (point, 2), with both ends.
    """
    until = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])
    at = np.linspace(0.0, until[-1], max(1, round(until[-1] / step)) + 1)
    return np.stack([np.interp(at, until, line[:, axis]) for axis in (0, 1)], axis=1)


def path(line: FloatArray) -> str:
    """
    Return a line as path data.

    Parameters
    ----------
    line : numpy.ndarray
        Shape (point, 2).

    Returns
    -------
    str
        Such as ``M1,2L3,4``.
    """
    return "M" + "L".join(f"{x:.1f},{y:.1f}" for x, y in line)


def strokes(lines: Iterable[FloatArray], width: float, colour: str = "#000") -> str:
    """
    Return lines drawn with a pen.

    Parameters
    ----------
    lines : iterable of numpy.ndarray
        Each of shape (point, 2).
    width : float
        Of the pen.
    colour : str
        Of the ink.

    Returns
    -------
    str
        Markup.
    """
    data = "".join(map(path, lines))
    return f'<path d="{data}" {ROUND} stroke="{colour}" stroke-width="{width:.2f}"/>'


def tubes(stems: Sequence[Tube]) -> str:
    """
    Return stems in outline: white inside, and open where they branch.

    Parameters
    ----------
    stems : sequence of tuple
        Line and thickness of each.

    Returns
    -------
    str
        Markup.
    """
    widths = sorted({width for _, width in stems})
    alike = {width: [line for line, own in stems if own == width] for width in widths}
    black = [strokes(alike[width], width + INK) for width in widths]
    return "".join(black + [strokes(alike[width], width, "#fff") for width in widths])


def dots(points: FloatArray, width: float, colour: str = "#000") -> str:
    """
    Return round dots.

    Parameters
    ----------
    points : numpy.ndarray
        Shape (point, 2).
    width : float
        Their diameter.
    colour : str
        Of the ink.

    Returns
    -------
    str
        Markup: strokes without length, the shortest way to write many dots.
    """
    data = "".join(f"M{x:.1f},{y:.1f}h0" for x, y in points)
    return f'<path d="{data}" {ROUND} stroke="{colour}" stroke-width="{width:.2f}"/>'


def powder(points: FloatArray, radius: FloatArray, chance: np.random.Generator) -> str:
    """
    Return powder: white tufts that run into each other, stippled.

    Parameters
    ----------
    points : numpy.ndarray
        Middle of each tuft, shape (tuft, 2).
    radius : numpy.ndarray
        Shape (tuft,); rounded to half units.
    chance : numpy.random.Generator
        Seeded.

    Returns
    -------
    str
        Markup.
    """
    sizes = np.maximum(np.round(radius * 2), 1.0) / 2
    found = np.unique(sizes).tolist()
    drawn = [dots(points[sizes == size], 2 * size + POWDER_INK) for size in found]
    drawn += [dots(points[sizes == size], 2 * size, "#fff") for size in found]
    count = chance.poisson(DOTS_ON_POWDER * np.pi * sizes**2)
    middle, reach = np.repeat(points, count, axis=0), np.repeat(sizes, count)
    turn = chance.uniform(0.0, 2 * np.pi, reach.size)
    far = (reach * np.sqrt(chance.random(reach.size)))[:, None]
    grain = middle + far * np.stack([np.cos(turn), np.sin(turn)], axis=1)
    is_fine = chance.random(len(grain)) < FINE_DOTS
    return "".join([*drawn, dots(grain[is_fine], 0.45), dots(grain[~is_fine], 0.8)])


def spot(
    middle: FloatArray, size: tuple[float, float], turn: float, chance: np.random.Generator
) -> str:
    """
    Return the path data of a spot with an uneven edge.

    Parameters
    ----------
    middle : numpy.ndarray
        Where.
    size : tuple of float
        Half its length and half its width.
    turn : float
        Radians.
    chance : numpy.random.Generator
        Seeded.

    Returns
    -------
    str
        Path data, closed.
    """
    corners = 9
    angle = np.arange(corners) * 2 * np.pi / corners
    ragged = chance.uniform(0.75, 1.2, corners)
    x, y = np.cos(angle) * size[0] * ragged, np.sin(angle) * size[1] * ragged
    cos, sin = np.cos(turn), np.sin(turn)
    edge = middle + np.stack([x * cos - y * sin, x * sin + y * cos], axis=1)
    between = (edge + np.roll(edge, -1, axis=0)) / 2
    pieces = "".join(
        f"Q{a:.1f},{b:.1f} {c:.1f},{d:.1f}"
        for (a, b), (c, d) in zip(edge.tolist(), between.tolist(), strict=True)
    )
    return f"M{between[-1][0]:.1f},{between[-1][1]:.1f}{pieces}Z"


def filled(data: Iterable[str]) -> str:
    """
    Return closed path data filled with black.

    Parameters
    ----------
    data : iterable of str
        Of each shape.

    Returns
    -------
    str
        Markup.
    """
    return f'<path d="{"".join(data)}"/>'


def flowers(points: FloatArray, name: str, chance: np.random.Generator) -> str:
    """
    Return open flowers of five petals.

    Parameters
    ----------
    points : numpy.ndarray
        Shape (flower, 2).
    name : str
        Begins the ids of the shapes, which must be its own on the page.
    chance : numpy.random.Generator
        Seeded.

    Returns
    -------
    str
        Markup.
    """
    petal = '<ellipse cx="1.9" rx="1.55" ry="1.05" transform="rotate({})"/>'
    shapes = [
        f'<g id="{name}{turn}">'
        + "".join(
            petal.format(round(360 / PETALS * (place + turn / TURNS))) for place in range(PETALS)
        )
        + '<circle r=".6" fill="#000" stroke="none"/></g>'
        for turn in range(TURNS)
    ]
    used = [
        f'<use href="#{name}{chance.integers(TURNS)}" x="{x:.1f}" y="{y:.1f}"/>' for x, y in points
    ]
    return (
        f'<defs>{"".join(shapes)}</defs><g fill="#fff" stroke="#000" stroke-width=".5">'
        f"{''.join(used)}</g>"
    )
