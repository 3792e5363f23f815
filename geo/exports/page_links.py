"""Which other pages of the same run stand beside the map."""

from collections.abc import Collection

from geo.texts import mark, phrase_of

SEASONS = "season.html"
# In the order of a working day; what each is for.
PAGES = {
    "day-sheet.html": mark("Day sheet of the round, to print for the cab"),
    "walk-sheet.html": mark("Walk sheet, to print for the scout"),
    "tally.html": mark("Tally of a look, on this device"),
    SEASONS: mark("Seasons of the blocks, drawn"),
    "blocks-by-day.html": mark("Blocks by day, the whole season"),
    "rules.html": mark("Other published rules beside ours"),
}


def links_data(written: Collection[str]) -> list[dict[str, str]]:
    """
    Return the pages to link to.

    Parameters
    ----------
    written : collection of str
        Names of the files that the run really writes into the map's folder.

    Returns
    -------
    list of dict
        ``href`` and ``words``, in the order of a working day.

    Examples
    --------
    >>> links_data(["rules.html", "run.json"])
    [{'href': 'rules.html', 'words': 'Other published rules beside ours'}]
    """
    return [
        {"href": name, "words": phrase_of(words)}
        for name, words in PAGES.items()
        if name in written
    ]
