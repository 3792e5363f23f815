"""Which share of the conidia on wet tissue has infected it by now?"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray
from geo.infection.anthracnose_parameters import Anthracnose

# Takes the sums of a wet period, shape (..., sum, spot), and gives the share, shape (..., spot).
InfectedShare = Callable[[FloatArray], FloatArray]


@dataclass(frozen=True, slots=True)
class LogitCoefficients:
    """
    Coefficients of a published regression, given by whoever has the paper.

    The program ships none: the fitted models of the literature (dodd1991 among them) were read
    as abstracts only.

    Attributes
    ----------
    constant : float
        [1] Logit at no wet hour and 0 degC.
    per_wet_hour : float
        [1] Change of the logit an hour of wetness.
    per_degree, per_degree_squared : float
        [1] Change with the mean temperature of the wet hours and with its square.
    per_hour_and_degree : float
        [1] Change with their product.
    """

    constant: float
    per_wet_hour: float
    per_degree: float
    per_degree_squared: float = 0.0
    per_hour_and_degree: float = 0.0


def weibull_share(weighted_hours: FloatArray, anthracnose: Anthracnose) -> FloatArray:
    r"""
    Return the infected share after so many wet hours at the optimum.

    Parameters
    ----------
    weighted_hours : [h]
        Wet hours of the period, each weighted by the response to temperature. Any shape.
    anthracnose : Anthracnose
        Scale and shape.

    Returns
    -------
    [1]
        Same shape: :math:`1 - e^{-(W / 12.6)^2}`, a stand-in for the share of conidia that have
        formed appressoria, and not a fit: 20 % after 6 hours as in magarey2005.

    Examples
    --------
    >>> from geo.infection.anthracnose_parameters import anthracnose_parameters
    >>> weibull_share(np.array([0.0, 6.0, 12.0, 24.0]), anthracnose_parameters()).round(3).tolist()
    [0.0, 0.203, 0.596, 0.973]
    """
    reduced = weighted_hours / anthracnose.hours_of_infection
    share: FloatArray = -np.expm1(-(reduced**anthracnose.shape_of_infection))
    return share


def logit_share(
    wet_hours: FloatArray, mean_temperature: FloatArray, coefficients: LogitCoefficients
) -> FloatArray:
    r"""
    Return the infected share by a logistic regression on wetness and temperature.

    Parameters
    ----------
    wet_hours : [h]
        Of the period so far. Any shape.
    mean_temperature : [degC]
        Mean of those hours.
    coefficients : LogitCoefficients
        As their paper gives them, in hours and degC.

    Returns
    -------
    [1]
        Same shape: 0 without a wet hour, else
        :math:`\ln\frac{p}{1-p} = b_0 + b_1 W + b_2 T + b_3 T^2 + b_4 W T`.
    """
    logit = (
        coefficients.constant
        + coefficients.per_wet_hour * wet_hours
        + coefficients.per_degree * mean_temperature
        + coefficients.per_degree_squared * mean_temperature**2
        + coefficients.per_hour_and_degree * wet_hours * mean_temperature
    )
    # tanh never overflows, unlike the exponential of a large logit.
    share = 0.5 * (1.0 + np.tanh(0.5 * logit))
    return np.where(wet_hours == 0.0, 0.0, share)


def infected_share_of(
    anthracnose: Anthracnose, coefficients: LogitCoefficients | None = None
) -> InfectedShare:
    """
    Return the curve to use: the user's regression where there is one, else our stand-in.

    Parameters
    ----------
    anthracnose : Anthracnose
        Scale and shape of the stand-in.
    coefficients : LogitCoefficients or None
        Of a regression.

    Returns
    -------
    callable
        From the sums of a wet period, shape (..., sum, spot), to the share, shape (..., spot).
    """
    if coefficients is None:
        return lambda sums: weibull_share(sums[..., 0, :], anthracnose)

    def by_regression(sums: FloatArray) -> FloatArray:
        wet_hours, warmth = sums[..., 1, :], sums[..., 2, :]
        return logit_share(wet_hours, warmth / np.maximum(wet_hours, 1.0), coefficients)

    return by_regression
