"""Which attribute of a drawing is which of our columns?"""

from collections.abc import Sequence

from geo.errors import Outcome, quoted
from geo.inputs.at import WHOLE_FILE
from geo.inputs.headings import MAPPED, NAMED, SPELT, UNUSED
from geo.inputs.names import nearest, plain
from geo.inputs.reading import Reading
from geo.inputs.spellings import Heading, flat, meant
from geo.texts import phrase

FROM_A_PHONE = (".kml", ".kmz")
# An outline drawn on a phone has a name and a description, and no other attributes.
_OF_KML = {"name": "block_id"}
_MAY_LACK = ("cultivar",)


def find_columns(
    reading: Reading, columns: list[str], *, required: Sequence[str], optional: Sequence[str]
) -> dict[str, str]:
    """
    Return the attribute that stands for each of our columns.

    Parameters
    ----------
    reading : Reading
        The file: how its attributes are understood is written down in it.
    columns : list of str
        Its attributes.
    required, optional : sequence of str
        Our columns.

    Returns
    -------
    dict of str to str
        Without those that are not there.

    Raises
    ------
    InputError
        If a required one is not there.
    """
    is_kml = reading.path.suffix.lower() in FROM_A_PHONE
    found: dict[str, str] = {}
    reading.headings = []
    for column in columns:
        means, how = _meaning(
            reading, column, (*required, *optional), found, columns, is_kml=is_kml
        )
        reading.headings.append(Heading(column, means, "", how))
        if means:
            found[means] = column
    if is_kml and "name" in optional and "name" not in found and "block_id" in found:
        found["name"] = found["block_id"]
    for column in required:
        if column not in found and not (is_kml and column in _MAY_LACK):
            fix = phrase("Name a column {column}", column=quoted(column))
            if columns:
                fix = phrase(
                    "Name a column {column}; nearest is {nearest}",
                    column=quoted(column),
                    nearest=nearest(column, columns),
                )
            said = phrase("no column {column}", column=quoted(column))
            reading.add(Outcome.STOP, "E-COLUMN-MISSING", WHOLE_FILE, found=said, fix=fix)
    reading.check()
    spelt = [
        phrase("{heading} as {column}", heading=quoted(heading.written), column=heading.means)
        for heading in reading.headings
        if heading.how == SPELT
    ]
    if spelt:
        said = phrase("columns read by their meaning: {columns}", columns="; ".join(spelt))
        fix = phrase("Nothing if this is right; else say in a column map what is meant")
        reading.add(Outcome.FIX, "E-COLUMN-SPELLING", WHOLE_FILE, found=said, fix=fix)
    return found


def _meaning(
    reading: Reading,
    column: str,
    wanted: tuple[str, ...],
    found: dict[str, str],
    columns: list[str],
    *,
    is_kml: bool,
) -> tuple[str, str]:
    """Return which of our columns an attribute means, and how that was told."""
    if flat(column) in reading.column_map:
        means = reading.column_map[flat(column)][0]
        return (means, MAPPED) if means in wanted and means not in found else ("", UNUSED)
    own = {plain(name): name for name in wanted}
    if is_kml and plain(column) in _OF_KML and _OF_KML[plain(column)] in wanted:
        has_own = any(plain(other) == _OF_KML[plain(column)] for other in columns)
        if not has_own:
            return _OF_KML[plain(column)], SPELT
    if plain(column) in own:
        means = own[plain(column)]
        return (means, NAMED) if means not in found else ("", UNUSED)
    named = {own[plain(other)] for other in columns if plain(other) in own}
    said = {means for means, _ in reading.column_map.values()}
    means, _ = meant(column, tuple(n for n in wanted if n not in named | said and n not in found))
    return means, SPELT if means else UNUSED
