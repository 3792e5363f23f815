"""The strips of a season's drawing that tell of the weather."""

import numpy as np
import xarray as xr

from geo.exports import strokes
from geo.exports.season_frame import Frame
from geo.exports.season_panel import HEIGHT, Limits, Panel, ticks
from geo.exports.strokes import Scale
from geo.texts import phrase


def air(season: xr.Dataset, place: int, frame: Frame, limits: Limits) -> Panel:
    """
    Return the strip of the block's air.

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
        Coolest to warmest hour of each day, and the mean.
    """
    scale = Scale(limits.cold, limits.warm, HEIGHT)
    low, mean, high = (
        scale.down(season[f"day_{what}_temperature"].values[place])
        for what in ("minimum", "mean", "maximum")
    )
    days = frame.middles()
    return Panel(
        phrase("Air in the block, °C (low, mean, high)"),
        HEIGHT,
        ticks(scale, (limits.cold, limits.warm)),
        (("air", strokes.band(days, high, low)), ("mean", strokes.line(days, mean))),
    )


def rain(season: xr.Dataset, frame: Frame, limits: Limits) -> Panel:
    """
    Return the strip of the farm's rain.

    Parameters
    ----------
    season : xarray.Dataset
        With ``rain``.
    frame : Frame
        Its days.
    limits : Limits
        Of the axes.

    Returns
    -------
    Panel
        A bar a day.
    """
    scale = Scale(0.0, limits.rain, HEIGHT)
    left = frame.middles() - frame.day_width * 0.4
    path = strokes.bars(
        left, scale.down(season["rain"].values), width=frame.day_width * 0.8, base=HEIGHT
    )
    return Panel(phrase("Rain on the farm, mm a day"), HEIGHT, ticks(scale), (("rain", path),))


def weather(season: xr.Dataset, place: int, frame: Frame) -> Panel:
    """
    Return the strip of how favourable the weather is.

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
        With the cool pool, and dashed without.
    """
    scale, days = Scale(0.0, 1.0, HEIGHT), frame.middles()
    own = scale.down(season["favourability"].values[place])
    site = scale.down(season["site_favourability"].values[place])
    return Panel(
        phrase("Favourable weather (dashed: no cool pool)"),
        HEIGHT,
        ticks(scale),
        (
            ("favourable", strokes.band(days, own, np.full_like(own, HEIGHT))),
            ("own", strokes.line(days, own)),
            ("site", strokes.line(days, site)),
        ),
    )
