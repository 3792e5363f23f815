"""What is drawn round the blocks: neighbours' orchards, tracks, gates, the shed, water."""

from typing import Any

import geopandas as gpd
import pandas as pd
import shapely

from geo.exports.outlines import encoded_outlines, encoded_points, inside_circles
from geo.season.farm import Farm


def neighbours_data(farm: Farm) -> dict[str, Any]:
    """
    Return the neighbours' orchards.

    Parameters
    ----------
    farm : Farm
        May have none.

    Returns
    -------
    dict
        Names, what is known of disease there, and outlines.
    """
    return {
        "name": [str(name) for name in farm.neighbours["name"]],
        "status": [str(status) for status in farm.neighbours["status"]],
        "outlines": encoded_outlines(farm.neighbours.geometry),
        "labels": encoded_points(inside_circles(farm.neighbours.geometry)[:, :2], farm.crs),
    }


def places_data(farm: Farm) -> list[dict[str, Any]]:
    """
    Return points and lines to draw.

    Parameters
    ----------
    farm : Farm
        May have none.

    Returns
    -------
    list of dict
        ``kind``, ``name``, and ``lines`` or ``point`` as [latitude, longitude] pairs.
    """
    places: gpd.GeoDataFrame = farm.places.to_crs(4326)
    return [
        {"kind": str(kind), "name": "" if pd.isna(name) else str(name)} | _shape(geometry)
        for kind, name, geometry in zip(
            places["kind"], places["name"], places.geometry, strict=True
        )
    ]


def _shape(geometry: shapely.Geometry) -> dict[str, Any]:
    if geometry.geom_type.endswith("Point"):
        return {"point": _pairs(geometry)[0]}
    return {"lines": [_pairs(line) for line in shapely.get_parts(geometry)]}


def _pairs(geometry: shapely.Geometry) -> list[list[float]]:
    return [
        [round(float(north), 6), round(float(east), 6)]
        for east, north in shapely.get_coordinates(geometry)
    ]
