"""The made valley farm, run once for all tests that need what a run decides and writes."""

from functools import cache
from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory

from geo.pipeline import Outcome, run, write

FARM = Path(str(files("layers_demo") / "valley_farm"))
_KEPT: list[TemporaryDirectory[str]] = []


@cache
def demo_outcome() -> Outcome:
    """Return what the demo decides; nobody may change it."""
    return run(FARM)


@cache
def demo_folder() -> Path:
    """Return a folder with all outputs of the demo; nobody may change them."""
    _KEPT.append(TemporaryDirectory(prefix="demo"))
    folder = Path(_KEPT[-1].name)
    write(demo_outcome(), folder)
    return folder
