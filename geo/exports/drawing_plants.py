"""The panicle and the leaf that our drawings show, before anything ails them."""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.exports.drawing_pens import Tube, bezier

AXIS_WIDTH, BRANCH_WIDTH, TWIG_WIDTH = 3.6, 2.2, 1.1
BRANCHES = 14


@dataclass(frozen=True, slots=True)
class Branch:
    """
    A branch of a panicle.

    Attributes
    ----------
    line : numpy.ndarray
        From the axis to the tip.
    twigs : tuple of numpy.ndarray
        Each from the branch to its flower.
    """

    line: FloatArray
    twigs: tuple[FloatArray, ...]

    @property
    def flowers(self) -> FloatArray:
        """
        Return where its flowers sit.

        Returns
        -------
        numpy.ndarray
            Shape (flower, 2).
        """
        return np.stack([twig[-1] for twig in self.twigs])


@dataclass(frozen=True, slots=True)
class Panicle:
    """
    A cone of branches on an axis.

    Attributes
    ----------
    axis : numpy.ndarray
        From the foot to the tip.
    branches : tuple of Branch
        From the lowest to the highest, left and right by turns.
    """

    axis: FloatArray
    branches: tuple[Branch, ...]

    @property
    def stems(self) -> list[Tube]:
        """
        Return all its stems.

        Returns
        -------
        list of tuple
            Line and thickness of each.
        """
        found: list[Tube] = [(self.axis, AXIS_WIDTH)]
        for branch in self.branches:
            found.append((branch.line, BRANCH_WIDTH))
            found += [(twig, TWIG_WIDTH) for twig in branch.twigs]
        return found


@dataclass(frozen=True, slots=True)
class Leaf:
    """
    A leaf about its midrib.

    Attributes
    ----------
    midrib : numpy.ndarray
        From the stalk to the tip.
    across : numpy.ndarray
        Unit vector to its left at each point of the midrib.
    half_width : numpy.ndarray
        At each point of the midrib.
    """

    midrib: FloatArray
    across: FloatArray
    half_width: FloatArray

    def at(self, place: IntArray, side: FloatArray) -> FloatArray:
        """
        Return points of the blade.

        Parameters
        ----------
        place : numpy.ndarray
            Points of the midrib, by number.
        side : numpy.ndarray
            From -1 at the right edge to 1 at the left.

        Returns
        -------
        numpy.ndarray
            Shape (point, 2).
        """
        found: FloatArray = (
            self.midrib[place] + self.across[place] * (self.half_width[place] * side)[:, None]
        )
        return found

    @property
    def outline(self) -> FloatArray:
        """
        Return its edge.

        Returns
        -------
        numpy.ndarray
            Shape (point, 2), once round.
        """
        every = np.arange(len(self.midrib))
        left, right = (self.at(every, np.full(every.size, side)) for side in (1.0, -1.0))
        return np.concatenate([left, right[::-1]])

    @property
    def veins(self) -> list[FloatArray]:
        """
        Return the side veins, which lean to the tip.

        Returns
        -------
        list of numpy.ndarray
            Of each, shape (point, 2).
        """
        count = len(self.midrib)
        lean = count // 12
        found = []
        for foot in range(count // 12, count - 3 * lean, count // 20):
            for side in (-0.92, 0.92):
                tip = self.at(np.array([foot + lean]), np.array([side]))[0]
                start, ahead = self.midrib[foot], self.midrib[foot + lean] - self.midrib[foot]
                bend = start + (tip - start) * 0.6 - ahead * 0.15
                found.append(bezier(start, bend, bend, tip, count=6))
        return found


def panicle(chance: np.random.Generator) -> Panicle:
    """
    Return a panicle.

    Parameters
    ----------
    chance : numpy.random.Generator
        Seeded: no two branches are quite alike.

    Returns
    -------
    Panicle
        In bloom.
    """
    axis = bezier((60, 148), (54, 95), (66, 52), (60, 9), count=60)
    branches = []
    for number in range(BRANCHES):
        share = 0.16 + 0.80 * number / (BRANCHES - 1)
        foot = axis[int(share * (len(axis) - 1))]
        length = 44.0 * (1.04 - share) ** 0.8 + 4.0
        reach = np.array([1.0 if number % 2 else -1.0, -chance.uniform(0.48, 0.62)]) * length
        bend = foot + reach * [0.55, 0.25]
        line = bezier(foot, bend, bend, foot + reach, count=24)
        branches.append(Branch(line, _twigs(line, length, chance)))
    return Panicle(axis, tuple(branches))


def leaf(midrib: FloatArray, half_width: float) -> Leaf:
    """
    Return a long, pointed leaf.

    Parameters
    ----------
    midrib : numpy.ndarray
        From the stalk to the tip.
    half_width : float
        Where it is widest.

    Returns
    -------
    Leaf
        With a slightly wavy edge.
    """
    at = np.linspace(0.0, 1.0, len(midrib))
    step = np.gradient(midrib, axis=0)
    across = np.stack([step[:, 1], -step[:, 0]], axis=1) / np.hypot(*step.T)[:, None]
    shape = np.sin(np.pi * at**0.85) ** 0.8 * (1.0 - 0.25 * at)
    return Leaf(midrib, across, half_width * shape * (1.0 + 0.03 * np.sin(22.0 * at)))


def _twigs(line: FloatArray, length: float, chance: np.random.Generator) -> tuple[FloatArray, ...]:
    found = []
    for place in np.linspace(0.35, 1.0, max(2, round(length / 6.5))):
        at = int(place * (len(line) - 1))
        ahead = line[at] - line[at - 1]
        ahead /= np.hypot(*ahead)
        for side in (-1, 1) if place < 1.0 else (0,):
            turn = side * chance.uniform(0.75, 1.15)
            cos, sin = np.cos(turn), np.sin(turn)
            way = np.array(
                [ahead[0] * cos - ahead[1] * sin, ahead[0] * sin + ahead[1] * cos]
            ) * chance.uniform(4.5, 7.5)
            found.append(np.stack([line[at], line[at] + way]))
    return tuple(found)
