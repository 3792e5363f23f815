"""
A second farm, of a real terrain and a real year of weather that do not belong together.

The ground is a piece of the Cumberland Mountains (SRTM, in matplotlib's sample data), the hours
are Miami's typical year (TMY2, in pvlib's data). No mango grows there; the blocks are drawn.
Cells of the ground are 75 m by 92 m, so a block of three hectares covers a few of them only.
"""

import json
from pathlib import Path

import numpy as np
import pandas as pd
import pvlib
import rasterio

# Centres of the blocks, by the eye on a relief of that ground: longitude, latitude.
HOLLOWS = {
    "H1": (-84.09667, 36.53083),
    "H2": (-84.11417, 36.52667),
    "H3": (-84.12250, 36.50833),
    "H4": (-84.10917, 36.53167),
    "H5": (-84.12083, 36.51250),
}
RIDGES = {
    "R1": (-84.12083, 36.52917),
    "R2": (-84.10417, 36.52917),
    "R3": (-84.11000, 36.52000),
    "R4": (-84.10250, 36.51417),
    "R5": (-84.12750, 36.52750),
}
SLOPES = {"S1": (-84.11500, 36.51600), "S2": (-84.10050, 36.52300)}
STATION = (-84.11250, 36.52450)
HALF_WIDTH, HALF_HEIGHT = 0.0009, 0.0008
CULTIVARS = ("Keitt", "Kent", "Tommy Atkins", "Haden")
YEAR, FIRST_FORECAST_HOUR = 2025, "2025-12-28T06:00"
# The hours of the typical year are Eastern Standard Time all year.
ZONE = "Etc/GMT+5"
FARM_FILE = """
name = "Real ground, real year, drawn blocks"
made = true
zone = "{zone}"
[files]
outlines = "blocks.geojson"
elevation = "elevation.tif"
weather = "station.csv"
forecast = "forecast.csv"
[station]
longitude = {longitude}
latitude = {latitude}
elevation = {elevation}
wind_height = 10.0
"""


def make_real_farm(folder: Path) -> None:
    """Write the farm folder."""
    elevation = _write_ground(folder / "elevation.tif")
    _write_blocks(folder / "blocks.geojson")
    hours = _hours()
    is_forecast = hours["time"] >= FIRST_FORECAST_HOUR
    hours[~is_forecast].to_csv(folder / "station.csv", index=False)
    hours[is_forecast].to_csv(folder / "forecast.csv", index=False)
    longitude, latitude = STATION
    text = FARM_FILE.format(zone=ZONE, longitude=longitude, latitude=latitude, elevation=elevation)
    (folder / "farm.toml").write_text(text, "utf-8")


def _write_ground(path: Path) -> float:
    """Write the ground and return its height at the station."""
    from matplotlib import cbook

    with cbook.get_sample_data("jacksboro_fault_dem.npz") as ground:
        height = ground["elevation"].astype("float32")
        west, north = float(ground["xmin"]), float(ground["ymin"])  # its ymin is the upper edge
        cell = float(ground["dx"])
    profile = {
        "driver": "GTiff",
        "dtype": "float32",
        "count": 1,
        "height": height.shape[0],
        "width": height.shape[1],
        "crs": "EPSG:4326",
        "transform": rasterio.Affine(cell, 0.0, west, 0.0, -cell, north),
    }
    with rasterio.open(path, "w", **profile) as file:
        file.write(height, 1)
    longitude, latitude = STATION
    return float(height[int((north - latitude) / cell), int((longitude - west) / cell)])


def _write_blocks(path: Path) -> None:
    features = [
        {
            "type": "Feature",
            "properties": {"block_id": block, "cultivar": CULTIVARS[number % len(CULTIVARS)]},
            "geometry": {"type": "Polygon", "coordinates": [_outline(longitude, latitude)]},
        }
        for number, (block, (longitude, latitude)) in enumerate((HOLLOWS | RIDGES | SLOPES).items())
    ]
    path.write_text(json.dumps({"type": "FeatureCollection", "features": features}), "utf-8")


def _outline(longitude: float, latitude: float) -> list[tuple[float, float]]:
    corners = [(-1, -1), (1, -0.8), (0.9, 1), (-1, 0.9), (-1, -1)]
    return [(longitude + HALF_WIDTH * x, latitude + HALF_HEIGHT * y) for x, y in corners]


def _hours() -> pd.DataFrame:
    year, _ = pvlib.iotools.read_tmy2(Path(pvlib.__file__).parent / "data" / "12839.tm2")
    start = np.datetime64(f"{YEAR}-01-01T00")
    times = start + np.arange(len(year)).astype("timedelta64[h]")
    # TMY2 carries tenths of degrees, of metres a second and of the sky; and no rain.
    return pd.DataFrame(
        {
            "time": np.datetime_as_string(times, unit="m"),
            "air_temperature_degC": year["DryBulb"].to_numpy() / 10.0,
            "relative_humidity_percent": year["RHum"].to_numpy(),
            "wind_speed_m_s": year["Wspd"].to_numpy() / 10.0,
            "precipitation_mm": 0.0,
            "cloud_cover_fraction": year["OpqCld"].to_numpy() / 10.0,
        }
    )
