"""One disease as the page shows it: its hazard, its orders, its spores and its words."""

from dataclasses import dataclass
from typing import Any

import xarray as xr

from geo.arrays import IntArray
from geo.exports.page_blocks import risk_data, sources_data
from geo.exports.page_events import events_data
from geo.exports.page_orders import scouting_data, spray_data
from geo.exports.page_words import newest_look
from geo.ranking.factor_words import basis
from geo.ranking.factors import FACTORS
from geo.ranking.spray_words import spray_words
from geo.reference.diseases import Disease, disease_with
from geo.reference.fungicides import fungicides
from geo.rounds.order import SprayOrder
from geo.scouting.order import ScoutingOrder
from geo.season.disease import disease_key
from geo.season.looked_up import LookedUp
from geo.texts import phrase, phrase_of


@dataclass(frozen=True, slots=True)
class Risk:
    """
    What a run decided about one disease.

    Attributes
    ----------
    season : xarray.Dataset
        Its season, with all layers.
    spray : SprayOrder
        Spray order of today against it.
    scouting : ScoutingOrder
        Scouting order of today for it.
    """

    season: xr.Dataset
    spray: SprayOrder
    scouting: ScoutingOrder

    @property
    def disease(self) -> Disease:
        """
        Return which disease it is.

        Returns
        -------
        Disease
            On its organ.
        """
        return disease_with(disease_key(self.season))


def disease_data(risk: Risk, days: IntArray) -> dict[str, Any]:
    """
    Return what the page shows of a disease.

    Parameters
    ----------
    risk : Risk
        Of the disease.
    days : [1]
        Places of the days that the slider runs over.

    Returns
    -------
    dict
        Ready for JSON.
    """
    season, disease = LookedUp(risk.season), risk.disease
    place_of = {block: place for place, block in enumerate(map(str, season["block"].values))}
    return {
        "key": disease.key,
        "name": phrase_of(disease.name),
        "material": _material_words(risk.spray.material, disease),
        "short": phrase_of(disease.short),
        "organs": phrase_of(disease.organs),
        "looked": newest_look(risk.scouting),
        "factors": [
            {
                "name": phrase_of(factor.name),
                "standing": factor.standing,
                "basis": basis(factor.name, disease),
            }
            for factor in FACTORS
        ],
        "blocks": {
            **risk_data(season.isel(day=days)),
            "sprays": spray_words(season, range(season.sizes["block"])),
        },
        "events": events_data(season, days),
        "sources": sources_data(season),
        "spray": spray_data(risk.spray, place_of),
        "scouting": scouting_data(risk.scouting, place_of),
        "walk": f"{risk.scouting.when} {risk.scouting.rule}".strip(),
    }


def _material_words(material: str, disease: Disease) -> str:
    """Return the planned material, with a warning where it does nothing against the disease."""
    known = fungicides().get(material)
    if known is None or known.efficacy[disease.key].value > 0.0:
        return phrase("For {material}.", material=phrase_of(material))
    return phrase(
        "For {material}, which is not known to act on {disease}: plan another material.",
        material=phrase_of(material),
        disease=phrase_of(disease.name),
    )
