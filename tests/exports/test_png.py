"""Drawings as PNG."""

import struct

import numpy as np

from geo.exports.png import write_png

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="40" height="20" viewBox="0 0 40 20">'
    '<rect width="20" height="20" fill="#0b5c8a"/><rect x="20" width="20" height="20" fill="#fff"/>'
    '<image href="file:///etc/hostname" width="40" height="20"/></svg>'
)


def test_the_picture_has_the_size_and_the_colours_of_the_drawing(tmp_path) -> None:
    from matplotlib.image import imread

    path = tmp_path / "drawing.svg"
    path.write_text(SVG, "utf-8")
    found = write_png(path)
    assert found == tmp_path / "drawing.png"
    content = found.read_bytes()
    assert content.startswith(b"\x89PNG\r\n\x1a\n")
    assert struct.unpack(">II", content[16:24]) == (40, 20)
    pixels = np.round(imread(found)[..., :3] * 255).astype(int)
    assert pixels[10, 5].tolist() == [0x0B, 0x5C, 0x8A]
    assert pixels[10, 35].tolist() == [255, 255, 255]
    assert [left.name for left in tmp_path.iterdir() if left.name.startswith(".")] == []
