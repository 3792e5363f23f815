"""A page that asks the network for nothing: every script and style inside, and only those may run."""

import base64
import hashlib
import mimetypes
import re
from functools import cache
from pathlib import Path

from branca.element import CssLink, Element, Figure, JavascriptLink
from jinja2 import Template

VENDOR = Path(__file__).parent / "vendor"

# Ends of the addresses that the map library links, and our copies. The version in the address is
# ignored on purpose: ours is the one in the lock file.
COPIES = {
    r"/leaflet@[\d.]+/dist/leaflet\.js$": "leaflet/leaflet.js",
    r"/leaflet@[\d.]+/dist/leaflet\.css$": "leaflet/leaflet.css",
}

VIEWPORT = '<meta name="viewport" content="width=device-width, initial-scale=1">'

# What a browser fetches by itself. A plain link that somebody clicks is no fetch.
_FETCHES = (
    r"<script[^>]+\bsrc\s*=",
    r"<link[^>]+\bhref\s*=",
    r"<(?:img|iframe|source|video|audio|embed|object)\b[^>]+\b(?:src|data)\s*=\s*[\"']?(?!data:)",
    r"url\(\s*[\"']?(?:https?:)?//",
    r"@import\b",
)


class OfflineError(RuntimeError):
    """The page would ask the network for something: a fault of ours."""


class Verbatim(Element):
    """
    Text that goes into the page as it is.

    The map library's own `Element` reads its text as a template, so that a block named
    ``{{ 7 * 7 }}`` would be computed. This one never does.

    Parameters
    ----------
    text : str
        Markup or code, escaped by whoever made it.
    """

    _template = Template("{{ this.text }}")

    def __init__(self, text: str) -> None:
        super().__init__()
        self.text = text


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

    _template = Template(
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<title>{{ this.title }}</title>\n'
        "{{ this.header.render(**kwargs) }}\n{{ this.head }}\n</head>\n"
        "<body>\n{{ this.html.render(**kwargs) }}\n{{ this.body }}\n"
        "<script>\n{{ this.script.render(**kwargs) }}\n{{ this.start }}\n</script>\n</body>\n</html>\n"
    )

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
            HTML with its content policy.

        Raises
        ------
        OfflineError
            If anything in it would be fetched.
        """
        for child in list(self._children.values()):
            child.render(**kwargs)
        children = self.header._children  # noqa: SLF001 (the library offers no other way)
        for name, child in children.items():
            if isinstance(child, JavascriptLink | CssLink):
                children[name] = Verbatim(inlined(child.url))
        html = self._template.render(this=self, kwargs=kwargs)
        html = re.sub(r'<meta name="viewport"[^>]*>', VIEWPORT, html)
        check_offline(html)
        return html.replace("<head>", f"<head>\n{_policy(html)}", 1)


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

    return f"<style>{re.sub(r'url[(]([^)]*)[)]', picture, (VENDOR / copy).read_text('utf-8'))}</style>"


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
    """
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
    "a = '<\\\\/script>'"
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
    for pattern in _FETCHES:
        if match := re.search(pattern, markup, re.IGNORECASE):
            place = markup[max(0, match.start() - 40) : match.end() + 80]
            message = f"page: expected nothing that a browser fetches, got {place!r}"
            raise OfflineError(message)


def _policy(html: str) -> str:
    scripts = " ".join(_digests(r"<script>(.*?)</script>", html))
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
