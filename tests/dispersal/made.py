"""Made orchards: clustered rectangles with points that stand for them."""

import numpy as np

CORNER_X, CORNER_Y = np.array([-1, 1, 1, -1]) / 2, np.array([-1, -1, 1, 1]) / 2
MIDDLES = (np.arange(4) + 0.5) / 4 - 0.5


def rectangles(middle: np.ndarray, width: np.ndarray, height: np.ndarray) -> dict[str, object]:
    """Return what `exchange_between` takes, for upright rectangles that are all blocks."""
    count = len(middle)
    x = middle[:, :1] + width[:, None] * CORNER_X
    y = middle[:, 1:] + height[:, None] * CORNER_Y
    east, north = (part.ravel() for part in np.meshgrid(MIDDLES, MIDDLES))
    points = (
        (middle[:, :1] + width[:, None] * east).ravel(),
        (middle[:, 1:] + height[:, None] * north).ravel(),
    )
    edges = (x, y, np.roll(x, -1, axis=1), np.roll(y, -1, axis=1))
    return {
        "points": points,
        "point_block": np.repeat(np.arange(count), east.size),
        "point_share": np.full(count * east.size, 1 / east.size),
        "edges": tuple(side.ravel() for side in edges),
        "edge_source": np.repeat(np.arange(count), 4),
        "counts": (count, count),
    }


def clustered(count: int, *, seed: int = 0) -> dict[str, object]:
    """Return blocks in clusters with a tenth of them alone, a hundred on 2.8 km by 2.8 km."""
    chance = np.random.default_rng(seed)
    side = 40_000.0 * np.sqrt(count / 20_000)
    clusters = chance.uniform(0, side, (max(1, count // 100), 2))
    middle = clusters[chance.integers(0, len(clusters), count)] + chance.normal(0, 700, (count, 2))
    is_alone = chance.random(count) < 0.1
    middle[is_alone] = chance.uniform(0, side, (is_alone.sum(), 2))
    return rectangles(middle, *chance.uniform(60, 180, (2, count)))
