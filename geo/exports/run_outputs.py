"""Which files did a run write, and what was in them?"""

import hashlib
from collections.abc import Iterable
from pathlib import Path


def outputs(paths: Iterable[Path]) -> list[dict[str, object]]:
    """
    Return name, size and digest of files.

    Parameters
    ----------
    paths : iterable of pathlib.Path
        Of files that are complete.

    Returns
    -------
    list of dict
        ``name``, ``bytes`` and ``sha256`` of each, by name, ready for JSON. No folder is named:
        the record may be sent to somebody else.
    """
    return [_told(path) for path in sorted(paths, key=lambda path: path.name)]


def _told(path: Path) -> dict[str, object]:
    with path.open("rb") as content:
        digest = hashlib.file_digest(content, "sha256").hexdigest()
    return {"name": path.name, "bytes": path.stat().st_size, "sha256": digest}
