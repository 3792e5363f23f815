"""Does a season hold what a layer needs, in the shape it needs it? Every fault named at once."""

from collections.abc import Iterable

import numpy as np
import xarray as xr

from geo.errors import ContractError
from geo.season.variable import Variable


def check(
    season: xr.Dataset, variables: Iterable[Variable], *, of: str, with_values: bool = True
) -> None:
    """
    Refuse a season that lacks a variable or holds one out of shape or range.

    Parameters
    ----------
    season : xarray.Dataset
        The season so far.
    variables : iterable of Variable
        What must be there.
    of : str
        Who asks, for the message.
    with_values : bool
        Whether ranges are looked at; False where they were when the variable was given.

    Raises
    ------
    ContractError
        One line for each fault.
    """
    faults = [
        fault
        for variable in variables
        for fault in _faults(season, variable, with_values=with_values)
    ]
    if faults:
        raise ContractError(f"{of}: " + "; ".join(faults))


def _faults(season: xr.Dataset, variable: Variable, *, with_values: bool) -> list[str]:
    if variable.name not in season:
        return [f"{variable.name}: expected in the season, found nothing"]
    array = season[variable.name]
    if array.dims != variable.dims:
        return [f"{variable.name}: expected dims {variable.dims}, got {array.dims}"]
    if not with_values or array.dtype.kind not in "fiub" or array.size == 0:
        return []
    # Either leaves NaN aside, and is NaN only where nothing else is there.
    low, high = (edge.reduce(array.values, axis=None) for edge in (np.fmin, np.fmax))
    if np.isnan(low):
        return []
    if low < variable.low or high > variable.high:
        expected = f"[{variable.low:g}, {variable.high:g}] {variable.unit}"
        return [f"{variable.name}: expected within {expected}, got [{low:g}, {high:g}]"]
    return []
