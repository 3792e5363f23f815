"""Curves, bands, bars and points as paths of an SVG drawing. Unknown values leave gaps."""

from dataclasses import dataclass

import numpy as np

from geo.arrays import AnyArray, FloatArray


@dataclass(frozen=True, slots=True)
class Scale:
    """
    From a value to how far down it is drawn.

    Attributes
    ----------
    low, high : float
        Values at the lower and the upper edge. What lies beyond is drawn on the edge.
    height : float
        Between the edges.
    is_log : bool
        Whether equal ratios are equally far apart.
    """

    low: float
    high: float
    height: float
    is_log: bool = False

    def down(self, value: AnyArray) -> FloatArray:
        """
        Return where values are drawn.

        Parameters
        ----------
        value : ndarray
            Any shape; NaN stays NaN.

        Returns
        -------
        ndarray
            0 at the upper edge, the height at the lower one.
        """
        within = np.clip(np.asarray(value, dtype=float), self.low, self.high)
        if self.is_log:
            share = np.log(within / self.low) / np.log(self.high / self.low)
        else:
            share = (within - self.low) / (self.high - self.low)
        down: FloatArray = self.height * (1.0 - share)
        return down


def line(across: FloatArray, down: FloatArray) -> str:
    """
    Return a curve.

    Parameters
    ----------
    across, down : ndarray
        Its points, one a day.

    Returns
    -------
    str
        SVG path, empty if nothing is known.

    Examples
    --------
    >>> line(np.array([0.0, 1, 2, 3]), np.array([5.0, 6, np.nan, 2]))
    'M0 5L1 6M3 2h0'
    """
    return "".join(
        _points(across[run], down[run], start="M") + ("h0" if len(run) == 1 else "")
        for run in _runs(~np.isnan(down))
    )


def band(across: FloatArray, upper: FloatArray, lower: FloatArray) -> str:
    """
    Return the area between two curves.

    Parameters
    ----------
    across, upper, lower : ndarray
        Their points, one a day.

    Returns
    -------
    str
        SVG path.
    """
    return "".join(
        _points(across[run], upper[run], start="M")
        + _points(across[run][::-1], lower[run][::-1], start="L")
        + "Z"
        for run in _runs(~np.isnan(upper + lower))
    )


def bars(across: FloatArray, down: FloatArray, *, width: float, base: float) -> str:
    """
    Return bars that stand on a base.

    Parameters
    ----------
    across, down : ndarray
        Left edge and top of each; one that has no height is left out.
    width, base : float
        Of each bar; and where they stand.

    Returns
    -------
    str
        SVG path.
    """
    stands = down < base
    return "".join(
        f"M{_short(left)} {_short(base)}V{_short(top)}h{_short(width)}V{_short(base)}Z"
        for left, top in zip(across[stands].tolist(), down[stands].tolist(), strict=True)
    )


def spans(across: FloatArray, upper: FloatArray, lower: FloatArray, *, cap: float) -> str:
    """
    Return intervals: an upright line each, with a cap at both ends.

    Parameters
    ----------
    across, upper, lower : ndarray
        Where each stands and reaches.
    cap : float
        Half the length of a cap.

    Returns
    -------
    str
        SVG path.
    """
    ends = zip(across.tolist(), upper.tolist(), lower.tolist(), strict=True)
    return "".join(
        f"M{_short(x)} {_short(top)}V{_short(end)}"
        + "".join(f"M{_short(x - cap)} {_short(y)}h{_short(2 * cap)}" for y in (top, end))
        for x, top, end in ends
    )


def dots(across: FloatArray, down: FloatArray, *, radius: float) -> str:
    """
    Return points as small discs.

    Parameters
    ----------
    across, down : ndarray
        Their middles.
    radius : float
        Of each.

    Returns
    -------
    str
        SVG path.
    """
    turn = f"a{radius:g} {radius:g} 0 1 0"
    return "".join(
        f"M{_short(x - radius)} {_short(y)}{turn} {2 * radius:g} 0{turn} {-2 * radius:g} 0"
        for x, y in zip(across.tolist(), down.tolist(), strict=True)
    )


def _runs(is_known: AnyArray) -> list[AnyArray]:
    """Return the places of each run of known values."""
    places = np.flatnonzero(is_known)
    return np.split(places, np.flatnonzero(np.diff(places) > 1) + 1) if places.size else []


def _points(across: FloatArray, down: FloatArray, *, start: str) -> str:
    pairs = [
        f"{_short(x)} {_short(y)}" for x, y in zip(across.tolist(), down.tolist(), strict=True)
    ]
    return f"{start}{'L'.join(pairs)}"


def _short(number: float) -> str:
    return f"{round(number, 1) + 0.0:g}"
