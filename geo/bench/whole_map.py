"""How much longer does the whole map of the demo farm take than importing what it needs?"""

import subprocess
import sys
from collections.abc import Iterator
from importlib.resources import files
from tempfile import TemporaryDirectory

from geo.bench.pairs import ratio

IMPORTS = (
    "import exactextract, folium, geopandas, numpy, pandas, pvlib, pyogrio, pyproj, rasterio.warp, "
    "rich.console, scipy.ndimage, scipy.special, shapely, typer, xarray"
)


def lines() -> Iterator[str]:
    """
    Time the map of the demo farm in a process of its own.

    Yields
    ------
    str
        What was found, a line each.
    """
    farm = str(files("layers_demo") / "valley_farm")
    with TemporaryDirectory() as folder:
        words = ["map", farm, "--out", folder]
        deed = f"from geo.cli.commands import app; app({words!r})"
        found = ratio(lambda: _python(deed), lambda: _python(IMPORTS))
    yield f"map of the demo farm : only importing its libraries = {found}"


def _python(code: str) -> None:
    subprocess.run([sys.executable, "-c", code], check=True, capture_output=True)
