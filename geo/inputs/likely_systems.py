"""In which coordinate systems would bare numbers lie near the farm? Told, and none is chosen."""

import numpy as np
from pyproj import CRS, Geod, Transformer
from pyproj.aoi import AreaOfInterest
from pyproj.database import query_crs_info
from pyproj.enums import PJType
from pyproj.exceptions import ProjError

NEAR_M = 50_000.0  # a station further off is no station of the farm (our choice)
SHOWN = 4
_DEGREES = "WGS 84 (EPSG:4326)"
_FIRST = "WGS 84"  # what receivers write stands before the older systems of a country
_LARGEST_LONGITUDE, _LARGEST_LATITUDE = 180.0, 90.0


def likely_systems(x: float, y: float, *, near: tuple[float, float] | None) -> list[str]:
    """
    Return systems in which a pair of numbers lies near a place.

    Parameters
    ----------
    x, y : float
        As drawn, in nobody knows what.
    near : tuple of float or None
        Longitude and latitude of a station; None where none is known.

    Returns
    -------
    list of str
        At most four, with their number in the EPSG register.

    Examples
    --------
    >>> likely_systems(288_900.0, 1_614_600.0, near=(121.04, 14.6))[0]
    'WGS 84 / UTM zone 51N (EPSG:32651)'
    >>> likely_systems(121.04, 14.6, near=(121.04, 14.6))
    ['WGS 84 (EPSG:4326)']
    """
    if near is None or not np.isfinite([x, y]).all():
        return []
    geod = Geod(ellps="WGS84")
    if abs(x) <= _LARGEST_LONGITUDE and abs(y) <= _LARGEST_LATITUDE:
        return [_DEGREES] if geod.inv(x, y, *near)[2] <= NEAR_M else []
    systems = query_crs_info(
        auth_name="EPSG",
        pj_types=PJType.PROJECTED_CRS,
        area_of_interest=AreaOfInterest(*near, *near),
        contains=True,
    )
    found: list[str] = []
    for system in sorted(systems, key=lambda one: (not one.name.startswith(_FIRST), one.name)):
        if _lies_near(f"EPSG:{system.code}", x, y, near=near, geod=geod):
            found.append(f"{system.name} (EPSG:{system.code})")
        if len(found) == SHOWN:
            break
    return found


def _lies_near(code: str, x: float, y: float, *, near: tuple[float, float], geod: Geod) -> bool:
    try:
        to_degrees = Transformer.from_crs(CRS(code), CRS("EPSG:4326"), always_xy=True)
        longitude, latitude = to_degrees.transform(x, y)
    except ProjError:
        return False
    if not np.isfinite([longitude, latitude]).all():
        return False
    return bool(geod.inv(longitude, latitude, *near)[2] <= NEAR_M)
