"""A season for loops over many blocks: each variable is looked up once."""

from typing import Any

import xarray as xr


class LookedUp(xr.Dataset):  # type: ignore[no-untyped-call]
    """
    The same season, whose variables cost nothing after the first look.

    Looking a variable up in a data set takes as long as a hundred sums: its coordinates are
    gathered each time. Sentences about thousands of blocks look the same few up again and again.

    Parameters
    ----------
    season : xarray.Dataset
        Not changed later: what was looked up stays as it was.
    """

    __slots__ = ("_seen",)
    _seen: dict[str, Any]

    def __init__(self, season: xr.Dataset) -> None:
        super().__init__(dict(season.data_vars), coords=season.coords, attrs=season.attrs)

    def __getitem__(self, key: Any) -> Any:  # noqa: ANN401 - as the data set's own
        """
        Return a variable.

        Parameters
        ----------
        key : any
            As a data set takes it.

        Returns
        -------
        any
            The very same object each time; names of blocks and days as mere arrays.
        """
        if not isinstance(key, str):
            return super().__getitem__(key)
        try:
            # Asked for in the plain way, what is not there would be sought among the variables.
            seen: dict[str, Any] = object.__getattribute__(self, "_seen")
        except AttributeError:
            seen = self._seen = {}
        if key not in seen:
            found = super().__getitem__(key)
            # An index makes an array of itself whenever it is asked for its values.
            is_index = key in self.xindexes
            seen[key] = xr.DataArray(found.values, dims=found.dims) if is_index else found
        return seen[key]
