"""What do water, hives and houses near a block say of each hour?"""

from collections.abc import Iterator

import numpy as np
import shapely

from geo.arrays import AnyArray, FloatArray
from geo.reference.number import values
from geo.season.farm import Farm
from geo.texts import phrase
from geo.windows.drift import DriftCurve, distance_downwind, drift_share
from geo.windows.forecast import Forecast
from geo.windows.gate import Gate, at_least
from geo.windows.rules import TABLE, rule_of

SPARED = ("water", "hive")  # drops may not be carried there
PEOPLE = "house"
FINE_DROPS = ("airblast", None)  # or not known, which is taken as the wider one
EDGE = ("spray", "sensitive_edge")


def place_gates(farm: Farm, forecast: Forecast) -> Iterator[Gate]:
    """
    Ask the rules about sensitive places that are drawn on the map.

    Parameters
    ----------
    farm : Farm
        Outlines, places and the kind of sprayer.
    forecast : Forecast
        Of the blocks.

    Yields
    ------
    Gate
        One a rule, as far as there are such places.
    """
    kind, drawn = farm.places["kind"], farm.places.geometry
    houses, spared = drawn[kind == PEOPLE].to_numpy(), drawn[kind.isin(SPARED)].to_numpy()
    outlines = farm.blocks.geometry.to_numpy()
    if len(houses):
        rule = rule_of(
            "exclusion", phrase("People too near, metres to a house"), number=_zone(farm)
        )
        nearest = shapely.distance(outlines[:, None], houses[None, :]).min(axis=1)
        yield at_least(rule, np.repeat(nearest[:, None], forecast.hour.size, axis=1))
    if len(spared):
        rule = rule_of("buffer", phrase("Water or hives downwind, metres away"), number=EDGE)
        distance, bearing = _towards(outlines, spared)
        yield at_least(rule, distance_downwind(distance, bearing, forecast.wind_from))


def distances_apart(farm: Farm) -> tuple[tuple[tuple[str, ...], float, str], ...]:
    """
    Return how far from which kinds of places the rules ask about spraying.

    Parameters
    ----------
    farm : Farm
        Knows the kind of sprayer.

    Returns
    -------
    tuple of tuple
        Kinds of places, metres, and what the rule is about.
    """
    (table, zone), (_, edge) = _zone(farm), EDGE
    limits = values(TABLE, table)
    return (
        ((PEOPLE,), limits[zone], phrase("No spraying with people this near")),
        (SPARED, limits[edge], phrase("No spraying with water or hives this near downwind")),
    )


def _zone(farm: Farm) -> tuple[str, str]:
    is_fine = farm.settings.sprayer in FINE_DROPS
    return "spray", "exclusion_airblast" if is_fine else "exclusion_other"


def drift_at(distance: float) -> float:
    """
    Return how much of the rate drifts as far as a place.

    Parameters
    ----------
    distance : [m]
        From the edge of the block.

    Returns
    -------
    float
        [%] By the published curve for early stages, the higher one.
    """
    curve = DriftCurve(**values(TABLE, "drift early"))
    return float(drift_share(np.asarray(distance), curve))


def _towards(outlines: AnyArray, places: AnyArray) -> tuple[FloatArray, FloatArray]:
    """Return distance and bearing from the nearest edge of each block to each place."""
    lines = shapely.shortest_line(outlines[:, None], places[None, :])
    start, end = (shapely.get_point(lines, end) for end in (0, -1))
    east = shapely.get_x(end) - shapely.get_x(start)
    north = shapely.get_y(end) - shapely.get_y(start)
    distance = np.hypot(east, north)
    # A place within the block lies downwind of some of its trees in any wind.
    bearing = np.where(distance > 0.0, np.degrees(np.arctan2(east, north)), np.nan)
    return distance, bearing
