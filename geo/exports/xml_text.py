"""Which characters may stand in an XML file, or on a page, at all?"""

import re

# Whatever XML 1.0 (section 2.2) has no way to write.
_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def xml_text(text: str) -> str:
    r"""
    Return a text without what no XML file may hold; it still has to be escaped.

    Parameters
    ----------
    text : str
        As the user wrote it.

    Returns
    -------
    str
        The rest of it.

    Examples
    --------
    >>> xml_text("bell\x07 and tab\t")
    'bell and tab\t'
    """
    return _NOT_XML.sub("", text)


# Controls that a page may not hold either (WHATWG HTML, section 13.2.3.5), but for white space.
_NOT_HTML = re.compile("[\x7f-\x9f\ufdd0-\ufdef]")


def html_text(text: str) -> str:
    r"""
    Return a page without what no page may hold; it still has to be escaped.

    Parameters
    ----------
    text : str
        With names as the user wrote them.

    Returns
    -------
    str
        The rest of it.

    Examples
    --------
    >>> html_text("bell\x07 and \x9b5m")
    'bell and 5m'
    """
    return _NOT_HTML.sub("", xml_text(text))
