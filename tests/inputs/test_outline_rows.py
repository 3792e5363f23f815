"""Rows and canopy in the outlines: they hold for their block, and a slip of the pen is said."""

import json

import numpy as np

ROWS = ("row_spacing", "row_direction", "canopy_height", "canopy_width")


def write(farm, block, **columns):
    """Write columns of one block."""
    path = farm.folder / "blocks.geojson"
    content = json.loads(path.read_text("utf-8"))
    for feature in content["features"]:
        if feature["properties"]["block_id"] == block:
            feature["properties"] |= columns
    path.write_text(json.dumps(content), "utf-8")


def test_rows_of_a_block_are_kept_and_the_others_are_not_known(farm) -> None:
    write(farm, "B03", row_spacing=7.5, row_direction=40, canopy_height=4, canopy_width="3.5")
    blocks = farm.read()[0].blocks
    assert blocks.loc["B03", list(ROWS)].tolist() == [7.5, 40.0, 4.0, 3.5]
    assert np.isnan(blocks.drop("B03")[list(ROWS)].to_numpy(float)).all()


def test_a_spacing_that_cannot_be_is_noted_and_left_out(farm) -> None:
    write(farm, "B03", row_spacing=-8, canopy_height="tall")
    issues = farm.issues("E-ROWS")
    assert [issue.where for issue in issues] == [
        'blocks.geojson "B03" column row_spacing',
        'blocks.geojson "B03" column canopy_height',
    ]
    assert '"-8" is not within 1 to 30' in issues[0].found
    assert np.isnan(farm.read()[0].blocks.loc["B03", "row_spacing"])
