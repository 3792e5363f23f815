"""One self-contained page on which an agronomist compares rival rules with our own order."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import numpy as np
import xarray as xr
from markupsafe import escape

from geo.arrays import FloatArray
from geo.exports.farm_title import farm_title
from geo.exports.files import write_text
from geo.exports.offline import still_page
from geo.exports.page_words import CAUTIONS, HONESTY, newest_measured
from geo.exports.rules_curves import curve, figures
from geo.exports.rules_data import (
    FAVOURABILITY,
    HAZARD,
    agreement,
    ranks,
    readings,
    season_so_far,
    today_of_readings,
)
from geo.exports.templates import filled, joined
from geo.reference.diseases import disease_with
from geo.reference.number import sources
from geo.rules import RIVALS
from geo.season.disease import disease_key
from geo.season.farm import Farm
from geo.season.today import today_index
from geo.texts import mark, phrase, phrase_of
from geo.texts.days import day_words

MOST_ROWS = 200
OURS = {FAVOURABILITY: mark("Our weather favourability"), HAZARD: mark("Our hazard index")}


def write_rules_page(
    path: Path,
    *,
    farm: Farm,
    season: xr.Dataset,
    disease: str,
    held_against: Mapping[str, xr.Dataset] | None = None,
) -> None:
    """
    Write the page.

    Parameters
    ----------
    path : pathlib.Path
        Replaced only when the new page is complete.
    farm : Farm
        Names.
    season : xarray.Dataset
        With ``rule_reading``.
    disease : str
        Name of the disease that our own order is about.
    held_against : mapping of str to xarray.Dataset, optional
        Our own season to hold a rule against, by the agent the rule is about; else ``season``.
    """
    page = rules_html(farm=farm, season=season, disease=disease, held_against=held_against)
    write_text(path, page)


def rules_html(
    *,
    farm: Farm,
    season: xr.Dataset,
    disease: str,
    held_against: Mapping[str, xr.Dataset] | None = None,
) -> str:
    """
    Return the page.

    Parameters
    ----------
    farm : Farm
        Names.
    season : xarray.Dataset
        With ``rule_reading``.
    disease : str
        Name of the disease that our own order is about.
    held_against : mapping of str to xarray.Dataset, optional
        Our own season to hold a rule against, by the agent the rule is about; else ``season``.

    Returns
    -------
    str
        HTML without any script; the same bytes for the same input.
    """
    body = filled(
        "rules.html",
        farm=farm,
        today=day_words(farm.today),
        disease=phrase_of(disease),
        honesty=phrase_of(HONESTY),
        measured=newest_measured(season, farm.zone),
        rules=_rules(season, held_against or {}),
        ours=_ours(season),
        columns=[*map(phrase_of, OURS.values()), *(phrase_of(rival.name) for rival in RIVALS)],
        rows=_rows(farm, season),
        count=len(farm.blocks),
        cautions=phrase_of(CAUTIONS),
    )
    title = phrase("{farm}: what other published rules say", farm=farm_title(farm))
    return still_page(
        title=str(escape(title)), style=joined(("page.css", "rules.css", "contrast.css")), body=body
    )


def _rules(season: xr.Dataset, held_against: Mapping[str, xr.Dataset]) -> list[dict[str, Any]]:
    """Return what is said of each rival, and how far its order agrees with ours."""
    by_key = {reading.key: reading.by_day for reading in readings(season)}
    today = today_index(season)
    described = []
    for rival in RIVALS:
        ours = held_against.get(rival.agent, season)
        columns = today_of_readings(ours), season_so_far(ours)
        described.append(
            {
                "rival": rival,
                "against": phrase_of(disease_with(disease_key(ours)).name),
                "source": sources()[rival.source]["citation"],
                "curve": curve(by_key[rival.key], today=today),
                "agrees": [
                    _agreement_words(of_rivals[rival.key], of_rivals[own])
                    for of_rivals in columns
                    for own in OURS
                ],
            }
        )
    return described


def _ours(season: xr.Dataset) -> list[dict[str, Any]]:
    by_key = {reading.key: reading.by_day for reading in readings(season)}
    today = today_index(season)
    return [
        {"name": phrase_of(name), "curve": curve(by_key[key], today=today)}
        for key, name in OURS.items()
    ]


def _agreement_words(one: FloatArray, other: FloatArray) -> str:
    tau = agreement(one, other)
    return phrase("all alike") if tau is None else f"{tau:+.2f}".replace("-", "\N{MINUS SIGN}")


def _rows(farm: Farm, season: xr.Dataset) -> list[dict[str, Any]]:
    """Return today's readings with their places, in the order of our own hazard."""
    now = today_of_readings(season)
    places = {key: ranks(reading) for key, reading in now.items()}
    first = np.argsort(-np.nan_to_num(now[HAZARD], nan=-1.0), kind="stable")[:MOST_ROWS].tolist()
    blocks = [str(block) for block in season["block"].values]
    return [
        {
            "block": blocks[place],
            "name": str(farm.blocks.loc[blocks[place], "name"]),
            "cells": [
                {"value": figures(float(now[key][place])), "rank": places[key][place]}
                for key in now
            ],
        }
        for place in first
    ]
