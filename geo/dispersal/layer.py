"""The dispersal layer of the season: how spores travel between the outlines on the map."""

import xarray as xr

from geo.dispersal.build import OUTLINES, SPLASH, WIND, pairs_of
from geo.season import variables as v
from geo.season.layer import Layer
from geo.texts import mark


def _compute(season: xr.Dataset) -> xr.Dataset:
    """
    Return the near pairs of both ways that spores travel.

    Shared by all diseases: mildew on every organ flies on the same wind, and anthracnose on every
    organ splashes in the same rain, so each way's integrals are done once a run. A disease lays
    its grid for far outlines over them (`geo.dispersal.build.exchange_in`).
    """
    given = pairs_of(season, WIND) | pairs_of(season, SPLASH)
    return xr.Dataset({variable.name: (variable.dims, part) for variable, part in given.items()})


DISPERSAL = Layer(
    name="dispersal",
    question=mark("whose spores arrive"),
    needs=(*OUTLINES, v.POINT_BLOCK, v.POINT_X, v.POINT_Y, v.POINT_SHARE),
    gives=(*WIND.variables, *SPLASH.variables),
    compute=_compute,
)
