"""Pictures of what to look for: four, black and white, the same each time, and light."""

import re
from xml.etree import ElementTree as ET

import numpy as np
import pytest

from geo.exports.drawing_pens import along, bezier, powder, tubes
from geo.exports.drawing_plants import leaf, panicle
from geo.exports.drawings import SHEET, drawings
from geo.reference.diseases import DISEASES


def test_there_is_one_for_each_disease() -> None:
    assert [drawing.disease for drawing in drawings()] == [disease.key for disease in DISEASES]
    assert all(drawing.title and drawing.words for drawing in drawings())


def test_they_are_black_and_white_without_style_or_script() -> None:
    for drawing in drawings():
        ET.fromstring(f"<svg>{drawing.markup}</svg>")
        colours = set(re.findall(r'(?:fill|stroke)="([^"]+)"', drawing.markup))
        assert colours <= {"none", "#000", "#fff"}
        assert "style" not in drawing.markup
        assert len(drawing.markup) < 50_000


def test_ids_of_one_picture_are_its_own() -> None:
    ids = [found for drawing in drawings() for found in re.findall(r'id="(\w+)"', drawing.markup)]
    used = {found for one in drawings() for found in re.findall(r'href="#(\w+)"', one.markup)}
    assert len(ids) == len(set(ids))
    assert used <= set(ids)


def test_they_stay_on_their_sheet() -> None:
    width, height = map(float, SHEET.split()[2:])
    for drawing in drawings():
        points = np.array(
            [
                [float(x), float(y)]
                for x, y in re.findall(r"[MLQ ](-?\d+\.\d),(-?\d+\.\d)", drawing.markup)
            ]
        )
        assert points.min() >= 0
        assert (points <= [width, height]).all()


def test_they_are_drawn_the_same_each_time() -> None:
    first = drawings()
    drawings.cache_clear()
    assert drawings() == first


def test_pens_draw_what_they_are_told() -> None:
    line = bezier((0, 0), (1, 0), (2, 0), (3, 0), count=4)
    assert line[:, 0].tolist() == pytest.approx([0.0, 1.0, 2.0, 3.0])
    assert along(line, 1.5)[:, 0].tolist() == pytest.approx([0.0, 1.5, 3.0])
    drawn = tubes([(line, 2.0), (line, 1.0)])
    assert drawn.count("#000") == drawn.count("#fff") == 2
    # All black before any white, so that branches open into each other.
    assert drawn.rindex("#000") < drawn.index("#fff")
    tufts = powder(line, np.array([0.1, 1.0, 1.0, 2.0]), np.random.default_rng(1))
    assert tufts.count("#fff") == 3


def test_a_panicle_tapers_and_a_leaf_is_even_on_both_sides() -> None:
    plant = panicle(np.random.default_rng(1))
    reach = [np.abs(branch.line[-1, 0] - branch.line[0, 0]) for branch in plant.branches]
    assert reach == sorted(reach, reverse=True)
    straight = leaf(bezier((50, 0), (50, 50), (50, 80), (50, 100)), 10.0)
    left, right = np.split(straight.outline, 2)
    np.testing.assert_allclose(left[:, 0] - 50, 50 - right[::-1, 0], atol=1e-9)
    assert len(straight.veins) > 10
