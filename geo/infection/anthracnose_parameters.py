"""Which numbers does anthracnose need, and which does the reference table give?"""

from dataclasses import dataclass, fields

from geo.reference.number import values

_ROW_OF_RULE = {
    "conservative": "wet_humidity_conservative",
    "liberal": "wet_humidity_liberal",
}
WETNESS_RULES = tuple(_ROW_OF_RULE)


@dataclass(frozen=True, slots=True)
class Anthracnose:
    """
    The parameters of anthracnose on blossom and fruit; rows of ``anthracnose.csv``.

    Attributes
    ----------
    temperature_minimum, temperature_optimum, temperature_maximum : float
        [degC] Cardinal temperatures of infection.
    wet_humidity : float
        [%] From here on an hour without rain counts as wet: one of two rules.
    wet_gap_hours : float
        [h] Longest dry gap within a wet period.
    hours_of_infection, shape_of_infection : float
        [h], [1] Scale and shape of the infected share over weighted wet hours.
    alert_share : float
        [1] Infected share above which risk is called high.
    rain_without_splash, rain_of_full_splash : float
        [mm] Rain that deposits nothing, and rain that deposits all it can.
    rain_gap_hours : float
        [h] Longest dry gap within a rain.
    deposit_decay_days : float
        [d] Time in which a deposit falls to 37 %.
    """

    temperature_minimum: float
    temperature_optimum: float
    temperature_maximum: float
    wet_humidity: float
    wet_gap_hours: float
    hours_of_infection: float
    shape_of_infection: float
    alert_share: float
    rain_without_splash: float
    rain_of_full_splash: float
    rain_gap_hours: float
    deposit_decay_days: float


@dataclass(frozen=True, slots=True)
class LateRain:
    """
    What rain shortly before harvest adds on fruit; rows of ``anthracnose.csv``.

    Attributes
    ----------
    late_rain : float
        [mm] Rain above which it counts as heavy.
    late_rain_days : float
        [d] How long before harvest it is late.
    late_rain_weight : float
        [1] What infection on days of late heavy rain weighs.
    """

    late_rain: float
    late_rain_days: float
    late_rain_weight: float


def anthracnose_parameters(wetness_rule: str = "conservative") -> Anthracnose:
    """
    Return the parameters of anthracnose from the reference table.

    Parameters
    ----------
    wetness_rule : str
        ``conservative`` or ``liberal``: from which humidity on an hour counts as wet. Both are
        published, so run both and show the range.

    Returns
    -------
    Anthracnose
        The defaults.
    """
    table = values("anthracnose", "anthracnose")
    table |= {"wet_humidity": table[_ROW_OF_RULE[wetness_rule]]}
    return Anthracnose(**{field.name: table[field.name] for field in fields(Anthracnose)})


def late_rain_parameters() -> LateRain:
    """
    Return the parameters of late rain on fruit from the reference table.

    Returns
    -------
    LateRain
        The defaults.
    """
    return LateRain(**values("anthracnose", "fruit anthracnose"))
