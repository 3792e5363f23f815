"""What of some sentences is still in English? For tests of other languages."""

import re
from collections.abc import Iterable

# Words that no sentence does without for long, and that mean nothing in the other languages.
_ENGLISH = re.compile(r"\b(?:the|and|with|of|from|is|are|not|its|it|to|by|for)\b", re.IGNORECASE)


def still_english(sentences: Iterable[str], *, names: Iterable[str] = ()) -> list[str]:
    """
    Return the sentences that hold an English word.

    Parameters
    ----------
    sentences : iterable of str
        As said in another language.
    names : iterable of str
        Of the user, or citations: they stay as they are.

    Returns
    -------
    list of str
        Those that were not translated.
    """
    found = []
    for sentence in sentences:
        left = sentence
        for name in names:
            left = left.replace(name, "")
        if _ENGLISH.search(left):
            found.append(sentence)
    return found
