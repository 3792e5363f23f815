"""Is a table's text so long or so wide that taking it apart would fill the memory?"""

import numpy as np

from geo.inputs.at import WHOLE_FILE, at_row
from geo.inputs.reading import Reading
from geo.texts import phrase

# Far above any farm's season (our choice).
LONGEST_LINE_BYTES, MOST_CELLS = 1_000_000, 20_000_000
_SEPARATORS = (b",", b";", b"\t")


def refuse_endless_lines(reading: Reading, content: bytes) -> None:
    """
    Refuse text that would become far more in memory than it is on the disk.

    Parameters
    ----------
    reading : Reading
        The table, for faults.
    content : bytes
        Its bytes, in whatever alphabet.

    Raises
    ------
    InputError
        With the row and the limit.
    """
    if len(content) <= LONGEST_LINE_BYTES:
        return
    ends = np.flatnonzero(np.frombuffer(content, dtype=np.uint8) == ord("\n"))
    lengths = np.diff(ends, prepend=-1, append=len(content))
    longest = int(lengths.argmax())
    if lengths[longest] > LONGEST_LINE_BYTES:
        found = phrase(
            "a line of {count} bytes, and {most} are the most that is read",
            count=lengths[longest],
            most=LONGEST_LINE_BYTES,
        )
        fix = phrase("Save the table as CSV UTF-8, a line for each row")
        raise reading.refused("E-FILE-LARGE", at_row(longest + 1), found=found, fix=fix)
    cells = max(content.count(separator) for separator in _SEPARATORS)
    if cells > MOST_CELLS:
        found = phrase(
            "{cells} cells, and {most} are the most that is read", cells=cells, most=MOST_CELLS
        )
        fix = phrase("Keep what this season needs, and no empty columns")
        raise reading.refused("E-FILE-LARGE", WHOLE_FILE, found=found, fix=fix)
