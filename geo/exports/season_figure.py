"""The season of a block as one drawing: strips with the same days, one below the other."""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import xarray as xr

from geo.comparison.counts import counts_of
from geo.exports import block_panels, weather_panels
from geo.exports.block_panels import LOWEST_HAZARD
from geo.exports.page_classes import class_word
from geo.exports.season_frame import WIDTH, Frame, frame_of
from geo.exports.season_panel import Limits, Panel
from geo.ranking.classes import CLASS_BREAKS
from geo.texts import phrase_of, phrases

TOP, BETWEEN, FOOT = 18.0, 26.0, 24.0  # room for the titles, and for the names of the weeks
LINE = 15.0  # of a title, beyond its first
TENTH = 10.0
LEAST_RAIN, LEAST_FOUND = 10.0, 0.05  # an axis that a drizzle or one find must not fill


@dataclass(frozen=True, slots=True)
class Figure:
    """
    A drawing ready for its template.

    Attributes
    ----------
    frame : Frame
        Its days.
    panels : tuple of (float, Panel)
        Each strip with its upper edge.
    height : float
        Of the whole.
    label : str
        What it shows, for those who do not see it.
    """

    frame: Frame
    panels: tuple[tuple[float, Panel], ...]
    height: float
    label: str

    @property
    def width(self) -> float:
        """
        Return the width of the whole.

        Returns
        -------
        float
            In units of the drawing.
        """
        return WIDTH

    @property
    def foot(self) -> float:
        """
        Return where the lowest strip ends.

        Returns
        -------
        float
            In units of the drawing.
        """
        return self.height - FOOT


def limits_of(season: xr.Dataset, places: Iterable[int]) -> Limits:
    """
    Return axes that hold for all of some blocks.

    Parameters
    ----------
    season : xarray.Dataset
        Of one disease, ranked.
    places : iterable of int
        Of the blocks.

    Returns
    -------
    Limits
        Round numbers that nothing in these blocks goes beyond.
    """
    blocks = list(places)
    highs = [count.high for place in blocks for count in counts_of(season, place)]
    top = _largest(season["hazard"].values[blocks])
    course = _largest(season["sporulating"].values[blocks])
    cold = -_largest(-season["day_minimum_temperature"].values[blocks])
    warm = _largest(season["day_maximum_temperature"].values[blocks])
    cold = np.floor(cold / TENTH) * TENTH
    return Limits(
        cold=float(cold),
        warm=float(max(np.ceil(warm / TENTH) * TENTH, cold + TENTH)),
        rain=round_up(max(_largest(season["rain"].values), LEAST_RAIN)),
        found=min(1.0, round_up(max([course, LEAST_FOUND, *highs]))),
        hazard=round_up(max(top, 2 * CLASS_BREAKS[-1])),
    )


def round_up(value: float) -> float:
    """
    Return the next number of the row 1, 2, 3, 5, 10, 20 ...

    Parameters
    ----------
    value : float
        Above 0.

    Returns
    -------
    float
        Not below it.

    Examples
    --------
    >>> round_up(3.2), round_up(20.0), round_up(0.051)
    (5.0, 20.0, 0.1)
    """
    power = 10.0 ** np.floor(np.log10(value))
    steps = power * np.array([1.0, 2.0, 3.0, 5.0, TENTH])
    # A step that differs by rounding alone counts as reached.
    return float(f"{steps[np.argmax(steps >= value * (1 - 1e-12))]:.6g}")


def season_figure(season: xr.Dataset, place: int, limits: Limits) -> Figure:
    """
    Return the drawing of a block's season.

    Parameters
    ----------
    season : xarray.Dataset
        Of one disease, ranked.
    place : int
        Of the block.
    limits : Limits
        Of the axes.

    Returns
    -------
    Figure
        Seven strips.
    """
    frame = frame_of(season)
    strips = (
        weather_panels.air(season, place, frame, limits),
        weather_panels.rain(season, frame, limits),
        weather_panels.weather(season, place, frame),
        block_panels.stages(season, place, frame),
        block_panels.protection(season, place, frame),
        block_panels.found(season, place, frame, limits),
        block_panels.hazard(season, place, frame, limits),
    )
    panels, down = [], TOP
    for strip in strips:
        down += LINE * (len(strip.title_lines) - 1)
        panels.append((down, strip))
        down += strip.height + BETWEEN
    label = _label(season, place)
    return Figure(frame, tuple(panels), down - BETWEEN + FOOT, label)


def _largest(values: np.ndarray) -> float:
    """Return the largest known number, or the lowest hazard drawn where nothing is known."""
    found = np.fmax.reduce(values, axis=None, initial=-np.inf)
    return float(found) if np.isfinite(found) else LOWEST_HAZARD


def _label(season: xr.Dataset, place: int) -> str:
    block = str(season["block"].values[place])
    word = class_word(float(season["hazard_ahead"].values[place]))
    return phrases(
        "Season of {block}: hazard of the days ahead {word}; counted once",
        "Season of {block}: hazard of the days ahead {word}; counted {count} times",
        len(counts_of(season, place)),
        block=block,
        word=phrase_of(word).lower(),
    )
