"""Is a sentence said in the language that is spoken, and a value never read as one?"""

import json
from datetime import date, datetime

import pytest

from geo.exports.page_texts import page_tongue, script_texts
from geo.exports.templates import phrase_html
from geo.texts import Language, language, mark, phrase, phrase_for, phrase_of, phrases, speaking
from geo.texts.days import day_words, hour_words, long_day_words, short_day_words

OURS = Language(
    "ar",
    "rtl",
    {
        "open": ("maftuh",),
        "an hour\x04open": ("maftuha",),
        "{block} waits": ("{block} yantazir",),
        "{count} block": ("{count} qita", "{count} qitaan"),
        "<b>{name}</b> waits": ("yantazir <b>{name}</b>",),
    },
    frozenset({"open"}),
    locale="ar",
)


def test_english_is_what_the_source_says():
    assert language().tag == "en"
    assert phrase("{block} waits", block="B7") == "B7 waits"
    assert page_tongue() == 'lang="en"'
    assert script_texts() == ""


def test_another_language_is_spoken_until_the_end_of_its_block():
    with speaking(OURS):
        assert phrase("open") == phrase_of(mark("open")) == "maftuh"
        assert phrase_for("an hour", "open") == "maftuha"
        assert phrases("{count} block", "{count} blocks", 1) == "1 qita"
        assert phrases("{count} block", "{count} blocks", 5) == "5 qitaan"
        assert page_tongue() == 'lang="ar" dir="rtl"'
    assert phrase("open") == "open"


def test_what_a_catalogue_lacks_is_said_in_english():
    with speaking(OURS):
        assert phrase("closed") == phrase_for("an hour", "closed") == "closed"
        assert phrases("{count} tree", "{count} trees", 2) == "2 trees"


def test_braces_in_a_value_are_never_read():
    for tongue in ("en", OURS):
        with speaking(tongue):
            assert "{open} {0}" in phrase("{block} waits", block="{open} {0}")


def test_a_value_is_escaped_in_a_sentence_with_markup():
    with speaking(OURS):
        assert phrase_html("<b>{name}</b> waits", name="<i>") == "yantazir <b>&lt;i&gt;</b>"


def test_a_region_is_passed_over_and_an_unknown_language_refused():
    with speaking("es-PE") as spoken:
        assert spoken.tag == "es"
        assert language() is spoken
    with pytest.raises(ValueError, match="no language 'xx': one of en, es"), speaking("xx"):
        pass


# Unicode locale data (CLDR), abbreviated forms, as printed by its chart for Spanish.
def test_days_are_said_as_the_unicode_locale_data_have_them():
    day = date(2024, 8, 14)
    with speaking("es"):
        assert day_words(day) == "mié, 14 ago"
        assert short_day_words(day) == "14 ago"
        assert long_day_words(day) == "14 de agosto"
        assert hour_words(datetime(2024, 8, 14, 6)) == "mié, 14 ago 06:00"  # noqa: DTZ001


def test_the_words_of_scripts_come_with_the_page_and_cannot_end_their_element():
    hostile = Language(
        "es", sentences={"open": ("</script>",)}, of_scripts=frozenset({"open"}), locale="es"
    )
    with speaking(hostile):
        markup = str(script_texts())
    assert markup.count("</script>") == 1
    said = json.loads(markup[markup.index(">") + 1 : markup.index("</script>")])
    assert said["sentences"] == {"open": ["</script>"]}
    assert said["plural"] == {"one": 0, "other": 1}
