"""Fixed classes of the hazard index: a colour means the same on Monday and on Friday."""

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.texts import mark

# The index is 1 for fully susceptible, unsprayed bloom in perfect mildew weather that meets
# background spores only. Our own convention, chosen so that each class is about 2.5 times the last.
CLASS_BREAKS = (0.05, 0.15, 0.4, 1.0)
# Tables have them as they stand here, for programs that read them; people are told by `phrase_of`.
CLASS_WORDS = (
    mark("Very low"),
    mark("Low"),
    mark("Moderate"),
    mark("High"),
    mark("Very high"),
)
NOT_KNOWN = -1


def hazard_class(hazard: FloatArray) -> IntArray:
    """
    Return the class of each hazard index.

    Parameters
    ----------
    hazard : [1]
        Daily hazard index, any shape.

    Returns
    -------
    [1]
        0 (very low) to 4 (very high), -1 where the hazard is not known.

    Examples
    --------
    >>> hazard_class(np.array([0.0, 0.05, 2.0, np.nan])).tolist()
    [0, 1, 4, -1]
    """
    found = np.searchsorted(np.asarray(CLASS_BREAKS), hazard, side="right")
    return np.where(np.isnan(hazard), NOT_KNOWN, found).astype(np.int64)
