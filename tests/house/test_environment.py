"""Variables that another GIS left in the environment do not break ours."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

READ_A_SYSTEM = """
import geo
import pyogrio, pyproj
from rasterio.crs import CRS
print(CRS.from_epsg(32613).linear_units, pyproj.CRS.from_epsg(32613).name)
"""


@pytest.mark.parametrize("variable", ["PROJ_DATA", "PROJ_LIB", "GDAL_DATA"])
def test_data_folders_of_another_gis_are_not_used(variable: str, tmp_path: Path) -> None:
    (tmp_path / "proj.db").write_bytes(b"of another version")
    told = subprocess.run(
        [sys.executable, "-c", READ_A_SYSTEM],
        env={**os.environ, variable: str(tmp_path)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert told.returncode == 0, told.stderr
    assert told.stdout.strip() == "metre WGS 84 / UTM zone 13N"


def test_importing_the_package_loads_no_heavy_library() -> None:
    code = (
        "import sys, geo; print(sorted({'numpy', 'pandas', 'rasterio', 'xarray'} & {*sys.modules}))"
    )
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "[]"
