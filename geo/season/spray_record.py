"""The record of sprays: its columns, its chain of digests, and which of its rows hold."""

import hashlib
import json
from collections.abc import Iterable, Mapping

Row = Mapping[str, str]

# What people write down at the block, for the start and the end of each tank.
_WEATHER = (
    "air_temperature_degC",
    "relative_humidity_percent",
    "delta_t_k",
    "wind_speed_m_s",
    "wind_from_degree",
    "cloud_cover_fraction",
)
# The union of what laws on spray records ask for, as far as we know them: no claim that a record
# satisfies any of them. A column that a law does not ask for may stay empty.
COLUMNS = (
    "record_id",
    "corrects",
    "farm",
    "date",
    "block_id",
    "block_name",
    "latitude",
    "longitude",
    "first_row",
    "last_row",
    "rows_of_block",
    "rows_skipped",
    "area_ha",
    "start_time",
    "finish_time",
    "zone",
    "product_name",
    "registration_no",
    "material",
    "frac_codes",
    "batch",
    "label_rate",
    "rate",
    "rate_unit",
    "total_product",
    "total_unit",
    "water_l_per_ha",
    "litres",
    "tank",
    "sprayer",
    "nozzle",
    "speed_km_h",
    "pressure_bar",
    "calibrated_on",
    "method",
    "applicator",
    "licence",
    "supervisor",
    *(f"start_{name}" for name in _WEATHER),
    *(f"finish_{name}" for name in _WEATHER),
    "crop",
    "crop_eppo",
    "bbch",
    "target",
    "target_eppo",
    "reason",
    "model_version",
    "planned_start",
    "planned_finish",
    "re_entry_hours",
    "re_entry_ends",
    "pre_harvest_days",
    "pick_from",
    "sensitive_places_checked",
    "notices_sent",
    "deviations",
    "signature",
    "entered_on",
    "entered_by",
    "note",
    "digest",
)
CELLS = COLUMNS[:-1]
NEEDED = ("date", "block_id", "material", "start_time", "finish_time")
ID_DIGITS = 10  # our own choice: two of a farm's rows then never meet


def digest_of(row: Row, previous: str) -> str:
    """
    Return the digest that ties a row to the one before it.

    Parameters
    ----------
    row : mapping of str to str
        Its cells as they stand in the file.
    previous : str
        Digest of the row before; empty for the first.

    Returns
    -------
    str
        SHA-256 over both, in hexadecimal: whoever changes a row, or takes one out, would have to
        change every digest after it. Rows taken off the end are seen only by those who wrote the
        last digest down.
    """
    told = json.dumps([previous, *(row.get(column, "") for column in CELLS)], ensure_ascii=False)
    return hashlib.sha256(told.encode()).hexdigest()


def chained(rows: Iterable[Row], previous: str) -> list[dict[str, str]]:
    """
    Return rows with their digests.

    Parameters
    ----------
    rows : iterable of mapping
        In the order in which they are put down.
    previous : str
        Digest of the last row that stands there already; empty for none.

    Returns
    -------
    list of dict
        With every column.
    """
    tied = []
    for row in rows:
        cells = {column: row.get(column, "") for column in CELLS}
        previous = digest_of(cells, previous)
        tied.append(cells | {"digest": previous})
    return tied


def broken(rows: Iterable[Row]) -> list[int]:
    """
    Return which rows are not as they were put down, or do not follow the row that was before them.

    Parameters
    ----------
    rows : iterable of mapping
        As read.

    Returns
    -------
    list of int
        Their places from 0; none where no row has a digest, as in a file that is filled in by hand.
    """
    found, previous = [], ""
    read = list(rows)
    if not any(row.get("digest") for row in read):
        return []
    for place, row in enumerate(read):
        written = row.get("digest", "")
        if written != digest_of(row, previous):
            found.append(place)
        # What follows is held against what is written, so that one change is one fault.
        previous = written
    return found


def record_id(row: Row) -> str:
    """
    Return an id for a row: the same for the same cells.

    Parameters
    ----------
    row : mapping of str to str
        With its day.

    Returns
    -------
    str
        Such as ``2026-02-18-4f2a90c1d3``.
    """
    told = json.dumps([row.get(column, "") for column in CELLS if column != "record_id"])
    return f"{row['date']}-{hashlib.sha256(told.encode()).hexdigest()[:ID_DIGITS]}"


def is_completed(row: Row) -> bool:
    """
    Return whether somebody wrote down that it was done.

    Parameters
    ----------
    row : mapping of str to str
        Of the record.

    Returns
    -------
    bool
        True with both the hour of its start and that of its finish.
    """
    return bool(row.get("start_time") and row.get("finish_time"))


def in_force(rows: Iterable[Row]) -> list[int]:
    """
    Return which rows no later row corrects.

    Parameters
    ----------
    rows : iterable of mapping
        In the order of the file.

    Returns
    -------
    list of int
        Their places from 0. The last of several corrections of a row holds, whether it names the
        row or another correction of it.
    """
    read = list(rows)
    origin: dict[str, str] = {}
    last: dict[str, int] = {}
    for place, row in enumerate(read):
        own = row.get("record_id", "") or f"row {place}"
        first = origin.get(row.get("corrects", ""), row.get("corrects", "")) or own
        origin[own] = first
        last[first] = place
    return sorted(last.values())
