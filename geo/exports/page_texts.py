"""What a page's scripts say in another language, and how the page names it."""

import json

from markupsafe import Markup

from geo.texts import language

_COUNTS = range(200)  # every rule of plurals repeats within this


def page_tongue() -> str:
    """
    Return the attributes by which a page names its language.

    Returns
    -------
    str
        Of the outermost element; the direction only where it is not the usual one.
    """
    spoken = language()
    return f'lang="{spoken.tag}"' + (
        f' dir="{spoken.direction}"' if spoken.direction != "ltr" else ""
    )


def script_texts() -> Markup:
    """
    Return the element from which a page's scripts take their sentences.

    Returns
    -------
    markupsafe.Markup
        Empty in English, which the scripts hold themselves.
    """
    spoken = language()
    if not spoken.of_scripts:
        return Markup()
    said = {
        "plural": _places(),
        "sentences": {key: spoken.sentences[key] for key in sorted(spoken.of_scripts)},
    }
    text = json.dumps(said, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")
    return Markup(f'<script type="application/json" id="texts">{text}</script>\n')  # noqa: S704


def _places() -> dict[str, int]:
    """Return the place of a form by what browsers call the kind of count."""
    from babel import Locale

    spoken = language()
    kind = Locale.parse(spoken.locale).plural_form
    return {kind(count): spoken.form(count) for count in _COUNTS}
