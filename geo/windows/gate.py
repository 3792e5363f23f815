"""What does a rule say of each block and hour, and when does it clear?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import AnyArray, BoolArray, FloatArray, IntArray


@dataclass(frozen=True, slots=True)
class Rule:
    """
    A rule with the number it goes by.

    Attributes
    ----------
    key : str
        Stable id.
    title : str
        What it is about, in words.
    limit : float
        In ``unit``; NaN where it is not known, infinite where there is none.
    unit : str
        Of the limit and of the values held against it.
    standing : str
        Where the limit comes from.
    is_caution : bool
        True where it warns and closes nothing.
    short : str
        The title without its explanation, where it has one.
    """

    key: str
    title: str
    limit: float
    unit: str
    standing: str
    is_caution: bool = False
    short: str = ""

    @property
    def about(self) -> str:
        """
        Return what the rule is about, where there is no room to explain it.

        Returns
        -------
        str
            In words.
        """
        return self.short or self.title


@dataclass(frozen=True, slots=True)
class Gate:
    """
    A rule asked of each block and hour of the forecast.

    Attributes
    ----------
    rule : Rule
        What was asked.
    is_closed : numpy.ndarray
        [1] Shape (block, hour), or one row where it is the same for all blocks. Unknown is closed.
    value : numpy.ndarray
        [any] Same shape, in the rule's unit: what was held against the limit, NaN if unknown.
    """

    rule: Rule
    is_closed: BoolArray
    value: FloatArray

    def of_block(self, values: AnyArray, block: int) -> AnyArray:
        """
        Return the row of a block.

        Parameters
        ----------
        values : numpy.ndarray
            One of the gate's two.
        block : int
            Its place.

        Returns
        -------
        numpy.ndarray
            [any] Shape (hour,): the only row where all blocks are alike.
        """
        row: AnyArray = values[block if len(values) > 1 else 0]
        return row


def at_least(rule: Rule, value: FloatArray) -> Gate:
    """
    Return a gate that is open where a value reaches the limit.

    Parameters
    ----------
    rule : Rule
        With its limit.
    value : [any]
        Shape (block or 1, hour), in the rule's unit.

    Returns
    -------
    Gate
        Closed where the value is lower, and where the value or the limit is not known.

    Examples
    --------
    >>> rule = Rule("wind-low", "Wind", 0.83, "m s-1", "published")
    >>> at_least(rule, np.array([[0.8, 0.9, np.nan]])).is_closed.tolist()
    [[True, False, True]]
    """
    return Gate(rule, ~(value >= rule.limit), value)


def at_most(rule: Rule, value: FloatArray) -> Gate:
    """
    Return a gate that is open where a value stays within the limit.

    Parameters
    ----------
    rule : Rule
        With its limit.
    value : [any]
        Shape (block or 1, hour), in the rule's unit.

    Returns
    -------
    Gate
        Closed where the value is higher, and where the value or the limit is not known.
    """
    return Gate(rule, ~(value <= rule.limit), value)


def open_run(is_closed: BoolArray) -> IntArray:
    """
    Return how many hours in a row are open from each hour on.

    Parameters
    ----------
    is_closed : [1]
        Shape (block, hour).

    Returns
    -------
    [1]
        Same shape; 0 in a closed hour. What lies beyond the last hour counts as closed.

    Examples
    --------
    >>> open_run(np.array([[True, False, False, True, False]])).tolist()
    [[0, 2, 1, 0, 1]]
    """
    hour_count = is_closed.shape[1]
    place = np.arange(hour_count)
    closed_at = np.where(is_closed, place, hour_count)
    next_closed = np.minimum.accumulate(closed_at[:, ::-1], axis=1)[:, ::-1]
    return next_closed - place
