"""What is supposed? From the words of all options to changes of the season."""

from collections.abc import Callable, Iterable, Mapping

import xarray as xr

from geo.errors import ContractError, InputError, Issue, stop
from geo.pipeline.suppose_blocks import (
    cultivar_supposed,
    neighbour_supposed,
    spray_supposed,
    stage_supposed,
    without_supposed,
)
from geo.pipeline.suppose_weather import rain_supposed, warmth_supposed
from geo.pipeline.supposition import Asked, Supposition
from geo.season import variables as v
from geo.season.contract import check
from geo.texts import phrase

# In the order they are applied in: a status before its neighbour is gone.
OPTIONS: dict[str, Callable[[str, Asked], Supposition]] = {
    "--rain": rain_supposed,
    "--warmer": warmth_supposed,
    "--stage": stage_supposed,
    "--spray": spray_supposed,
    "--cultivar": cultivar_supposed,
    "--neighbour": neighbour_supposed,
    "--without-neighbour": without_supposed,
}


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
    about, found, issues = Asked(season, zone), list[Supposition](), list[Issue]()
    for option, reader in OPTIONS.items():
        for words in asked.get(option, ()):
            try:
                found.append(reader(words, about))
            except InputError as error:
                issues.extend(error.issues)
    if issues:
        raise InputError(issues)
    if not found:
        fix = phrase("Give at least one of {options}", options=", ".join(OPTIONS))
        raise stop("E-SUPPOSE-NOTHING", "suppose", phrase("nothing is supposed"), fix)
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
        told = phrase("all of it together is more than a season can hold ({fault})", fault=error)
        fix = phrase("Suppose less at once")
        raise stop("E-SUPPOSE-RANGE", "suppose", told, fix) from error
    return season
