"""Are the catalogues whole, and sound?"""

import json
import re
from string import Formatter

import pytest
from babel.messages.pofile import read_po

from geo.texts.collect import GEO, catalogue_name, collected
from geo.texts.languages import LANGUAGES, language_of

OTHERS = [tag for tag in LANGUAGES if tag != "en"]
SOURCE = collected()
CATALOGUES = [(tag, name) for tag in OTHERS for name in SOURCE]


def messages(tag, name):
    path = GEO / "texts" / tag / f"{name}.po"
    assert path.exists(), f"run python -m geo.texts: {path.name} is not there"
    with path.open("rb") as lines:
        found = [message for message in read_po(lines, locale=tag) if message.id]
    return {
        (one.context or "", one.id if isinstance(one.id, str) else one.id[0]): one for one in found
    }


def forms_of(message):
    return (message.string,) if isinstance(message.string, str) else tuple(message.string)


def fields(text):
    """Return the names in braces, with their formats."""
    return {(name, form) for _, name, form, _ in Formatter().parse(text) if name is not None}


@pytest.mark.parametrize(("tag", "name"), CATALOGUES)
def test_every_sentence_of_the_source_is_translated(tag, name):
    known = messages(tag, name)
    wanted = {(whom, text) for whom, text, _ in SOURCE[name]}
    lacking = {key for key in wanted if key not in known or not all(forms_of(known[key]))}
    assert not lacking
    assert not any(message.fuzzy for message in known.values())


# Sentences within another one's call, or within backquotes, would not be collected.
def test_no_sentence_of_a_script_is_overlooked():
    said = re.compile(r'page\.(?:phrases?\(\s*|phraseFor\(\s*"[^"]*",\s*)("(?:[^"\\]|\\.)*")')
    for path in (GEO / "exports" / "page").glob("*.js"):
        known = {text for _, text, _ in SOURCE.get(catalogue_name(path), {})}
        found = said.findall(path.read_text("utf-8"))
        assert {json.loads(text) for text in found} <= known, path.name


@pytest.mark.parametrize(("tag", "name"), CATALOGUES)
def test_no_catalogue_holds_what_the_source_no_longer_says(tag, name):
    assert set(messages(tag, name)) == {(whom, text) for whom, text, _ in SOURCE[name]}


@pytest.mark.parametrize(("tag", "name"), CATALOGUES)
def test_a_translation_holds_the_same_values_and_the_same_markup(tag, name):
    for message in messages(tag, name).values():
        texts = (message.id,) if isinstance(message.id, str) else message.id
        for said in forms_of(message):
            # A form for one may leave the number out.
            wanted = set.union(*map(fields, texts))
            assert fields(said) <= wanted, said
            assert wanted - fields(said) <= ({("count", "")} if len(texts) > 1 else set()), said
            assert sorted(re.findall(r"</?\w+[^>]*>", said)) == sorted(
                re.findall(r"</?\w+[^>]*>", texts[-1])
            ), said


@pytest.mark.parametrize("tag", OTHERS)
def test_a_sentence_of_several_rooms_is_said_in_one_way(tag):
    said = {}
    for name in SOURCE:
        for key, message in messages(tag, name).items():
            assert said.setdefault(key, forms_of(message)) == forms_of(message), key


@pytest.mark.parametrize("tag", OTHERS)
def test_all_catalogues_can_be_spoken(tag):
    assert len(language_of(tag).sentences) >= len(
        {(whom, text) for sentences in SOURCE.values() for whom, text, _ in sentences}
    )


# Words that Spanish writes as English does.
ALIKE = {"factor", "Factor", "cultivar", "Cultivar", "mancozeb", "Bacillus subtilis"}


def test_no_sentence_stands_in_english_in_the_spanish_catalogue():
    same = {
        text
        for name in SOURCE
        for (_, text), message in messages("es", name).items()
        if text in forms_of(message) and re.search(r"[a-z]{3}", re.sub(r"\{[^}]*\}", "", text))
    }
    assert same <= ALIKE
