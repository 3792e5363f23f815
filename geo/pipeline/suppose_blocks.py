"""What else of blocks and neighbours is supposed? From the words of an option to a change."""

from functools import partial

import xarray as xr

from geo.inputs.outlines import STATUSES
from geo.pipeline.local_hours import clock, hour_of
from geo.pipeline.suppose import (
    with_cultivar,
    with_neighbour,
    with_spray,
    with_stage,
    without_neighbour,
)
from geo.pipeline.supposition import Asked, Supposition, not_understood, one_of, pair
from geo.reference.cultivars import cultivars
from geo.reference.fungicides import fungicides
from geo.reference.growth_stages import growth_stages
from geo.texts import mark, phrase, phrase_of

_STAGE_SAID = {
    "panicle": mark("{block}: all of its panicles and fruit at BBCH {stage} today"),
    "leaf": mark("{block}: all of its leaves at BBCH {stage} today"),
}
_STATUS_SAID = {
    "known": mark("neighbour {neighbour}: disease known"),
    "suspected": mark("neighbour {neighbour}: disease suspected"),
    "unknown": mark("neighbour {neighbour}: disease unknown"),
}


def stage_supposed(words: str, asked: Asked) -> Supposition:
    """
    Return a block at one stage.

    Parameters
    ----------
    words : str
        Block and BBCH code.
    asked : Asked
        With the blocks.

    Returns
    -------
    Supposition
        Of the whole organ that the code is about.

    Raises
    ------
    InputError
        If the words mean nothing.
    """
    fix = phrase("Write it as BLOCK=BBCH, such as B07=615")
    name, code = pair("--stage", words, fix)
    block = one_of("block", name, asked.blocks, option="--stage")
    known = growth_stages()
    stage = one_of("stage", code, known.keys(), option="--stage")
    place = asked.blocks.index(block)
    return Supposition(
        phrase_of(_STAGE_SAID[known[stage].scale], block=block, stage=stage),
        lambda season: with_stage(season, place, stage),
    )


def spray_supposed(words: str, asked: Asked) -> Supposition:
    """
    Return one spray more.

    Parameters
    ----------
    words : str
        Blocks, material and when.
    asked : Asked
        With the blocks.

    Returns
    -------
    Supposition
        In each of the blocks.

    Raises
    ------
    InputError
        If the words mean nothing, or the hour lies behind the forecast.
    """
    fix = phrase(
        "Write it as BLOCK;BLOCK=MATERIAL@WHEN, such as B07;B08=sulfur@2026-02-20T06:30, @now or "
        "@tomorrow"
    )
    names, rest = pair("--spray", words, fix)
    name, _, when = rest.partition("@")
    blocks = [one_of("block", part, asked.blocks, option="--spray") for part in names.split(";")]
    material = one_of("material", name, fungicides().keys(), option="--spray")
    hour = hour_of(asked.season, asked.zone, when.strip() or "now")
    if hour is None:
        fix = phrase(
            "Write it as BLOCK;BLOCK=MATERIAL@WHEN, such as B07;B08=sulfur@2026-02-20T06:30, @now "
            "or @tomorrow; not after the forecast"
        )
        raise not_understood("--spray", words, fix)
    places = [asked.blocks.index(block) for block in dict.fromkeys(blocks)]
    said = phrase(
        "{material} on {blocks}, {hour}",
        material=phrase_of(material),
        blocks=", ".join(dict.fromkeys(blocks)),
        hour=clock(asked.season, asked.zone, hour),
    )
    return Supposition(said, lambda season: with_spray(season, places, material, hour))


def cultivar_supposed(words: str, asked: Asked) -> Supposition:
    """
    Return a block of one cultivar.

    Parameters
    ----------
    words : str
        Block and cultivar.
    asked : Asked
        With the blocks.

    Returns
    -------
    Supposition
        Of the whole block.

    Raises
    ------
    InputError
        If the words mean nothing.
    """
    name, cultivar = pair("--cultivar", words, phrase("Write it as BLOCK=NAME, such as B07=Keitt"))
    block = one_of("block", name, asked.blocks, option="--cultivar")
    cultivar = one_of("cultivar", cultivar, cultivars().keys(), option="--cultivar")
    place = asked.blocks.index(block)
    return Supposition(
        phrase("{block}: all of it {cultivar}", block=block, cultivar=cultivar),
        lambda season: with_cultivar(season, place, cultivar),
    )


def neighbour_supposed(words: str, asked: Asked) -> Supposition:
    """
    Return another status of a neighbour.

    Parameters
    ----------
    words : str
        Neighbour and status.
    asked : Asked
        With the neighbours.

    Returns
    -------
    Supposition
        Of its disease.

    Raises
    ------
    InputError
        If the words mean nothing.
    """
    name, status = pair("--neighbour", words, phrase("Write it as ID=STATUS, such as N1=known"))
    neighbour = one_of("neighbour", name, asked.neighbours, option="--neighbour")
    status = one_of("status", status, STATUSES, option="--neighbour")
    # Found again by its name: others may be gone by then.
    return Supposition(
        phrase_of(_STATUS_SAID[status], neighbour=neighbour),
        lambda season: with_neighbour(season, _place(season, neighbour), status),
    )


def without_supposed(words: str, asked: Asked) -> Supposition:
    """
    Return the farm without a neighbour.

    Parameters
    ----------
    words : str
        The neighbour.
    asked : Asked
        With the neighbours.

    Returns
    -------
    Supposition
        That does nothing where the neighbour is gone already.

    Raises
    ------
    InputError
        If there is no such neighbour.
    """
    neighbour = one_of("neighbour", words, asked.neighbours, option="--without-neighbour")
    said = phrase("no neighbour {neighbour}", neighbour=neighbour)
    return Supposition(said, partial(_removed, neighbour=neighbour))


def _removed(season: xr.Dataset, *, neighbour: str) -> xr.Dataset:
    is_there = neighbour in season.source.values.tolist()
    return without_neighbour(season, _place(season, neighbour)) if is_there else season


def _place(season: xr.Dataset, source: str) -> int:
    names: list[str] = season.source.values.tolist()
    return names.index(source)
