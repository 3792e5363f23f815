"""How are several things named one after the other?"""

from collections.abc import Iterable

from geo.texts.phrases import language


def listed(items: Iterable[str], *, last: str = "and") -> str:
    """
    Return things in a row, with the language's own word before the last.

    Parameters
    ----------
    items : iterable of str
        Said already: names, noun phrases, or clauses of one kind.
    last : str
        ``and``, ``or``, or ``comma`` where no word stands before the last.

    Returns
    -------
    str
        Such as ``B1, B2 and B3``; in other languages as the Unicode locale data have it. Empty
        for nothing.

    Examples
    --------
    >>> listed(["B1", "B2", "B3"]), listed(["B1", "B2"], last="or"), listed(["B1"])
    ('B1, B2 and B3', 'B1 or B2', 'B1')
    """
    named = list(items)
    # English by ourselves: without a comma before the word, and at no cost of an import.
    if language().tag == "en":
        return _in_english(named, last)
    from babel.lists import format_list

    locale = language().locale
    if last == "comma":
        # The locale data know no such list: take what they put between the first two of many.
        return format_list(["\0"] * 3, locale=locale).split("\0")[1].join(named)
    return format_list(named, "or" if last == "or" else "standard", locale)


def _in_english(named: list[str], last: str) -> str:
    if last == "comma":
        return ", ".join(named)
    return f" {last} ".join(filter(None, [", ".join(named[:-1]), *named[-1:]]))
