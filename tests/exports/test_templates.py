"""What is taken out of the scripts that pages carry, and what is not."""

import re

import pytest

from geo.exports.map_page import SCRIPTS, STYLES
from geo.exports.templates import PAGE, joined

# What is said is written in double quotes, on one line.
SAID = re.compile(r'phrase(?:s|For)?\(\s*("(?:[^"\\]|\\.)+")')


@pytest.mark.parametrize("name", SCRIPTS)
def test_every_sentence_of_a_script_is_carried_letter_by_letter(name: str) -> None:
    written = (PAGE / name).read_text("utf-8")
    carried = joined((name,))
    assert SAID.findall(carried) == SAID.findall(written)
    assert len(carried) < len(written)


@pytest.mark.parametrize("names", [SCRIPTS, STYLES])
def test_comments_stay_at_home(names: tuple[str, ...]) -> None:
    carried = joined(names)
    assert "/*" not in carried
    assert not re.search(r"^\s*//", carried, flags=re.MULTILINE)
