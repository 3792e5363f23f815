"""How does a name stand in a sentence that is written the other way?"""

import re

from geo.texts.phrases import language

# Marks of the Unicode standard: what stands between them takes its direction from its own first
# letter, and does not change the order of the words round it.
FIRST_STRONG, POP = "\u2068", "\u2069"
# Letters of scripts that are written from right to left.
_RIGHT_TO_LEFT = re.compile(
    "[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc\U00010800-\U00010fff\U0001e800-\U0001efff]"
)


def isolated(text: str) -> str:
    """
    Return a name, or a number with its unit, as it may stand in a sentence on a page.

    Parameters
    ----------
    text : str
        As the user wrote it.

    Returns
    -------
    str
        Between two marks that nobody sees where it is written the other way than the language
        spoken now, else as it is.

    Notes
    -----
    Unicode Standard Annex 9, isolates. For pages only: a terminal or another program may show the
    marks.

    Examples
    --------
    >>> isolated("B7")
    'B7'
    """
    if language().direction == "ltr" and not _RIGHT_TO_LEFT.search(text):
        return text
    return f"{FIRST_STRONG}{text}{POP}"
