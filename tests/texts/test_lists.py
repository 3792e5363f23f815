"""Is a row of things told as the language tells it?"""

import pytest

from geo.texts import Language, listed, speaking

BLOCKS = ("B1", "B2", "B3")


@pytest.mark.parametrize(
    ("tongue", "last", "expected"),
    [
        ("en", "and", ["", "B1", "B1 and B2", "B1, B2 and B3"]),
        ("en", "or", ["", "B1", "B1 or B2", "B1, B2 or B3"]),
        ("en", "comma", ["", "B1", "B1, B2", "B1, B2, B3"]),
        # Unicode locale data (CLDR), list patterns of Spanish and of Chinese.
        ("es", "and", ["", "B1", "B1 y B2", "B1, B2 y B3"]),
        ("es", "or", ["", "B1", "B1 o B2", "B1, B2 o B3"]),
        ("es", "comma", ["", "B1", "B1, B2", "B1, B2, B3"]),
        (Language("zh", locale="zh"), "and", ["", "B1", "B1和B2", "B1、B2和B3"]),
        (Language("zh", locale="zh"), "comma", ["", "B1", "B1、B2", "B1、B2、B3"]),
    ],
)
def test_none_one_two_and_three(tongue, last, expected):
    with speaking(tongue):
        assert [listed(BLOCKS[:count], last=last) for count in range(4)] == expected


def test_braces_in_a_name_are_never_read():
    for tongue in ("en", "es"):
        with speaking(tongue):
            assert listed(["{0}", "{x}", "{"])[:8] == "{0}, {x}"
