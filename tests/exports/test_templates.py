"""What is taken out of the scripts and styles that pages carry, and what is not."""

import re

import minify
import pytest

from geo.exports.map_page import SCRIPTS, STYLES
from geo.exports.templates import PAGE, joined

KINDS = {".js": "application/javascript", ".css": "text/css"}
FILES = sorted(path.name for path in PAGE.iterdir() if path.suffix in KINDS)


# A minifier parses the language as its standard says and drops whatever says nothing: what it
# makes of the file and of what pages carry is the same program. tdewolff/minify.
@pytest.mark.parametrize("name", FILES)
def test_a_file_without_its_comments_is_the_same_program(name: str) -> None:
    kind = KINDS[(PAGE / name).suffix]
    written, carried = (PAGE / name).read_text("utf-8"), joined((name,))
    assert minify.string(kind, carried) == minify.string(kind, written)
    assert len(carried) < len(written)


@pytest.mark.parametrize("names", [SCRIPTS, STYLES])
def test_comments_stay_at_home(names: tuple[str, ...]) -> None:
    carried = joined(names)
    assert "/*" not in carried
    assert not re.search(r"^\s*//", carried, flags=re.MULTILINE)
    assert not re.search(r"^\s|\s$|\n\n", carried)
