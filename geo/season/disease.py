"""One season for each disease: the same weather, its own looks, stages, sprays and hazard."""

import xarray as xr

DISEASE = "disease"
FIRST = "panicle_mildew"  # what looks without a disease, and seasons made by hand, are about


def season_of_disease(season: xr.Dataset, key: str) -> xr.Dataset:
    """
    Return the season as the layers of one disease read it.

    Parameters
    ----------
    season : xarray.Dataset
        With the layers that all diseases share. Left as it is, and its arrays are not copied.
    key : str
        Of the disease.

    Returns
    -------
    xarray.Dataset
        With the scalar coordinate ``disease``, and the looks for that disease only.
    """
    is_its = season["visit_disease"].values == key
    return season.isel(visit=is_its).assign_coords({DISEASE: key})


def disease_key(season: xr.Dataset) -> str:
    """
    Return which disease a season is about.

    Parameters
    ----------
    season : xarray.Dataset
        As `season_of_disease` gives it; one without a disease is about mildew on panicles.

    Returns
    -------
    str
        Key of the disease.
    """
    return str(season[DISEASE].values) if DISEASE in season.coords else FIRST
