"""How does a fungus respond to temperature, from three cardinal numbers?"""

import numpy as np

from geo.arrays import FloatArray


def response_yan1999(
    air_temperature: FloatArray, *, minimum: float, optimum: float, maximum: float
) -> FloatArray:
    r"""
    Return the response to temperature, 1 at the optimum.

    Parameters
    ----------
    air_temperature : [degC]
        Any shape.
    minimum, optimum, maximum : [degC]
        Cardinal temperatures.

    Returns
    -------
    [1]
        Same shape, 0 at and outside the limits. NaN stays NaN.

    Notes
    -----
    The beta function of [1]_ with a minimum:

    .. math:: f(T) = \frac{T_{max} - T}{T_{max} - T_{opt}}
       \left(\frac{T - T_{min}}{T_{opt} - T_{min}}\right)
       ^{\frac{T_{opt} - T_{min}}{T_{max} - T_{opt}}}

    References
    ----------
    .. [1] W. Yan and L. A. Hunt, Annals of Botany 84:607-614, 1999 (yan1999).

    Examples
    --------
    >>> response_yan1999(
    ...     np.array([9.0, 15.0, 22.5, 30.0, 40.0]), minimum=9.0, optimum=22.5, maximum=32.0
    ... ).round(4)
    array([0.    , 0.5653, 1.    , 0.3944, 0.    ])
    """
    inside = np.clip(air_temperature, minimum, maximum)
    power = (optimum - minimum) / (maximum - optimum)
    falling = (maximum - inside) / (maximum - optimum)
    rising = ((inside - minimum) / (optimum - minimum)) ** power
    response: FloatArray = falling * rising
    return response
