"""Start a farm folder from a file of outlines: settings that explain themselves, empty tables."""

import re
import shutil
from pathlib import Path

from geo.errors import stop
from geo.exports.files import write_text
from geo.inputs.reading import Reading
from geo.inputs.settings import FILE
from geo.inputs.vectors import DEGREES, read_features
from geo.texts import language, phrase, phrase_for
from geo.texts.comments import with_said_comments

# Head of each table; what may be left out stands there too, since leaving a column empty is easier
# than finding out its name.
TABLES = {
    "station.csv": "time,air_temperature_degC,relative_humidity_percent,wind_speed_m_s,"
    "precipitation_mm,cloud_cover_fraction\n",
    "diary.csv": "date,time,block_id,material,note\n",
    "scouting.csv": "date,block_id,disease,inspected,infected,stage,note\n",
}
_UNNAMED_ZONE = "Area/City"
# Files of the demo farm that a farm may do without, until it has its own.
_OWN_LATER = ("forecast", "neighbours", "places", "labels")


def start_farm(folder: Path, outlines: Path, *, example: Path, zone: str = "") -> list[Path]:
    """
    Write a new farm folder.

    Parameters
    ----------
    folder : pathlib.Path
        Made; it must not hold anything yet.
    outlines : pathlib.Path
        Blocks, in any format GDAL reads. The file is copied, with the files that belong to it.
    example : pathlib.Path
        Settings of a farm in which every key is explained.
    zone : str
        Of the farm, by its IANA name; left to be filled in if empty.

    Returns
    -------
    list of pathlib.Path
        What was written.

    Raises
    ------
    InputError
        If the folder holds something, or the outlines cannot be read.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        found = phrase("is there already, and nothing is overwritten")
        fix = phrase("Name a new folder")
        raise stop("E-OUT-THERE", str(folder), found, fix)
    if not outlines.is_file():
        found, fix = phrase_for("a file", "not found"), phrase("Check the path of the outlines")
        raise stop("E-FILE-MISSING", str(outlines), found, fix)
    longitude, latitude = _middle(outlines)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        copies = [Path(shutil.copy2(path, folder)) for path in _with_its_parts(outlines)]
        settings = folder / FILE
        text = _settings(example.read_text("utf-8"), name=folder.name, zone=zone)
        text = text.replace('outlines = "blocks.geojson"', f'outlines = "{outlines.name}"')
        middle, station = (
            phrase("the middle of the blocks"),
            phrase("put in where the station stands"),
        )
        text = _valued(text, "longitude", f"{longitude:.5f}  # {middle}")
        text = _valued(text, "latitude", f"{latitude:.5f}  # {station}")
        write_text(settings, text)
        for name, head in TABLES.items():
            write_text(folder / name, head)
    except OSError as error:
        found = phrase("cannot be written to ({reason})", reason=error.strerror or error)
        raise stop("E-OUT-WRITE", str(folder), found, phrase("Name another folder")) from error
    return [settings, *copies, *(folder / name for name in TABLES)]


def _middle(outlines: Path) -> tuple[float, float]:
    reading = Reading("outlines", outlines)
    drawn = read_features(reading, required=("block_id",), optional=("cultivar",))
    west, south, east, north = drawn.to_crs(DEGREES).total_bounds
    return float((west + east) / 2.0), float((south + north) / 2.0)


def _with_its_parts(outlines: Path) -> list[Path]:
    """Return a drawing and, of a shapefile, the files beside it."""
    if outlines.suffix.lower() != ".shp":
        return [outlines]
    return sorted(
        path for path in outlines.parent.iterdir() if path.is_file() and path.stem == outlines.stem
    )


def _settings(example: str, *, name: str, zone: str) -> str:
    """Return the settings of a farm of one's own: what only its people know is left open."""
    _, _, text = example.partition("\n\n")
    told = phrase(
        "Fill in what is marked, put your files beside this one, and type: {command}",
        command="mangoblock check",
    )
    text = f"# {told}\n\n{with_said_comments(text)}"
    plain = re.sub(r'["\\\x00-\x1f]', " ", name).strip() or phrase("My farm")
    text = _valued(text, "name", f'"{plain}"')
    text = _valued(text, "made", "false")
    text = _valued(text, "language", f'"{language().tag}"')
    text = _valued(
        text, "zone", f'"{zone or _UNNAMED_ZONE}"' + ("" if zone else f"  # {phrase('fill in')}")
    )
    text = re.sub(
        r"^(elevation = \d.*)$",
        lambda found: f"# {phrase('fill in')}: {found.group()}",
        text,
        flags=re.MULTILINE,
    )
    for key in _OWN_LATER:
        text = re.sub(rf"^({key} = .*)$", r"# \1", text, flags=re.MULTILINE)
    return text


def _valued(text: str, key: str, value: str) -> str:
    return re.sub(
        rf"^{re.escape(key)} = .*$",
        lambda _: f"{key} = {value}",
        text,
        count=1,
        flags=re.MULTILINE,
    )
