"""Is a table's text so long or so wide that taking it apart would fill the memory?"""

import numpy as np

from geo.inputs.reading import Reading

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
        found = f"a line of {lengths[longest]} bytes, and {LONGEST_LINE_BYTES} are the most that "
        fix = "Save the table as CSV UTF-8, a line for each row"
        raise reading.refused(
            "E-FILE-LARGE", f"row {longest + 1}", found=f"{found}is read", fix=fix
        )
    cells = max(content.count(separator) for separator in _SEPARATORS)
    if cells > MOST_CELLS:
        found = f"{cells} cells, and {MOST_CELLS} are the most that is read"
        fix = "Keep what this season needs, and no empty columns"
        raise reading.refused("E-FILE-LARGE", "", found=found, fix=fix)
