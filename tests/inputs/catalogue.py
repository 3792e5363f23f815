"""A small made farm, built in code, and how `mangoblock check` is asked about it."""

import csv
import json
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import pandas as pd
import rasterio
from typer.testing import CliRunner

from geo.cli.commands import app

EAST, NORTH = 288_500.0, 1_614_500.0  # in UTM zone 51 N: 121.04 E, 14.59 N
SYSTEM = "EPSG:32651"
SIDE = 150.0
WHERE = {"station": (121.0375, 14.5955)}
SETTINGS = """\
name = "Small Made Farm"
made = true
zone = "Asia/Manila"

[files]
outlines = "blocks.geojson"
elevation = "ground.tif"
weather = "station.csv"
forecast = "forecast.csv"
diary = "diary.csv"
scouting = "scouting.csv"

[station]
longitude = 121.0375
latitude = 14.5955
elevation = 100
wind_height = 2.0

[plan]
horizon_days = 2
"""
WEATHER = ("air_temperature_degC", "relative_humidity_percent", "wind_speed_m_s")
WEATHER += ("precipitation_mm", "cloud_cover_fraction")
DIARY = """\
date,time,block_id,material
2026-02-02,06:30,B1;B2,sulfur
2026-02-03,06:30,B3,copper
"""
SCOUTING = """\
date,block_id,inspected,infected,stage
2026-02-02,B1,50,0,613
2026-02-03,B2,50,4,613:0.4;615:0.6
"""
FAULT_COLUMNS = ("outcome", "code", "file", "row", "column", "value")


def square(column: int, *, side: float = SIDE, row: int = 0) -> list[list[float]]:
    """Return the corners of a square block, in metres; columns stand 200 m apart."""
    west, south = EAST + 200.0 * column, NORTH + 200.0 * row
    return [
        [west, south],
        [west + side, south],
        [west + side, south + side],
        [west, south + side],
        [west, south],
    ]


def in_degrees(corners: list[list[float]]) -> list[list[float]]:
    """Return corners in degrees, longitude first."""
    from pyproj import Transformer

    to_degrees = Transformer.from_crs(SYSTEM, 4326, always_xy=True)
    return [list(to_degrees.transform(*corner)) for corner in corners]


def polygon(*rings: list[list[float]]) -> dict[str, object]:
    """Return an area of GeoJSON from rings in metres."""
    return {"type": "Polygon", "coordinates": [in_degrees(ring) for ring in rings]}


def weather_rows(first: str, hours: int) -> pd.DataFrame:
    """Return made hours: warm at 14, damp at night, dry."""
    time = pd.date_range(first, periods=hours, freq="h")
    swing = np.cos(2.0 * np.pi * (time.hour.to_numpy() - 14) / 24.0)
    return pd.DataFrame(
        {
            "time": time.strftime("%Y-%m-%dT%H:%M"),
            "air_temperature_degC": (25.0 + 6.0 * swing).round(1),
            "relative_humidity_percent": (75.0 - 15.0 * swing).round(1),
            "wind_speed_m_s": (1.5 + swing).round(2),
            "precipitation_mm": 0.0,
            "cloud_cover_fraction": 0.3,
        }
    ).astype(object)


@dataclass
class SmallFarm:
    """The small farm in a folder of its own."""

    folder: Path
    blocks: list[dict[str, object]] = field(default_factory=list)

    def build(self) -> "SmallFarm":
        """Write all its files."""
        self.folder.mkdir(parents=True)
        self.write("farm.toml", SETTINGS)
        self.write("diary.csv", DIARY)
        self.write("scouting.csv", SCOUTING)
        self.hours("station.csv", weather_rows("2026-02-01T00:00", 78))
        self.hours("forecast.csv", weather_rows("2026-02-04T06:00", 42))
        self.ground(np.full((60, 60), 100.0))
        self.blocks = [
            {"block_id": f"B{number}", "cultivar": "Kent", "corners": polygon(square(number))}
            for number in (1, 2, 3)
        ]
        self.draw()
        return self

    def write(self, name: str, text: str | bytes) -> None:
        """Write a file."""
        content = text.encode("utf-8") if isinstance(text, str) else text
        (self.folder / name).write_bytes(content)

    def add(self, name: str, text: str) -> None:
        """Add text to a file."""
        self.write(name, (self.folder / name).read_text("utf-8") + text)

    def swap(self, name: str, old: str, new: str) -> None:
        """Change a text in a file."""
        text = (self.folder / name).read_text("utf-8")
        assert old in text
        self.write(name, text.replace(old, new))

    def hours(self, name: str, rows: pd.DataFrame) -> None:
        """Write hours."""
        rows.to_csv(self.folder / name, index=False)

    def frame(self, name: str) -> pd.DataFrame:
        """Return a table as text."""
        return pd.read_csv(self.folder / name, dtype=object, keep_default_na=False)

    def ground(self, heights: np.ndarray, **options: object) -> None:
        """Write the elevation file: cells of 60 m around the blocks."""
        rows, columns = heights.shape
        place = rasterio.Affine(60.0, 0.0, EAST - 1500.0, 0.0, -60.0, NORTH + 2000.0)
        profile = {"crs": SYSTEM, "transform": place, "dtype": "float32", "nodata": -9999.0}
        units = options.pop("units", "m")
        with rasterio.open(
            self.folder / "ground.tif",
            "w",
            driver="GTiff",
            height=rows,
            width=columns,
            count=1,
            **(profile | options),
        ) as raster:
            raster.write(heights.astype(raster.dtypes[0]), 1)
            if units:
                raster.set_band_unit(1, units)

    def draw(self, name: str = "blocks.geojson") -> None:
        """Write the outlines."""
        features = [
            {
                "type": "Feature",
                "properties": {key: value for key, value in block.items() if key != "corners"},
                "geometry": block["corners"],
            }
            for block in self.blocks
        ]
        self.write(name, json.dumps({"type": "FeatureCollection", "features": features}))

    def block(self, number: int, **values: object) -> None:
        """Change a block, or what is written of it."""
        self.blocks[number - 1].update(values)
        self.draw()

    def check(self, *options: str) -> "Checked":
        """Type the check."""
        out = self.folder.parent / "out"
        told = CliRunner().invoke(app, ["check", str(self.folder), "--out", str(out), *options])
        assert told.exception is None or isinstance(told.exception, SystemExit), told.exception
        with (out / "check.csv").open(encoding="utf-8", newline="") as opened:
            faults = list(csv.DictReader(opened))
        return Checked(told.exit_code, told.stdout, faults)


@dataclass
class Checked:
    """What a check said: its code, its words and its table."""

    exit_code: int
    words: str
    faults: list[dict[str, str]]

    def codes(self) -> list[str]:
        """Return the codes of all faults."""
        return [fault["code"] for fault in self.faults]

    def only(self, code: str) -> dict[str, str]:
        """Return the one fault of a kind."""
        found = [fault for fault in self.faults if fault["code"] == code]
        assert len(found) == 1, [(fault["code"], fault["found"]) for fault in self.faults]
        return found[0]


def assert_told(checked: Checked, told: str, *parts: str) -> None:
    """
    Hold a check against what its table shall say.

    Parameters
    ----------
    checked : Checked
        What was said.
    told : str
        "outcome code file row column value", with - for what the fault does not name, and * for
        words that are another library's.
    *parts : str
        Words that shall stand in what was found or in what to do.
    """
    expected = dict(zip(FAULT_COLUMNS, told.split(None, 5), strict=False))
    fault = checked.only(expected["code"])
    for column, value in expected.items():
        if value != "*":
            assert fault[column] == ("" if value == "-" else value), (column, fault)
    for part in parts:
        assert part in f"{fault['found']}. {fault['fix']}", fault
    stops = any(fault["outcome"] == "STOP" for fault in checked.faults)
    holds = any(fault["outcome"] == "HOLD" for fault in checked.faults)
    assert checked.exit_code == (2 if stops else 3 if holds else 0)
