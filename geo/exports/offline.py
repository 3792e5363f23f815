"""A page that asks the network for nothing: what it runs is inside it, and nothing else may run."""

import base64
import hashlib
import mimetypes
import re
from functools import cache
from pathlib import Path

from branca.element import Figure

from geo.exports.page_texts import page_tongue
from geo.exports.xml_text import html_text

VENDOR = Path(__file__).parent / "vendor"

# Ends of the addresses that the map library links, and our copies. The version in the address is
# ignored on purpose: ours is the one in the lock file.
COPIES = {
    r"/leaflet@[\d.]+/dist/leaflet\.js$": "leaflet/leaflet.js",
    r"/leaflet@[\d.]+/dist/leaflet\.css$": "leaflet/leaflet.css",
}

CHANCE_NAME = r"(?<=_)[0-9a-f]{32}\b"
VIEWPORT = '<meta name="viewport" content="width=device-width, initial-scale=1">'

# What a browser fetches by itself. A plain link that somebody clicks is no fetch.
_FETCHED_BY_MARKUP = (
    r"<script[^>]+\bsrc\s*=",
    r"<link[^>]+\bhref\s*=",
    r"<(?:img|iframe|source|video|audio|embed|object)\b[^>]+\b(?:src|data)\s*=\s*(?![\"']?data:)",
)
_FETCHED_BY_STYLE = (r"url\(\s*[\"']?(?:https?:)?//", r"@import\b")


class OfflineError(RuntimeError):
    """The page would ask the network for something: a fault of ours."""


class OfflineFigure(Figure):
    """
    The root of a page whose scripts and styles are all inside it.

    Links to known addresses are replaced by our copies, unknown ones are refused, and a content
    policy with the digest of each script and style tells the browser to run nothing else and to
    fetch nothing at all.

    Parameters
    ----------
    title : str
        Title of the page, escaped by the caller.
    head : str
        Our own styles and scripts, after the map library's.
    body : str
        Markup after the map.

    Attributes
    ----------
    start : str
        Script that runs once the map is there.
    """

    def __init__(self, *, title: str, head: str, body: str) -> None:
        super().__init__(title=title)
        self.head, self.body = head, body
        self.start = ""

    def render(self, **kwargs: object) -> str:
        """
        Return the page.

        Parameters
        ----------
        **kwargs : object
            Passed on to the children.

        Returns
        -------
        str
            HTML with its content policy; the same bytes for the same children.

        Raises
        ------
        OfflineError
            If anything in it would be fetched.
        """
        for child in self._children.values():
            child.render(**kwargs)
        last = f"{self.script.render(**kwargs)}\n{self.start}"
        shell = (self.header.render(**kwargs), self.html.render(**kwargs), last)
        header, ground, last = _named_in_order(shell)
        header = re.sub(r'<meta name="viewport"[^>]*>', VIEWPORT, header)
        header = re.sub(r"<script[^>]*></script>|<link[^>]*>", _inlined_link, header)
        # Put together by hand: a template would compute what looks like one in a block's name.
        html = (
            f"<!DOCTYPE html>\n<html {page_tongue()}>\n<head>\n<title>{self.title}</title>\n"
            f"{header}\n{self.head}\n</head>\n<body>\n{ground}\n{self.body}\n"
            f"<script>\n{last}\n</script>\n</body>\n</html>\n"
        )
        html = html_text(html)
        check_offline(html)
        return html.replace("<head>", f"<head>\n{_policy(html)}", 1)


def still_page(*, title: str, style: str, body: str, script: str = "") -> str:
    """
    Return a page without scripts, or with one.

    Parameters
    ----------
    title : str
        Title of the page, escaped by the caller.
    style : str
        Style sheet.
    body : str
        Markup.
    script : str
        What runs once the body is there.

    Returns
    -------
    str
        HTML with its content policy; the same bytes for the same parts.
    """
    last = f"<script>\n{guarded(script)}</script>\n" if script else ""
    html = (
        f'<!DOCTYPE html>\n<html {page_tongue()}>\n<head>\n<meta charset="utf-8">\n'
        f"<title>{title}</title>\n{VIEWPORT}\n<style>\n{style}</style>\n</head>\n"
        f"<body>\n{body}\n{last}</body>\n</html>\n"
    )
    html = html_text(html)
    check_offline(html)
    return html.replace("<head>", f"<head>\n{_policy(html)}", 1)


def _named_in_order(parts: tuple[str, ...]) -> list[str]:
    """Replace names given by chance with names by count, so that equal input gives equal bytes."""
    found = dict.fromkeys(re.findall(CHANCE_NAME, "".join(parts)))
    number = {name: str(place) for place, name in enumerate(found)}
    return [re.sub(CHANCE_NAME, lambda match: number[match.group()], part) for part in parts]


def _inlined_link(match: re.Match[str]) -> str:
    address = re.search(r'(?:src|href)="([^"]*)"', match.group())
    return inlined(address.group(1) if address else match.group())


def inlined(url: str) -> str:
    """
    Return the element that stands in for a link.

    Parameters
    ----------
    url : str
        What the map library would have fetched.

    Returns
    -------
    str
        A script or style element with our copy.

    Raises
    ------
    OfflineError
        If we have no copy.
    """
    for pattern, copy in COPIES.items():
        if re.search(pattern, url):
            return script(copy) if copy.endswith(".js") else style(copy)
    message = f"page: expected only addresses with a copy in {VENDOR.name}/, got {url}"
    raise OfflineError(message)


@cache
def script(copy: str) -> str:
    """
    Return a vendored script as an element.

    Parameters
    ----------
    copy : str
        Path within the vendor folder.

    Returns
    -------
    str
        The element, unable to end early.
    """
    text = (VENDOR / copy).read_text("utf-8")
    # Developer tools would try to fetch the map of the minified source.
    text = re.sub(r"(?m)^//# sourceMappingURL=.*$", "", text)
    return f"<script>{guarded(text)}</script>"


@cache
def style(copy: str) -> str:
    """
    Return a vendored style sheet as an element, its pictures inside.

    Parameters
    ----------
    copy : str
        Path within the vendor folder.

    Returns
    -------
    str
        The element.
    """
    folder = (VENDOR / copy).parent

    def picture(match: re.Match[str]) -> str:
        name = match.group(1).strip("'\"")
        return match.group(0) if name.startswith("#") else f'url("{data_uri(folder / name)}")'

    text = (VENDOR / copy).read_text("utf-8")
    return f"<style>{re.sub(r'url[(]([^)]*)[)]', picture, text)}</style>"


def data_uri(path: Path) -> str:
    """
    Return a file as an address that needs no fetch.

    Parameters
    ----------
    path : pathlib.Path
        A picture.

    Returns
    -------
    str
        ``data:`` address.
    """
    kind = mimetypes.guess_type(path.name)[0]
    return f"data:{kind};base64,{base64.b64encode(path.read_bytes()).decode()}"


def guarded(code: str) -> str:
    r"""
    Return script text that cannot close its own element.

    Parameters
    ----------
    code : str
        JavaScript.

    Returns
    -------
    str
        The same code.

    Examples
    --------
    >>> guarded("a = '</script>'")
    "a = '<\\/script>'"
    """
    return re.sub(r"</(script)", r"<\\/\1", code, flags=re.IGNORECASE).replace("<!--", r"<\!--")


def check_offline(html: str) -> None:
    """
    Refuse a page that would fetch something.

    Parameters
    ----------
    html : str
        The page. Bodies of scripts are not looked at: the content policy holds them.

    Raises
    ------
    OfflineError
        With the place.
    """
    markup = re.sub(r"(<script[^>]*>).*?</script>", r"\1", html, flags=re.DOTALL)
    # Only within style elements: a block may be named like a rule.
    styles = "\n".join(re.findall(r"<style>(.*?)</style>", markup, re.DOTALL))
    for text, patterns in ((markup, _FETCHED_BY_MARKUP), (styles, _FETCHED_BY_STYLE)):
        for pattern in patterns:
            if match := re.search(pattern, text, re.IGNORECASE):
                place = text[max(0, match.start() - 40) : match.end() + 80]
                message = f"page: expected nothing that a browser fetches, got {place!r}"
                raise OfflineError(message)


def _policy(html: str) -> str:
    scripts = " ".join(_digests(r"<script>(.*?)</script>", html)) or "'none'"
    styles = " ".join(_digests(r"<style>(.*?)</style>", html))
    rules = (
        f"default-src 'none'; script-src {scripts}; style-src {styles}; img-src data:; "
        "form-action 'none'; base-uri 'none'"
    )
    return f'<meta http-equiv="Content-Security-Policy" content="{rules}">'


def _digests(pattern: str, html: str) -> list[str]:
    bodies = dict.fromkeys(re.findall(pattern, html, re.DOTALL))
    return [
        f"'sha256-{base64.b64encode(hashlib.sha256(body.encode()).digest()).decode()}'"
        for body in bodies
    ]
