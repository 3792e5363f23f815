"""How fast does each disease run through its tissue?"""

from dataclasses import dataclass, fields

from geo.reference.number import values


@dataclass(frozen=True, slots=True)
class Epidemic:
    """
    The parameters of one disease on one organ; the fields are rows of ``epidemic.csv``.

    Attributes
    ----------
    infection_rate : float
        [d-1] Hazard where favourability, susceptibility and inoculum are 1 and nothing protects.
    latent_stages : float
        [1] Steps of the latent chain, a whole number: the more, the less latency varies.
    infectious_period : float
        [d] How long tissue sheds spores.
    background_inoculum : float
        [1] Spores from everywhere else, as a sporulating share. Never zero.
    scouting_worth : float
        [1] Inspected organs that the model's own figure is worth against a count.
    removal_effect : float
        [1] Share of the sporulating tissue that one removal by hand takes out.
    washing_effect : float
        [1] Share of it that one washing takes out.
    """

    infection_rate: float
    latent_stages: float
    infectious_period: float
    background_inoculum: float
    scouting_worth: float
    removal_effect: float
    washing_effect: float


def epidemic_parameters(disease: str) -> Epidemic:
    """
    Return the parameters of a disease from the reference table.

    Parameters
    ----------
    disease : str
        Key of one of `geo.reference.diseases.DISEASES`.

    Returns
    -------
    Epidemic
        The defaults.

    Examples
    --------
    >>> epidemic_parameters("panicle_mildew").infectious_period
    14.0
    """
    table = values("epidemic", disease)
    return Epidemic(**{field.name: table[field.name] for field in fields(Epidemic)})
