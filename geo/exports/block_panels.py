"""The strips of a season's drawing that tell of the block: stage, sprays, counts and hazard."""

import numpy as np
import xarray as xr

from geo.comparison.counts import counts_of
from geo.comparison.sprays import sprays_of
from geo.exports import strokes
from geo.exports.page_classes import CLASS_COLOURS
from geo.exports.season_frame import Frame
from geo.exports.season_panel import HEIGHT, TALL, Limits, Mark, Panel, Tick, ticks, with_room
from geo.exports.strokes import Scale
from geo.ranking.classes import CLASS_BREAKS, CLASS_WORDS
from geo.reference.diseases import disease_with
from geo.season.disease import disease_key
from geo.texts import mark, phrase, phrase_of

# Title of the counts, by what is counted.
INFECTED = {
    "panicles": mark("Infected panicles, % (thin: as computed)"),
    "leaves": mark("Infected leaves, % (thin: as computed)"),
    "fruit": mark("Infected fruit, % (thin: as computed)"),
}
LOWEST_HAZARD = 0.01  # drawn on the lower edge: far below the first class


def stages(season: xr.Dataset, place: int, frame: Frame) -> Panel:
    """
    Return the strip of the organ's stages.

    Parameters
    ----------
    season : xarray.Dataset
        Of one disease, ranked.
    place : int
        Of the block.
    frame : Frame
        Its days.

    Returns
    -------
    Panel
        Susceptible share by stage, and the code that most of the organs showed when looked at.
    """
    scale = Scale(0.0, 1.0, HEIGHT)
    seen: dict[int, tuple[float, str]] = {}
    for look in np.flatnonzero(season["portion_block"].values == place).tolist():
        day, code = (
            int(season["portion_day"].values[look]),
            str(season["portion_stage"].values[look]),
        )
        seen[day] = max(
            seen.get(day, (0.0, "")), (float(season["portion_share"].values[look]), code)
        )
    marks = [
        Mark(frame.start(day + 0.5), HEIGHT - 5, code) for day, (_, code) in sorted(seen.items())
    ]
    path = strokes.line(frame.middles(), scale.down(season["stage_susceptibility"].values[place]))
    return Panel(
        phrase("Susceptible by stage (numbers: BBCH seen)"),
        HEIGHT,
        ticks(scale),
        (("stage", path),),
        with_room(marks, letters=3),
    )


def protection(season: xr.Dataset, place: int, frame: Frame) -> Panel:
    """
    Return the strip of what the sprays protect.

    Parameters
    ----------
    season : xarray.Dataset
        Of one disease, ranked.
    place : int
        Of the block.
    frame : Frame
        Its days.

    Returns
    -------
    Panel
        Share still prevented, and each spray of the season's days by its number in the list.
    """
    scale, days = Scale(0.0, 1.0, HEIGHT), frame.middles()
    left = scale.down(season["protection_left"].values[place])
    sprays = [
        (number, spray.day)
        for number, spray in enumerate(sprays_of(season, place), start=1)
        if 0 <= spray.day < frame.count
    ]
    where = np.array([frame.start(day + 0.5) for _, day in sprays])
    marks = [Mark(x, 9, str(number)) for (number, _), x in zip(sprays, where.tolist(), strict=True)]
    return Panel(
        phrase("Protection left (numbers: sprays, see below)"),
        HEIGHT,
        ticks(scale),
        (
            ("kept", strokes.band(days, left, np.full_like(left, HEIGHT))),
            ("keeps", strokes.line(days, left)),
            ("spray", "".join(f"M{x:g} 13V{HEIGHT:g}" for x in where)),
        ),
        with_room(marks, letters=2),
    )


def found(season: xr.Dataset, place: int, frame: Frame, limits: Limits) -> Panel:
    """
    Return the strip of what was counted.

    Parameters
    ----------
    season : xarray.Dataset
        Of one disease, ranked.
    place : int
        Of the block.
    frame : Frame
        Its days.
    limits : Limits
        Of the axes.

    Returns
    -------
    Panel
        Infected share of each look with its interval, and the course as computed.
    """
    scale = Scale(0.0, limits.found, HEIGHT)
    counts = [count for count in counts_of(season, place) if 0 <= count.day < frame.count]
    across = np.array([frame.start(count.day + 0.5) for count in counts])
    share, low, high = (
        scale.down(np.array([getattr(count, part) for count in counts]))
        for part in ("share", "low", "high")
    )
    course = scale.down(season["sporulating"].values[place])
    organ = disease_with(disease_key(season)).organs
    return Panel(
        phrase_of(INFECTED[organ]),
        HEIGHT,
        tuple(
            Tick(tick.y, f"{value * 100:.0f}")
            for tick, value in zip(ticks(scale), (0.0, limits.found), strict=True)
        ),
        (
            ("course", strokes.line(frame.middles(), course)),
            ("interval", strokes.spans(across, high, low, cap=3)),
            ("count", strokes.dots(across, share, radius=3.5)),
        ),
    )


def hazard(season: xr.Dataset, place: int, frame: Frame, limits: Limits) -> Panel:
    """
    Return the strip of the hazard, over its classes.

    Parameters
    ----------
    season : xarray.Dataset
        Of one disease, ranked.
    place : int
        Of the block.
    frame : Frame
        Its days.
    limits : Limits
        Of the axes.

    Returns
    -------
    Panel
        On a logarithmic axis: equal ratios are equally far apart.
    """
    scale = Scale(LOWEST_HAZARD, limits.hazard, TALL, is_log=True)
    edges = scale.down(np.array([LOWEST_HAZARD, *CLASS_BREAKS, limits.hazard])).round(1).tolist()
    fields = list(zip(CLASS_COLOURS, CLASS_WORDS, edges[1:], edges[:-1], strict=True))
    path = strokes.line(frame.middles(), scale.down(season["hazard"].values[place]))
    return Panel(
        phrase("Hazard index, in its classes"),
        TALL,
        tuple(Tick(y, f"{value:g}") for y, value in zip(edges[1:-1], CLASS_BREAKS, strict=True)),
        (("halo", path), ("hazard", path)),
        bands=tuple((colour, top, end - top) for colour, _, top, end in fields),
        words=tuple(Tick((top + end) / 2, phrase_of(word)) for _, word, top, end in fields),
    )
