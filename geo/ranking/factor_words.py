"""What each factor of a disease is computed from, and how people say that it is more or less."""

from geo.reference.diseases import Disease
from geo.texts import mark, phrase, phrase_of

_WEATHER = {
    "powdery mildew": mark(
        "Hourly temperature, humidity and rain at the block's height; curve of Yan and Hunt 1999 "
        "with published limits for mango mildew, humidity response borrowed from grape"
    ),
    "anthracnose": mark(
        "Rain brings conidia, wet hours at the block's height let them in; curve of Yan and Hunt "
        "1999, rain between two published amounts, wet hours needed assumed: no published "
        "coefficients were at hand"
    ),
}
_POOL = {
    "powdery mildew": mark(
        "Favourable hours that pooled cold air adds or takes on clear, calm nights: it is more "
        "humid but also cooler; sizes bounded by published valley measurements, not fitted"
    ),
    "anthracnose": mark(
        "Wet hours that pooled cold air adds on clear, calm nights, and warmth that it takes; "
        "sizes bounded by published valley measurements, not fitted"
    ),
}
_REACH = {
    "powdery mildew": mark(
        "Spores from the other outlines on the map, by area and distance; kernel scale assumed"
    ),
    "anthracnose": mark(
        "Conidia splashed over from the next outlines: a few metres in rain; distance assumed"
    ),
}
_BASIS = {
    "cultivar": mark("Prior rating of the cultivars; published ratings contradict each other"),
    "stage": mark(
        "Share of susceptible {organs}; first and last stage published, the steps between assumed"
    ),
    "age": mark("Neutral: no published number was found for the age of the trees"),
    "home inoculum": mark(
        "Diseased {organs} as counted, carried on day by day with the weather; where nobody "
        "counted, assumed: the farm's mean, more after {disease} last season; plus a background "
        "that is never zero (assumed)"
    ),
    "unprotected share": mark(
        "What the sprays of the diary leave unprotected, tissue grown since included; rain rule "
        "published, half-life assumed"
    ),
}
# Whole clauses, since languages decline what English only says "more" or "less" of.
_MORE = {
    "site weather": mark("its weather favours {disease} more"),
    "cool pool": mark("its cool pool favours {disease} more"),
    "cultivar": mark("its cultivars are more susceptible"),
    "age": mark("its age weighs more"),
    "home inoculum": mark("more of its own {organs} carry {disease}"),
    "neighbours": mark("more spores reach it from its neighbours"),
    # The other way round: more protection lowers the hazard.
    "unprotected share": mark("less protection is left on it"),
}
_LESS = {
    "site weather": mark("its weather favours {disease} less"),
    "cool pool": mark("its cool pool favours {disease} less"),
    "cultivar": mark("its cultivars are less susceptible"),
    "age": mark("its age weighs less"),
    "home inoculum": mark("fewer of its own {organs} carry {disease}"),
    "neighbours": mark("fewer spores reach it from its neighbours"),
    "unprotected share": mark("more protection is left on it"),
}
_MORE_OF_STAGE = {
    "panicle": mark("more of its bloom is at a susceptible stage"),
    "leaf": mark("more of its flush is at a susceptible stage"),
    "fruit": mark("more of its fruit is at a susceptible stage"),
}
_LESS_OF_STAGE = {
    "panicle": mark("less of its bloom is at a susceptible stage"),
    "leaf": mark("less of its flush is at a susceptible stage"),
    "fruit": mark("less of its fruit is at a susceptible stage"),
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
    by_agent = {"site weather": _WEATHER, "cool pool": _POOL, "neighbours": _REACH}
    if factor in by_agent:
        return phrase_of(by_agent[factor][disease.agent])
    return phrase_of(_BASIS[factor], **_said(disease))


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
    if factor == "stage":
        return phrase_of((_MORE_OF_STAGE if rises else _LESS_OF_STAGE)[disease.organ])
    return phrase_of((_MORE if rises else _LESS)[factor], **_said(disease))


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
    if rises:
        return phrase("more {disease} on its {organs}, as far as anyone counted", **_said(disease))
    return phrase("less {disease} on its {organs}, as far as anyone counted", **_said(disease))


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
        return phrase("no hour ahead favours {disease}", **_said(disease))
    return phrase("no tissue is at a susceptible stage") if factor == "stage" else ""


def _said(disease: Disease) -> dict[str, str]:
    return {"disease": phrase_of(disease.short), "organs": phrase_of(disease.organs)}
