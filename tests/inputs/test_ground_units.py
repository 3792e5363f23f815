"""Units of height: every usual spelling, and the vertical part of a system."""

from types import SimpleNamespace

import numpy as np
import pytest
import rasterio
from pyproj import CRS

from geo.inputs.ground_units import height_unit, horizontal_part, metres_of
from geo.inputs.reading import Reading

SURVEY = 1200.0 / 3937.0
UTM_WITH_HEIGHT = CRS("EPSG:32613+5703")
UTM_WITH_FEET = CRS("EPSG:32613+6360")  # NAVD88 height (ftUS)
UTM_WITH_INTERNATIONAL_FEET = CRS("EPSG:32613+8228")  # NAVD88 height (ft)


@pytest.mark.parametrize(
    "name", ["ft", "FT", "foot", "Feet", "[ft_i]", "international foot", "ft."]
)
def test_international_feet_are_known_by_each_of_their_names(name) -> None:
    assert metres_of(name) == 0.3048


@pytest.mark.parametrize(
    "name",
    [
        "US survey foot",
        "us-ft",
        "ftUS",
        "ft (US)",
        "foot_us",
        "U.S. survey feet",
        "usft",
        "[ft_us]",
    ],
)
def test_survey_feet_are_known_by_each_of_their_names(name) -> None:
    assert metres_of(name) == SURVEY


@pytest.mark.parametrize(
    ("name", "metres"), [("m", 1.0), ("[m]", 1.0), ("Meters", 1.0), ("dm", 0.1), ("cm", 0.01)]
)
def test_parts_of_metres_are_known(name, metres) -> None:
    assert metres_of(name) == metres


@pytest.mark.parametrize("name", ["fathom", "", "degree", "metres above sea level", "42"])
def test_other_words_are_no_unit(name) -> None:
    assert metres_of(name) is None


def unit_of(path, crs, *, name=None):
    """Return the unit that is read from a file, and what was said of it."""
    grid, place = np.ones((3, 3), dtype="float32"), rasterio.Affine(8, 0, 418000, 0, -8, 2623000)
    options = {"driver": "GTiff", "count": 1, "dtype": grid.dtype, "width": 3, "height": 3}
    with rasterio.open(path, "w", crs=crs.to_wkt(), transform=place, **options) as raster:
        raster.write(grid, 1)
        if name:
            raster.units = (name,)
    reading = Reading("elevation", path)
    with rasterio.open(path) as raster:
        whole = CRS.from_wkt(raster.crs.to_wkt())
        assert horizontal_part(whole) == CRS("EPSG:32613")
        unit = height_unit(reading, raster, whole)
    return unit, reading.issues


@pytest.mark.parametrize(
    ("crs", "metres"),
    [
        (CRS("EPSG:32613"), 1.0),
        (UTM_WITH_HEIGHT, 1.0),
        (UTM_WITH_FEET, SURVEY),
        (UTM_WITH_INTERNATIONAL_FEET, 0.3048),
    ],
)
def test_the_vertical_part_of_a_system_names_the_unit(tmp_path, crs, metres) -> None:
    unit, issues = unit_of(tmp_path / "ground.tif", crs)
    assert unit.metres == pytest.approx(metres, rel=1e-9)
    assert bool(unit.name) == crs.is_compound
    assert [issue.code for issue in issues] == ([] if metres == 1.0 else ["E-FEET"])


def test_the_unit_of_the_band_comes_first(tmp_path) -> None:
    unit, issues = unit_of(tmp_path / "ground.tif", UTM_WITH_HEIGHT, name="ft")
    assert unit.metres == 0.3048
    assert "0.3048 m each" in issues[0].found


def test_a_unit_we_do_not_know_is_taken_as_metres_and_said(tmp_path) -> None:
    unit, issues = unit_of(tmp_path / "ground.tif", CRS("EPSG:32613"), name="fathom")
    assert (unit.name, unit.metres) == ("fathom", 1.0)
    assert (issues[0].code, issues[0].outcome) == ("E-GROUND-UNIT", "NOTE")
    assert '"fathom"' in issues[0].found


def test_parts_of_metres_are_turned_into_them_and_said(tmp_path) -> None:
    unit, issues = unit_of(tmp_path / "ground.tif", CRS("EPSG:32613"), name="cm")
    assert unit.metres == 0.01
    assert issues[0].code == "E-GROUND-UNIT"


def test_a_system_of_three_axes_has_heights_and_a_flat_part() -> None:
    assert horizontal_part(CRS("EPSG:4979")) == CRS("EPSG:4979").to_2d()


def test_an_axis_of_heights_names_the_unit_where_the_band_does_not(tmp_path) -> None:
    path = tmp_path / "ground"
    path.write_bytes(b"")
    reading, nameless = Reading("elevation", path), SimpleNamespace(units=(None,))
    unit = height_unit(reading, nameless, UTM_WITH_FEET)
    assert unit.metres == pytest.approx(SURVEY, rel=1e-9)
    assert [issue.code for issue in reading.issues] == ["E-FEET"]
    assert height_unit(reading, nameless, CRS("EPSG:4979")).metres == 1.0
