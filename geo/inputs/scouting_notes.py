"""What do scouting notes leave out that would be worth writing down?"""

import pandas as pd

from geo.errors import Outcome
from geo.inputs.at import at_column
from geo.inputs.reading import Reading
from geo.texts import mark, phrase

SHARE = "infected_percent"
# Fewer counts may well all have found something (our choice).
ENOUGH_COUNTS = 10


def note_lone_shares(reading: Reading, table: pd.DataFrame) -> None:
    """
    Note shares that come without the number looked at.

    Parameters
    ----------
    reading : Reading
        The scouting file.
    table : pandas.DataFrame
        As read.
    """
    is_alone = (table[SHARE] != "") & (table["inspected"] == "")
    reading.add_rows(
        Outcome.NOTE,
        "E-SHARE-ALONE",
        table[SHARE][is_alone],
        found=mark("{value} is a share, and not how many were looked at: it is not used"),
        fix=phrase("Write inspected and infected"),
    )


def note_no_zeros(reading: Reading, visits: pd.DataFrame) -> None:
    """
    Note counts of which every one found something.

    Parameters
    ----------
    reading : Reading
        The scouting file.
    visits : pandas.DataFrame
        With a column ``infected``.
    """
    if len(visits) >= ENOUGH_COUNTS and (visits["infected"] > 0).all():
        found = phrase(
            "all {count} counts found something: absence is not written down, so the model cannot "
            "be held against it",
            count=len(visits),
        )
        fix = phrase("Write looks that found nothing too, with 0 infected")
        reading.add(Outcome.NOTE, "E-NO-ZEROS", at_column("infected"), found=found, fix=fix)
