"""The tables for spreadsheets of countries that write a decimal comma."""

import csv
import io
import re

# As our tables write numbers: never a thousands separator.
_NUMBER = re.compile(r"-?\d+\.\d+(e[+-]\d+)?")


def with_semicolons(text: str) -> str:
    r"""
    Return a CSV table with ``;`` between cells and decimal commas.

    Parameters
    ----------
    text : str
        The table with ``,`` and decimal points.

    Returns
    -------
    str
        The same cells; it begins with a byte order mark, by which such spreadsheets know UTF-8.

    Examples
    --------
    >>> with_semicolons("block,hazard\nB1,0.25\n\"a,b\",3\n").removeprefix("\ufeff")
    'block;hazard\nB1;0,25\na,b;3\n'
    """
    out = io.StringIO()
    writer = csv.writer(out, delimiter=";", lineterminator="\n")
    for row in csv.reader(io.StringIO(text, newline="")):
        writer.writerow(
            [cell.replace(".", ",") if _NUMBER.fullmatch(cell) else cell for cell in row]
        )
    return "\ufeff" + out.getvalue()
