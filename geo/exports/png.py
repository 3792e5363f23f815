"""Drawings as PNG, where the optional library that renders them is there."""

from pathlib import Path

from geo.errors import stop
from geo.exports.files import write_whole

GET_IT = 'Install it with: pip install "mangoblock-risk[png]", or take --svg'
# Tried on any system that lacks the fonts a style sheet names first.
FAMILY = "DejaVu Sans"


def need_png() -> None:
    """
    Refuse, before anything is computed, if no PNG can be written.

    Raises
    ------
    InputError
        One line that says how to get the library.
    """
    try:
        import resvg_py  # noqa: F401
    except ImportError as error:
        found = "the library that renders PNG is not here"
        raise stop("E-PNG-LIBRARY", "--png", found, GET_IT) from error


def write_png(svg: Path) -> Path:
    """
    Write a drawing as PNG beside its SVG.

    Parameters
    ----------
    svg : pathlib.Path
        One of our own drawings, which names nothing outside itself.

    Returns
    -------
    pathlib.Path
        The same name, ending in ``.png``.
    """
    import resvg_py

    picture = bytes(
        resvg_py.svg_to_bytes(
            svg_string=svg.read_text("utf-8"), font_family=FAMILY, sans_serif_family=FAMILY
        )
    )
    path = svg.with_suffix(".png")

    def write(beside: Path) -> None:
        beside.write_bytes(picture)

    write_whole(path, write)
    return path
