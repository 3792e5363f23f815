"""The daily hazard: favourable weather times susceptible host times spores times lack of cover."""

from geo.arrays import FloatArray


def hazard_index(
    favourability: FloatArray,
    susceptibility: FloatArray,
    inoculum: FloatArray,
    protection: FloatArray,
) -> FloatArray:
    r"""
    Return the daily hazard index.

    Parameters
    ----------
    favourability : [1]
        Share of a perfect day, shape (block, day).
    susceptibility : [1]
        Cultivar, stage and age together.
    inoculum : [1]
        In multiples of the background.
    protection : [1]
        Share of infections prevented.

    Returns
    -------
    [1]
        :math:`F S Q (1 - P)`: 1 is fully susceptible, unsprayed bloom in perfect weather that
        meets background spores only.

    Notes
    -----
    The hazard is this index times a constant, :math:`\lambda = \beta F S Q (1 - P)`, that only
    local scouting can fix. No order and no ratio depends on it, so at the relative level it is
    left out.
    """
    hazard = favourability * susceptibility
    # In place: of a district's year each such array is 58 MB.
    hazard *= inoculum
    hazard *= 1.0 - protection
    return hazard
