"""What is supposed? From the words of an option to a change of the season."""

import re
from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass
from functools import partial

import xarray as xr

from geo.errors import ContractError, InputError, Issue, quoted, stop
from geo.inputs.names import nearest, plain
from geo.inputs.outlines import STATUSES
from geo.pipeline.local_hours import clock, hour_of, hours_between
from geo.pipeline.suppose import (
    coming_night,
    hours_ahead,
    warmer,
    with_cultivar,
    with_neighbour,
    with_rain,
    with_spray,
    with_stage,
    without_neighbour,
)
from geo.reference.cultivars import cultivars
from geo.reference.fungicides import fungicides
from geo.reference.growth_stages import growth_stages
from geo.season import variables as v
from geo.season.contract import check

MOST_RAIN = 500.0  # mm: no hour of the season may hold more
MOST_KELVIN = 15.0  # our own choice: further off, a forecast is not off but another season's
RAIN = re.compile(r"(?P<amount>\d+(?:\.\d+)?)(?: ?mm)?(?:@(?P<hours>.+))?")
WARMER = re.compile(r"(?P<kelvin>[-+]?\d+(?:\.\d+)?)(?: ?K)?")
HOURS = re.compile(r"(?:(?P<day>\d{4}-\d{2}-\d{2})T)?(?P<first>\d{1,2})-(?P<end>\d{1,2})")
HOURS_A_DAY = 24


@dataclass(frozen=True, slots=True)
class Supposition:
    """
    One thing that is supposed.

    Attributes
    ----------
    words : str
        What, as printed.
    change : callable
        From a season as read to another.
    """

    words: str
    change: Callable[[xr.Dataset], xr.Dataset]


@dataclass(frozen=True, slots=True)
class _Farm:
    """What the words are about: the season as read, and the zone its clocks go by."""

    season: xr.Dataset
    zone: str

    @property
    def blocks(self) -> list[str]:
        names: list[str] = self.season.block.values.tolist()
        return names

    @property
    def neighbours(self) -> list[str]:
        names: list[str] = self.season.source.values.tolist()[self.season.sizes["block"] :]
        return names


def suppositions(
    asked: Mapping[str, Iterable[str]], season: xr.Dataset, *, zone: str
) -> list[Supposition]:
    """
    Return what is supposed, in the order in which it is to be applied.

    Parameters
    ----------
    asked : mapping of str to iterable of str
        Option to the words it was given, each time; the options are those of `OPTIONS`.
    season : xarray.Dataset
        As read.
    zone : str
        IANA name of the farm's time zone.

    Returns
    -------
    list of Supposition
        At least one.

    Raises
    ------
    InputError
        One line for each that cannot be understood; or if there is none.
    """
    farm, found, issues = _Farm(season, zone), list[Supposition](), list[Issue]()
    for option, reader in OPTIONS.items():
        for words in asked.get(option, ()):
            try:
                found.append(reader(words, farm))
            except InputError as error:
                issues.extend(error.issues)
    if issues:
        raise InputError(issues)
    if not found:
        fix = f"Give at least one of {', '.join(OPTIONS)}"
        raise stop("E-SUPPOSE-NOTHING", "suppose", "nothing is supposed", fix)
    return found


def supposed(season: xr.Dataset, found: Iterable[Supposition]) -> xr.Dataset:
    """
    Return the season with all of it supposed.

    Parameters
    ----------
    season : xarray.Dataset
        As read. Left as it is.
    found : iterable of Supposition
        One after the other.

    Returns
    -------
    xarray.Dataset
        Another season as read.

    Raises
    ------
    InputError
        If all together is more than a season can hold.
    """
    for one in found:
        season = one.change(season)
    try:
        check(season, (v.PRECIPITATION, v.AIR_TEMPERATURE), of="together")
    except ContractError as error:
        raise stop("E-SUPPOSE-RANGE", "suppose", str(error), "Suppose less at once") from error
    return season


def _rain(words: str, farm: _Farm) -> Supposition:
    form = RAIN.fullmatch(words.strip())
    if form is None or float(form["amount"]) > MOST_RAIN:
        fix = f"Write millimetres up to {MOST_RAIN:.0f}: 20, 20@22-02 or 20@2026-02-20T14-18"
        raise _not_understood("--rain", words, fix)
    amount = float(form["amount"])
    _check_forecast("--rain", farm)
    if form["hours"] is None:
        hours, which = coming_night(farm.season), "the coming night"
    else:
        span = HOURS.fullmatch(form["hours"].strip())
        if span is None or not 0 <= int(span["first"]) < HOURS_A_DAY >= int(span["end"]):
            raise _not_understood("--rain", words, "Write the hours as 22-02 or 2026-02-20T14-18")
        first, end = int(span["first"]), int(span["end"]) % HOURS_A_DAY
        which = "as asked"
        hours = hours_between(farm.season, farm.zone, day=span["day"], first=first, end=end)
    if not hours.size:
        fix = "Name hours that the forecast covers"
        raise stop("E-SUPPOSE-HOURS", "--rain", f"{quoted(words)} has no forecast hour", fix)
    start, stop_at = (
        clock(farm.season, farm.zone, hour) for hour in (int(hours[0]), int(hours[-1]) + 1)
    )
    said = f"{amount:g} mm more rain, evenly from {start} to {stop_at} ({which})"
    return Supposition(said, lambda season: with_rain(season, amount, hours))


def _warmer(words: str, farm: _Farm) -> Supposition:
    form = WARMER.fullmatch(words.strip())
    if form is None or abs(float(form["kelvin"])) > MOST_KELVIN:
        fix = f"Write kelvins from -{MOST_KELVIN:.0f} to {MOST_KELVIN:.0f}, such as 2 or -1.5"
        raise _not_understood("--warmer", words, fix)
    kelvin = float(form["kelvin"])
    _check_forecast("--warmer", farm)
    said = f"forecast air {abs(kelvin):g} K {'colder' if kelvin < 0 else 'warmer'}, as much water"
    return Supposition(f"{said} in it", lambda season: warmer(season, kelvin))


def _stage(words: str, farm: _Farm) -> Supposition:
    name, code = _pair("--stage", words, "BLOCK=BBCH, such as B07=615")
    block = _one_of("block", name, farm.blocks, option="--stage")
    known = growth_stages()
    stage = _one_of("stage", code, known.keys(), option="--stage")
    organ = {"panicle": "its panicles and fruit", "leaf": "its leaves"}[known[stage].scale]
    place = farm.blocks.index(block)
    return Supposition(
        f"{block}: all of {organ} at BBCH {stage} today",
        lambda season: with_stage(season, place, stage),
    )


def _spray(words: str, farm: _Farm) -> Supposition:
    form = "BLOCK;BLOCK=MATERIAL@WHEN, such as B07;B08=sulfur@2026-02-20T06:30, @now or @tomorrow"
    names, rest = _pair("--spray", words, form)
    name, _, when = rest.partition("@")
    blocks = [_one_of("block", part, farm.blocks, option="--spray") for part in names.split(";")]
    material = _one_of("material", name, fungicides().keys(), option="--spray")
    hour = hour_of(farm.season, farm.zone, when.strip() or "now")
    if hour is None:
        raise _not_understood("--spray", words, f"Write it as {form}; not after the forecast")
    places = [farm.blocks.index(block) for block in dict.fromkeys(blocks)]
    return Supposition(
        f"{material} on {', '.join(dict.fromkeys(blocks))}, {clock(farm.season, farm.zone, hour)}",
        lambda season: with_spray(season, places, material, hour),
    )


def _cultivar(words: str, farm: _Farm) -> Supposition:
    name, cultivar = _pair("--cultivar", words, "BLOCK=NAME, such as B07=Keitt")
    block = _one_of("block", name, farm.blocks, option="--cultivar")
    cultivar = _one_of("cultivar", cultivar, cultivars().keys(), option="--cultivar")
    place = farm.blocks.index(block)
    return Supposition(
        f"{block}: all of it {cultivar}", lambda season: with_cultivar(season, place, cultivar)
    )


def _neighbour(words: str, farm: _Farm) -> Supposition:
    name, status = _pair("--neighbour", words, "ID=STATUS, such as N1=known")
    neighbour = _one_of("neighbour", name, farm.neighbours, option="--neighbour")
    status = _one_of("status", status, STATUSES, option="--neighbour")
    # Found again by its name: others may be gone by then.
    return Supposition(
        f"neighbour {neighbour}: disease {status}",
        lambda season: with_neighbour(season, _place(season, neighbour), status),
    )


def _without(words: str, farm: _Farm) -> Supposition:
    neighbour = _one_of("neighbour", words, farm.neighbours, option="--without-neighbour")
    return Supposition(f"no neighbour {neighbour}", partial(_removed, neighbour=neighbour))


def _removed(season: xr.Dataset, *, neighbour: str) -> xr.Dataset:
    is_there = neighbour in season.source.values.tolist()
    return without_neighbour(season, _place(season, neighbour)) if is_there else season


def _place(season: xr.Dataset, source: str) -> int:
    names: list[str] = season.source.values.tolist()
    return names.index(source)


def _pair(option: str, words: str, form: str) -> tuple[str, str]:
    name, sign, value = words.rpartition("=")
    if not (name.strip() and sign and value.strip()):
        raise _not_understood(option, words, f"Write it as {form}")
    return name, value


def _one_of(what: str, name: str, known: Collection[str], *, option: str) -> str:
    spelling = {plain(one): one for one in known}
    if plain(name) not in spelling:
        fix = f"Nearest: {nearest(name, known)}" if known else "There is none"
        raise stop(f"E-{what.upper()}-UNKNOWN", option, f"no {what} {quoted(name)}", fix)
    return spelling[plain(name)]


def _check_forecast(option: str, farm: _Farm) -> None:
    if not hours_ahead(farm.season).size:
        fix = "Give the farm a forecast"
        raise stop("E-SUPPOSE-FORECAST", option, "there is no forecast hour to change", fix)


def _not_understood(option: str, words: str, fix: str) -> InputError:
    return stop("E-SUPPOSE-FORM", option, f"{quoted(words)} is not understood", fix)


# In the order they are applied in: a status before its neighbour is gone.
OPTIONS: dict[str, Callable[[str, _Farm], Supposition]] = {
    "--rain": _rain,
    "--warmer": _warmer,
    "--stage": _stage,
    "--spray": _spray,
    "--cultivar": _cultivar,
    "--neighbour": _neighbour,
    "--without-neighbour": _without,
}
