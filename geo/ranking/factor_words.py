"""What each factor of a disease is computed from, and how people say that it is more or less."""

from geo.reference.diseases import Disease

_WEATHER = {
    "powdery mildew": (
        "Hourly temperature, humidity and rain at the block's height; curve of Yan and Hunt 1999 "
        "with published limits for mango mildew, humidity response borrowed from grape"
    ),
    "anthracnose": (
        "Rain brings conidia, wet hours at the block's height let them in; curve of Yan and Hunt "
        "1999, rain between two published amounts, wet hours needed assumed: no published "
        "coefficients were at hand"
    ),
}
_POOL = {
    "powdery mildew": (
        "Favourable hours that pooled cold air adds or takes on clear, calm nights: it is more "
        "humid but also cooler; sizes bounded by published valley measurements, not fitted"
    ),
    "anthracnose": (
        "Wet hours that pooled cold air adds on clear, calm nights, and warmth that it takes; "
        "sizes bounded by published valley measurements, not fitted"
    ),
}
_REACH = {
    "powdery mildew": (
        "Spores from the other outlines on the map, by area and distance; kernel scale assumed"
    ),
    "anthracnose": (
        "Conidia splashed over from the next outlines: a few metres in rain; distance assumed"
    ),
}


def basis(factor: str, disease: Disease) -> str:
    """
    Return from what a factor is computed.

    Parameters
    ----------
    factor : str
        Name of one of `geo.ranking.factors.FACTORS`.
    disease : Disease
        Of which disease.

    Returns
    -------
    str
        One line for the page, without a full stop.
    """
    return {
        "site weather": _WEATHER[disease.agent],
        "cool pool": _POOL[disease.agent],
        "cultivar": "Prior rating of the cultivars; published ratings contradict each other",
        "stage": (
            f"Share of susceptible {disease.organs}; first and last stage published, the steps "
            "between assumed"
        ),
        "age": "Neutral: no published number was found for the age of the trees",
        "home inoculum": (
            f"Diseased {disease.organs} as counted, carried on day by day with the weather; where "
            f"nobody counted, assumed: the farm's mean, more after {disease.short} last season; "
            "plus a background that is never zero (assumed)"
        ),
        "neighbours": _REACH[disease.agent],
        "unprotected share": (
            "What the sprays of the diary leave unprotected, tissue grown since included; rain "
            "rule published, half-life assumed"
        ),
    }[factor]


def change_words(factor: str, disease: Disease, *, rises: bool) -> str:
    """
    Return in words that a factor is larger or smaller in one block than in another.

    Parameters
    ----------
    factor : str
        Name of one of `geo.ranking.factors.FACTORS`.
    disease : Disease
        Of which disease.
    rises : bool
        Whether it raises the hazard.

    Returns
    -------
    str
        Part of a sentence.

    Examples
    --------
    >>> from geo.reference.diseases import disease_with
    >>> change_words("home inoculum", disease_with("leaf_mildew"), rises=True)
    'more of its own leaves carry mildew'
    """
    more = "more" if rises else "less"
    many = "more" if rises else "fewer"
    return {
        "site weather": f"its weather favours {disease.short} {more}",
        "cool pool": f"its cool pool favours {disease.short} {more}",
        "cultivar": f"its cultivars are {more} susceptible",
        "stage": f"{more} of its {_tissue(disease)} is at a susceptible stage",
        "age": f"its age weighs {more}",
        "home inoculum": f"{many} of its own {disease.organs} carry {disease.short}",
        "neighbours": f"{many} spores reach it from its neighbours",
        # The other way round: more protection lowers the hazard.
        "unprotected share": f"{'less' if rises else 'more'} protection is left on it",
    }[factor]


def uncounted_words(disease: Disease, *, rises: bool) -> str:
    """
    Return the same of the block's own spores where not both blocks were counted.

    Parameters
    ----------
    disease : Disease
        Of which disease.
    rises : bool
        Whether it raises the hazard.

    Returns
    -------
    str
        Part of a sentence.
    """
    amount = "more" if rises else "less"
    return f"{amount} {disease.short} on its {disease.organs}, as far as anyone counted"


def zero_words(factor: str, disease: Disease) -> str:
    """
    Return why a factor is 0.

    Parameters
    ----------
    factor : str
        Name of one of `geo.ranking.factors.FACTORS`.
    disease : Disease
        Of which disease.

    Returns
    -------
    str
        Part of a sentence; empty for a factor that never is.
    """
    if factor == "site weather":
        return f"no hour ahead favours {disease.short}"
    return "no tissue is at a susceptible stage" if factor == "stage" else ""


def _tissue(disease: Disease) -> str:
    return {"panicle": "bloom", "leaf": "flush", "fruit": "fruit"}[disease.organ]
