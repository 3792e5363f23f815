"""A copy of the demo farm in which one thing can be changed."""

import csv
import json
import shutil
from pathlib import Path

import pytest

import layers_demo
from geo.errors import InputError, Issue
from geo.inputs import read_farm

DEMO = Path(layers_demo.__file__).parent / "valley_farm"
MATERIALS = ("sulfur", "copper", "myclobutanil", "azoxystrobin", "mineral oil")
CULTIVARS = (
    "Sensation",
    "Tommy Atkins",
    "Kent",
    "Keitt",
    "Haden",
    "Alphonso",
    "Kensington Pride",
    "Nam Dok Mai",
    "Irwin",
    "unknown",
)
STAGES = ("510", "511", "513", "514", "515", "517", "519", "610", "611", "613", "615", "617")
STAGES += ("619", "701", "703", "709")


class FarmCopy:
    """The demo farm in a folder of its own."""

    def __init__(self, folder):
        self.folder = folder

    def read(self):
        """Return what the readers make of it."""
        return read_farm(self.folder, materials=MATERIALS, cultivars=CULTIVARS, stages=STAGES)

    def issues(self, code):
        """Return every issue of one kind."""
        farm, _ = self.read()
        return [issue for issue in farm.issues if issue.code == code]

    def only(self, code) -> Issue:
        """Return the one issue of its kind."""
        found = self.issues(code)
        assert len(found) == 1, found
        return found[0]

    def stopped(self) -> list[Issue]:
        """Return the issues that stopped the run, each on a line of its own."""
        with pytest.raises(InputError) as raised:
            self.read()
        for line in str(raised.value).splitlines():
            assert line.startswith("E-")
        return list(raised.value.issues)

    def stop(self, code) -> Issue:
        """Return the one issue of its kind that stopped the run."""
        found = [issue for issue in self.stopped() if issue.code == code]
        assert len(found) == 1, found
        assert found[0].outcome == "STOP"
        return found[0]

    def swap(self, name, old, new):
        """Change a text in a file."""
        path = self.folder / name
        text = path.read_text("utf-8")
        assert old in text
        path.write_text(text.replace(old, new), "utf-8")

    def table(self, name):
        """Return a table's rows."""
        with (self.folder / name).open(encoding="utf-8", newline="") as opened:
            return list(csv.reader(opened))

    def write_table(self, name, rows):
        """Write a table's rows."""
        with (self.folder / name).open("w", encoding="utf-8", newline="") as opened:
            csv.writer(opened).writerows(rows)

    def cell(self, name, row, column, value):
        """Change a cell; rows count as in a spreadsheet."""
        rows = self.table(name)
        rows[row - 1][rows[0].index(column)] = value
        self.write_table(name, rows)

    def drop(self, name, first, last):
        """Take out rows, the last included."""
        rows = self.table(name)
        self.write_table(name, rows[: first - 1] + rows[last:])

    def add(self, name, *cells):
        """Add a row and return its number."""
        rows = [*self.table(name), list(cells)]
        self.write_table(name, rows)
        return len(rows)

    def features(self, name):
        """Return a map's features."""
        return json.loads((self.folder / name).read_text("utf-8"))["features"]

    def write_features(self, name, features):
        """Write a map's features."""
        text = json.dumps({"type": "FeatureCollection", "features": features})
        (self.folder / name).write_text(text, "utf-8")

    def feature(self, file, number, /, *, geometry=None, **properties):
        """Change a feature; numbers count from 1."""
        features = self.features(file)
        features[number - 1]["properties"].update(properties)
        if geometry is not None:
            features[number - 1]["geometry"] = geometry
        self.write_features(file, features)


@pytest.fixture
def farm(tmp_path):
    shutil.copytree(DEMO, tmp_path / "farm")
    return FarmCopy(tmp_path / "farm")


@pytest.fixture(scope="session")
def demo():
    return read_farm(DEMO, materials=MATERIALS, cultivars=CULTIVARS, stages=STAGES)
