"""When do people work in which block? What the user planned for the days ahead."""

from dataclasses import dataclass

from geo.arrays import BoolArray, FloatArray, IntArray


@dataclass(frozen=True, slots=True)
class Crews:
    """
    Planned work in the blocks, one element a crew, block and day.

    Attributes
    ----------
    block : numpy.ndarray
        [1] Place of the block among the season's.
    start, end : numpy.ndarray
        [h] Since the season's first hour.
    day : numpy.ndarray
        [d] Place of the local day among the season's, also beyond its last.
    is_picking : numpy.ndarray
        [1] Whether fruit is picked.
    """

    block: IntArray
    start: FloatArray
    end: FloatArray
    day: IntArray
    is_picking: BoolArray
