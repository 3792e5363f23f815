"""How do outlines fit together, and with the area written beside them?"""

from collections.abc import Iterator

import geopandas as gpd
import numpy as np
import pandas as pd
import shapely

from geo.arrays import FloatArray
from geo.errors import Outcome, quoted
from geo.inputs.at import WHOLE_FILE, At, at_column
from geo.inputs.reading import GROUP_FROM, Reading
from geo.texts import phrase

# A piece too small to be driven into, and one narrower than a row of trees (our choice).
LEAST_HECTARES, LEAST_WIDTH_M = 0.01, 3.0
# Neighbouring outlines drawn by hand share a strip; more than this is a question (our choice).
SMALL_SHARE = 0.01
LEAST_OVERLAP_M2 = 1.0
# How far the written area may be off before it is said, and before it is no longer believed.
DOUBTFUL_AREA, WRONG_AREA = 0.05, 0.20  # our choice


def note_overlaps(reading: Reading, outlines: gpd.GeoSeries) -> None:
    """
    Say which blocks lie on each other: both are ranked, and the strip counts twice.

    Parameters
    ----------
    reading : Reading
        The file of outlines.
    outlines : geopandas.GeoSeries
        In metres, by id.
    """
    said = list(_overlaps(outlines))
    fix = phrase("Redraw the line between them, once for both")
    if len(said) >= GROUP_FROM:
        a, b, shared, share = max(said, key=lambda pair: pair[2])
        found = phrase(
            "{count} pairs of blocks overlap, the largest by {shared:.0f} m2: {block} and {other}; "
            "they are ranked all the same",
            count=len(said),
            shared=shared,
            block=quoted(a),
            other=quoted(b),
        )
        outcome = Outcome.HOLD if share > SMALL_SHARE else Outcome.NOTE
        reading.add(outcome, "E-OUTLINE-OVERLAP", WHOLE_FILE, found=found, fix=fix)
        return
    for a, b, shared, share in said:
        numbers = {"other": quoted(b), "shared": shared, "percent": 100 * share}
        found = phrase(
            "overlaps {other} by {shared:.0f} m2, {percent:.2g} % of the smaller: both are ranked",
            **numbers,
        )
        outcome = Outcome.NOTE
        if share > SMALL_SHARE:
            outcome = Outcome.HOLD
            found = phrase(
                "overlaps {other} by {shared:.0f} m2, {percent:.2g} % of the smaller: both are "
                "ranked, and the strip counts in the area of each: keep the two out of sums of "
                "area",
                **numbers,
            )
        reading.add(outcome, "E-OUTLINE-OVERLAP", At(quoted(a)), found=found, fix=fix)


def _overlaps(outlines: gpd.GeoSeries) -> Iterator[tuple[str, str, float, float]]:
    shapes = np.asarray(outlines.array)
    left, right = shapely.STRtree(shapes).query(shapes, predicate="intersects")
    is_pair = left < right
    left, right = left[is_pair], right[is_pair]
    shared = shapely.area(shapely.intersection(shapes[left], shapes[right]))
    smaller = np.minimum(shapely.area(shapes[left]), shapely.area(shapes[right]))
    for place in np.flatnonzero(shared > LEAST_OVERLAP_M2):
        yield (
            str(outlines.index[left[place]]),
            str(outlines.index[right[place]]),
            float(shared[place]),
            float(shared[place] / smaller[place]),
        )


def sliver(geometry: shapely.Geometry) -> str:
    """
    Return why an outline is too small or narrow to be a block; empty if it is not.

    Parameters
    ----------
    geometry : shapely.Geometry
        In metres.

    Returns
    -------
    str
        With the area or the width.

    Examples
    --------
    >>> sliver(shapely.box(0, 0, 9, 9))
    'only 0.0081 ha'
    >>> sliver(shapely.box(0, 0, 2, 500))
    'only 2.0 m wide'
    """
    # Twice the area over the boundary: of a long strip its width, of a square half its side.
    hectares = geometry.area / 10_000.0
    width = 2.0 * geometry.area / geometry.length if geometry.length else 0.0
    if hectares < LEAST_HECTARES:
        return phrase("only {hectares:.2g} ha", hectares=hectares)
    return phrase("only {width:.1f} m wide", width=width) if width < LEAST_WIDTH_M else ""


def note_written_areas(reading: Reading, texts: pd.Series, area: FloatArray) -> None:
    """
    Hold the areas people wrote against those of the outlines.

    Parameters
    ----------
    reading : Reading
        The file of outlines.
    texts : pandas.Series
        As written, in hectares, by id; empty where nothing is.
    area : [ha]
        Of the outlines, on the ellipsoid.
    """
    for (block, text), drawn in zip(texts.items(), area, strict=True):
        if not text:
            continue
        written = float(pd.to_numeric(text.replace(",", "."), errors="coerce"))
        off = abs(written - drawn) / drawn
        if off <= DOUBTFUL_AREA:
            continue
        areas = {"written": quoted(text), "drawn": drawn}
        fix = phrase(
            "Check the outline, and whether roads or dams were counted; then mend one of the two"
        )
        at = at_column("area_ha", of=[block])
        if off <= WRONG_AREA:
            found = phrase(
                "{written} ha is written, {drawn:.2f} ha is drawn: the drawn area is used", **areas
            )
            reading.add(Outcome.NOTE, "E-AREA", at, found=found, fix=fix)
            continue
        found = phrase(
            "{written} ha is written, {drawn:.2f} ha is drawn: the drawn area is used, and what is "
            "written is set aside",
            **areas,
        )
        reading.add(Outcome.HOLD, "E-AREA", at, found=found, fix=fix)
