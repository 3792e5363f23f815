"""Write the made farm again: ``python -m layers_demo.make_valley_farm``."""

import csv
import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import rasterio
import shapely

from layers_demo.valley_ground import elevation
from layers_demo.valley_notes import (
    DIARY,
    DIARY_HEADER,
    FOLDER_READ_ME,
    LABELS,
    LABELS_HEADER,
    SCOUTING,
    SCOUTING_HEADER,
)
from layers_demo.valley_outlines import (
    BLOCKS,
    NEIGHBOURS,
    PLACES,
    block_outlines,
    in_degrees,
    neighbour_outlines,
    place_geometries,
)
from layers_demo.valley_place import CELL, COLUMNS, MAP_SYSTEM, ROWS, SOUTH, WEST, Numbers
from layers_demo.valley_settings import settings_text
from layers_demo.valley_weather import LAST_MEASURED, weather

FOLDER = Path(__file__).parent / "valley_farm"


def write_outlines(folder: Path) -> None:
    """
    Write blocks, neighbours and places as GeoJSON.

    Parameters
    ----------
    folder : pathlib.Path
        Where to.
    """
    blocks = [
        dict(
            zip(
                ("block_id", "name", "cultivar", "planted", "mildew_last_season"), row, strict=False
            )
        )
        for row in BLOCKS
    ]
    neighbours = [
        {"neighbour_id": name, "name": text, "status": status}
        for name, text, status, *_ in NEIGHBOURS
    ]
    places = [{"kind": kind, "name": name} for kind, name, _ in PLACES]
    _write_features(folder / "blocks.geojson", blocks, block_outlines())
    _write_features(folder / "neighbours.geojson", neighbours, neighbour_outlines())
    _write_features(folder / "places.geojson", places, place_geometries())


def _write_features(path: Path, rows: list[dict[str, Any]], geometries: list[Any]) -> None:
    features = [
        {
            "type": "Feature",
            "properties": row,
            "geometry": json.loads(shapely.to_geojson(in_degrees(geometry))),
        }
        for row, geometry in zip(rows, geometries, strict=True)
    ]
    lines = ",\n".join(json.dumps(feature) for feature in features)
    path.write_text(f'{{"type": "FeatureCollection", "features": [\n{lines}\n]}}\n', "utf-8")


def write_elevation(folder: Path, ground: Numbers) -> None:
    """
    Write the ground as a compressed GeoTIFF.

    Parameters
    ----------
    folder : pathlib.Path
        Where to.
    ground : [m]
        As made by ``valley_ground.elevation``.
    """
    profile = {
        "driver": "GTiff",
        "dtype": "float32",
        "count": 1,
        "width": COLUMNS,
        "height": ROWS,
        "crs": MAP_SYSTEM,
        "transform": rasterio.Affine(CELL, 0.0, WEST, 0.0, -CELL, SOUTH + ROWS * CELL),
        "nodata": -9999.0,
        "compress": "deflate",
        "predictor": 3,
        "tiled": True,
        "blockxsize": 256,
        "blockysize": 256,
    }
    with rasterio.open(folder / "elevation.tif", "w", **profile) as target:
        target.write(ground.astype("float32"), 1)
        target.units = ("m",)


def write_tables(folder: Path) -> None:
    """
    Write weather, forecast, diary and scouting as CSV.

    Parameters
    ----------
    folder : pathlib.Path
        Where to.
    """
    hours = weather()
    header = (str(hours.index.name), *map(str, hours.columns))
    rows = [tuple(map(str, row)) for row in hours.reset_index().itertuples(index=False)]
    measured = sum(row[0] <= f"{LAST_MEASURED:%Y-%m-%dT%H:%M}" for row in rows)
    # Forecasts give the wind at 10 m: back from 2 m by Eq. 47 of FAO-56.
    ahead = [(*row[:3], f"{float(row[3]) / 0.748:.1f}", *row[4:]) for row in rows[measured:]]
    _write_table(folder / "station.csv", header, rows[:measured])
    _write_table(folder / "forecast.csv", header, ahead)
    _write_table(folder / "diary.csv", DIARY_HEADER, DIARY)
    _write_table(folder / "scouting.csv", SCOUTING_HEADER, SCOUTING)
    _write_table(folder / "labels.csv", LABELS_HEADER, LABELS)


def _write_table(path: Path, header: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> None:
    with path.open("w", encoding="utf-8", newline="") as target:
        writer = csv.writer(target, lineterminator="\n")
        writer.writerow(header)
        writer.writerows(rows)


def main(folder: Path = FOLDER) -> None:
    """
    Write every file of the made farm.

    Parameters
    ----------
    folder : pathlib.Path
        Where to.
    """
    ground = elevation()
    write_outlines(folder)
    write_elevation(folder, ground)
    write_tables(folder)
    (folder / "farm.toml").write_text(settings_text(ground), "utf-8")
    (folder / "README.md").write_text(FOLDER_READ_ME, "utf-8")


if __name__ == "__main__":
    main()
