"""Bring every catalogue up to the source, and tell what it still lacks: python -m geo.texts."""

import sys

from geo.texts.collect import update
from geo.texts.languages import LANGUAGES


def main() -> int:
    """
    Update every language but English.

    Returns
    -------
    int
        1 if anything is not translated, else 0.
    """
    lacking = 0
    for tag in LANGUAGES:
        if tag == "en":
            continue
        for name, missing in update(tag).items():
            lacking += missing
            if missing:
                sys.stdout.write(f"{tag}/{name}.po lacks {missing}\n")
    return int(bool(lacking))


if __name__ == "__main__":
    sys.exit(main())
