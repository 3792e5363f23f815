"""
Languages that nobody speaks, by which it shows what a page does with words.

After the pseudo-locales en-XA and ar-XB of the Unicode locale data (CLDR).
"""

import re
from collections.abc import Callable
from functools import cache

from geo.texts import Language
from geo.texts.collect import collected

# Values and markup stay as they are.
_KEPT = re.compile(r"(\{[^}]*\}|<[^>]*>|&\w+;|\s+)")
_ARABIC = dict(zip("abcdefghijklmnopqrstuvwxyz", "ابتثجحخدذرزسشصضطظعغفقكلمنه", strict=True))


@cache
def bracketed() -> Language:
    """Return the language in which every sentence stands in brackets: other words were not said."""
    return _made("en-XA", "ltr", lambda text: f"⟦{text}⟧")


@cache
def lengthened() -> Language:
    """Return a language of words that are longer by two fifths, and never shorter than six."""
    return _made("en-XA", "ltr", lambda text: _by_word(text, _longer))


@cache
def mirrored() -> Language:
    """Return a language that is written from right to left."""
    return _made("ar-XB", "rtl", lambda text: _by_word(text, _in_arabic_letters))


def unsaid(text: str) -> str:
    """Return what of a text stands outside the brackets of `bracketed`."""
    depth, kept = 0, []
    for letter in text:
        depth += (letter == "⟦") - (letter == "⟧")
        kept.append(letter if depth == 0 and letter != "⟧" else " ")
    return re.sub(r" +", " ", "".join(kept))


def _made(tag: str, direction: str, change: Callable[[str], str]) -> Language:
    sentences, of_scripts = {}, set()
    for found in collected().values():
        for (whom, text, many), places in found.items():
            key = f"{whom}\x04{text}" if whom else text
            sentences[key] = tuple(change(one) for one in (text, many) if one)
            if any(file.endswith(".js") for file, _ in places):
                of_scripts.add(key)
    locale = "en" if direction == "ltr" else "ar"
    return Language(tag, direction, sentences, frozenset(of_scripts), locale=locale)


def _by_word(text: str, change: Callable[[str], str]) -> str:
    parts = _KEPT.split(text)
    return "".join(part if _KEPT.fullmatch(part) else change(part) for part in parts)


def _longer(word: str) -> str:
    letters = re.sub(r"\W", "", word)
    if len(letters) < 3:
        return word
    more = max(6 - len(letters), round(0.4 * len(letters)))
    return word.replace(letters[-1], letters[-1] + "eyorlun"[:more] + "x" * (more - 7), 1)


def _in_arabic_letters(word: str) -> str:
    return "".join(_ARABIC.get(letter.lower(), letter) for letter in word)
