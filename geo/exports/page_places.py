"""What is drawn round the blocks: neighbours, tracks, gates, water, and what to keep away from."""

from typing import Any

import geopandas as gpd
import pandas as pd
import shapely

from geo.exports.outlines import encoded_outlines, encoded_points, inside_circles
from geo.season.farm import Farm
from geo.windows.ask_places import distances_apart


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


def apart_data(farm: Farm) -> list[dict[str, Any]]:
    """
    Return how far round people, water and hives the rules ask about spraying.

    Parameters
    ----------
    farm : Farm
        May have none of them.

    Returns
    -------
    list of dict
        ``words`` and ``outlines``, polygons of rings of [latitude, longitude] pairs: one entry
        for each kind of rule that has such places.
    """
    found = []
    for kinds, distance, what in distances_apart(farm):
        near = farm.places.geometry[farm.places["kind"].isin(kinds)]
        if near.empty:
            continue
        area = gpd.GeoSeries([near.buffer(distance).union_all()], crs=farm.crs).to_crs(4326)
        outlines = [
            [_pairs(part.exterior), *(_pairs(ring) for ring in part.interiors)]
            for part in shapely.get_parts(area.iloc[0])
        ]
        found.append({"words": f"{what}: {distance:.0f} m", "outlines": outlines})
    return found


def _shape(geometry: shapely.Geometry) -> dict[str, Any]:
    if geometry.geom_type.endswith("Point"):
        return {"point": _pairs(geometry)[0]}
    return {"lines": [_pairs(line) for line in shapely.get_parts(geometry)]}


def _pairs(geometry: shapely.Geometry) -> list[list[float]]:
    return [
        [round(float(north), 6), round(float(east), 6)]
        for east, north in shapely.get_coordinates(geometry)
    ]
