"""Which sentences does the source hold, and which of them does a catalogue lack?"""

import ast
import csv
import re
from collections.abc import Iterator, Sequence
from pathlib import Path

from geo.texts.comments import paragraphs
from geo.texts.languages import LANGUAGES

GEO = Path(__file__).parent.parent
# A new farm starts from it, comments and all.
SETTINGS = GEO.parent / "layers_demo" / "valley_farm" / "farm.toml"
Said = str | tuple[str, ...]
Key = tuple[str, str, str]  # context, text, text for many
TEMPLATE_KEYWORDS = {"phrase", "phrases", "phrase_for", "phrase_html"}
KEYWORDS = TEMPLATE_KEYWORDS | {"mark"}
# In scripts of pages.
SCRIPT_KEYWORDS: dict[str, tuple[int | tuple[int, str], ...] | None] = {
    "phrase": None,
    "phrases": (1, 2),
    "phraseFor": ((1, "c"), 2),
}
# Columns of the reference tables that people are shown, and in rows of which subject and quantity.
TABLE_COLUMNS: dict[str, tuple[tuple[str, ...], str]] = {
    "cultivars": (("where",), "_rating_by_"),
    "fungicides": (("where", "note"), "_efficacy$| as in "),
    "growth_stages": (("note",), " progress$"),
    "materials": (("material",), ""),
    "spray_rules": (("where", "note"), ""),
}
PARTS = "; "  # between what a note says; each part is a sentence of its own
WEATHER_FILES = (
    "cf_names",
    "daily_weather",
    "days",
    "epw",
    "gaps",
    "loggers",
    "netcdf",
    "rain",
    "sensors",
    "station_hours",
    "steps",
    "timeline",
    "weather",
    "weather_kinds",
)


def catalogue_name(path: Path) -> str:
    """
    Return the catalogue into which the sentences of a file go: one a room, large rooms parted.

    Parameters
    ----------
    path : pathlib.Path
        Within ``geo``.

    Returns
    -------
    str
        Its name without ending.
    """
    room, name = path.relative_to(GEO).parts[0], path.stem
    if room == "exports":
        if path.suffix != ".py":
            is_sheet = name.startswith("tally") or path.suffix != ".js"
            return "sheets" if is_sheet and name not in {"panel", "paper"} else "map_page"
        return "map_page" if name.startswith(("page_", "map_page", "paper", "relief")) else "sheets"
    if room == "inputs":
        return "inputs_weather" if name in WEATHER_FILES else "inputs"
    return room.removesuffix(".py")


def collected() -> dict[str, dict[Key, list[tuple[str, int]]]]:
    """
    Return all sentences of the source by the catalogue they belong to.

    Returns
    -------
    dict of str to dict
        By name of the catalogue: (context, text, text for many) with the places in which each
        stands. Context and text for many may be empty.
    """
    found: dict[str, dict[Key, list[tuple[str, int]]]] = {}
    for path in sorted(GEO.rglob("*")):
        if path.suffix not in {".py", ".html", ".svg", ".js", ".csv"} or "vendor" in path.parts:
            continue
        for line, key in _of_file(path):
            place = (path.relative_to(GEO.parent).as_posix(), line)
            found.setdefault(catalogue_name(path), {}).setdefault(key, []).append(place)
    settings = SETTINGS.relative_to(GEO.parent).as_posix()
    found["settings_file"] = {
        ("", said, ""): [(settings, line)]
        for line, _, said in paragraphs(SETTINGS.read_text("utf-8"))
    }
    return found


def update(tag: str) -> dict[str, int]:
    """
    Bring the catalogues of a language up to the source: new sentences in, unused ones out.

    Parameters
    ----------
    tag : str
        The language.

    Returns
    -------
    dict of str to int
        How many sentences each catalogue has not translated yet.
    """
    folder = GEO / "texts" / tag
    folder.mkdir(exist_ok=True)
    known = _translated(folder, tag)
    everything = collected()
    missing = {
        name: _write(folder / f"{name}.po", tag, sentences, known)
        for name, sentences in everything.items()
    }
    for path in folder.glob("*.po"):
        if path.stem not in everything:
            path.unlink()
    return missing


def _translated(folder: Path, tag: str) -> dict[tuple[str, str], Said]:
    """Return what all catalogues of a language know, so that a sentence may move between rooms."""
    from babel.messages.pofile import read_po

    known: dict[tuple[str, str], Said] = {}
    for path in sorted(folder.glob("*.po")):
        with path.open("rb") as lines:
            for message in read_po(lines, locale=tag):
                text = message.id if isinstance(message.id, str) else message.id[0]
                said = message.string
                if text and said and all(said):
                    known[message.context or "", text] = (
                        said if isinstance(said, str) else tuple(said)
                    )
    return known


def _write(
    path: Path,
    tag: str,
    sentences: dict[Key, list[tuple[str, int]]],
    known: dict[tuple[str, str], Said],
) -> int:
    """Write one catalogue in the order of the source; return how many sentences it lacks."""
    from babel.messages.catalog import Catalog
    from babel.messages.pofile import write_po

    catalogue = Catalog(
        locale=tag, charset="utf-8", header_comment=f"# {LANGUAGES[tag]}: {path.stem}"
    )
    missing = 0
    for (whom, text, many), places in sorted(sentences.items(), key=lambda one: one[1]):
        said = known.get((whom, text), "")
        if isinstance(said, tuple) != bool(many):
            said = ""
        missing += not said
        # Without lines: else every edit of a room would change its catalogue.
        locations = [(file, 1) for file in dict.fromkeys(file for file, _ in places)]
        catalogue.add((text, many) if many else text, said, locations, context=whom or None)
    with path.open("wb") as lines:
        write_po(lines, catalogue, width=100, include_lineno=False, omit_header=False)
    # Headers with the day of writing would make every run a change.
    kept = [
        line
        for line in path.read_text("utf-8").splitlines(keepends=True)
        if not re.match(r'"(?:Project|Report|POT|PO-Rev|Last|Language-Team|Generated)[^:]*:', line)
    ]
    path.write_text("".join(kept), "utf-8")
    return missing


def _of_file(path: Path) -> Iterator[tuple[int, Key]]:
    if path.suffix == ".csv":
        yield from _of_table(path)
    elif path.suffix in {".html", ".svg"}:
        yield from _of_template(path)
    elif path.suffix == ".js":
        yield from _of_script(path)
    else:
        yield from _of_python(path)


def _of_python(path: Path) -> Iterator[tuple[int, Key]]:
    # By the tree of the code: readers of single words do not see what is said inside an f-string.
    for call in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(call, ast.Call) and isinstance(call.func, ast.Name):
            said = call.func.id
            if said in KEYWORDS and path.parent != GEO / "texts":
                texts = [one.value for one in call.args if isinstance(one, ast.Constant)]
                yield call.lineno, _key(said, texts, f"{path}:{call.lineno}")


def _of_script(path: Path) -> Iterator[tuple[int, Key]]:
    from babel.messages.extract import extract

    with path.open("rb") as lines:
        found = extract(
            "javascript", lines, keywords=SCRIPT_KEYWORDS, options={"encoding": "utf-8"}
        )
        for line, text, _, whom in found:
            one, many = text if isinstance(text, tuple) else (text, "")
            yield line, (whom or "", one, many)


def _key(said: str, texts: Sequence[object], where: str) -> Key:
    """Return the sentence that a call says: its texts must be written out, not computed."""
    expected = 2 if said in {"phrases", "phrase_for"} else 1
    if len(texts) < expected or not all(isinstance(text, str) for text in texts[:expected]):
        message = f"{where}: {said}() takes sentences that are written out where it is called"
        raise ValueError(message)
    first, second = (*map(str, texts[:expected]), "")[:2]
    return (first, second, "") if said == "phrase_for" else ("", first, second)


def _of_template(path: Path) -> Iterator[tuple[int, Key]]:
    from jinja2 import Environment, nodes

    tree = Environment(autoescape=True).parse(path.read_text("utf-8"))
    for call in tree.find_all(nodes.Call):
        if not isinstance(call.node, nodes.Name) or call.node.name not in TEMPLATE_KEYWORDS:
            continue
        texts = [one.value for one in call.args if isinstance(one, nodes.Const)]
        yield call.lineno, _key(call.node.name, texts, f"{path}:{call.lineno}")


def _of_table(path: Path) -> Iterator[tuple[int, Key]]:
    columns, shown = TABLE_COLUMNS.get(path.stem, ((), ""))
    with path.open(encoding="utf-8", newline="") as lines:
        for place, row in enumerate(csv.DictReader(lines), start=2):
            if not re.search(shown, f"{row.get('subject')} {row.get('quantity')}"):
                continue
            for words in filter(None, (row[column] for column in columns)):
                for part in words.split(PARTS):
                    yield place, ("", part, "")
