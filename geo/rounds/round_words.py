"""Why is a day's round short or empty, and why is a block left out, in plain sentences?"""

from collections.abc import Iterable, Iterator, Sequence
from string import ascii_lowercase

from geo.rounds.day_round import Stop
from geo.rounds.material_words import tank_words
from geo.rounds.order import CannotNow, SprayOrder
from geo.rounds.ready import Assumed, ReadyRound
from geo.season.farm import Farm
from geo.texts import phrase, phrases
from geo.windows.ask_material import planned
from geo.windows.open_hours import Windows

MOST_NAMED = 8  # our own choice: a line holds no more names


def left_out_words(
    *,
    is_begun: bool,
    has_pieces: bool,
    has_sprayer: bool,
    has_hours: bool,
    minutes: float,
    longest: float,
) -> str:
    """
    Return why a block is not reached, or not to its last row.

    Parameters
    ----------
    is_begun : bool
        Whether some of its rows are sprayed.
    has_pieces : bool
        Whether its rows fit a tank at all.
    has_sprayer : bool
        Whether any sprayer may carry the materials.
    has_hours : bool
        Whether there are any hours of work.
    minutes : float
        That its shortest load takes.
    longest : float
        Minutes of its longest open stretch once the sprayers may leave; none or less if there is no
        such stretch.

    Returns
    -------
    str
        One sentence.
    """
    too_short = phrase(
        "No open hours in a row are long enough: a load takes {minutes:.0f} min, the longest "
        "stretch is {longest:.0f} min.",
        minutes=minutes,
        longest=longest,
    )
    reasons = (
        (not has_sprayer, phrase("No sprayer here may carry the planned materials.")),
        (not has_pieces, phrase("One row takes more than the tank holds.")),
        (not has_hours, phrase("There are no hours of work.")),
        (longest <= 0.0, phrase("Its open hours of today are over before the sprayers may leave.")),
        (longest < minutes, too_short),
        (is_begun, phrase("No time is left for its other rows.")),
    )
    no_time = phrase(
        "No time is left: the hours go to blocks that lose more for each hour and way."
    )
    return next((words for holds, words in reasons if holds), no_time)


def day_notes(
    farm: Farm, order: SprayOrder, windows: Windows, ready: ReadyRound, able: frozenset[int]
) -> Iterator[str]:
    """
    Return why the day is short or empty.

    Parameters
    ----------
    farm : Farm
        Settings and labels.
    order : SprayOrder
        Of today.
    windows : Windows
        The rules' verdict.
    ready : ReadyRound
        All numbers of the round.
    able : frozenset of int
        Sprayers that may carry the materials.

    Yields
    ------
    str
        A sentence each.
    """
    yield from order.notes
    if not windows.start:
        yield phrase("No hour of forecast is known: nothing is planned.")
    elif not order.entries:
        yield _no_entries(order)
    elif order.cannot_now:
        yield _closed(order)
    if ready.hours <= 0.0:
        yield phrase("There are no hours of work: nothing is planned.")
    for number, sprayer in enumerate(ready.sprayers):
        if number not in able:
            yield phrase(
                "{sprayer} stays in the shed: its tank is not kept stirred, and {tank} settles.",
                sprayer=sprayer.name,
                tank=tank_words(planned(farm)),
            )
    if windows.start and order.horizon_days < farm.settings.horizon_days:
        yield phrase(
            "Weather is known for {known} of {wanted} days: what waiting costs is counted no "
            "further.",
            known=order.horizon_days,
            wanted=farm.settings.horizon_days,
        )
    yield from _without_label(farm)


def _without_label(farm: Farm) -> Iterator[str]:
    """Return what is unknown without labels; a row that is missing among them closes all hours."""
    if farm.labels is None:
        yield phrase(
            "No label file is given: amounts, re-entry and days to harvest are not known. Check "
            "the label."
        )


def _closed(order: SprayOrder) -> str:
    """Return which blocks a rule keeps out of the round: none is missing without a word."""
    by_rule: dict[str, list[str]] = {}
    for held in order.cannot_now:
        by_rule.setdefault(_title(held), []).append(held.block)
    told = "; ".join(f"{title}: {_names(sorted(blocks))}" for title, blocks in by_rule.items())
    return phrase("Closed today, {count} in all: {rules}.", count=len(order.cannot_now), rules=told)


def _title(held: CannotNow) -> str:
    return held.about or held.title or held.rule


def _names(blocks: Sequence[str]) -> str:
    named = ", ".join(blocks[:MOST_NAMED])
    if len(blocks) <= MOST_NAMED:
        return named
    return phrase("{blocks} and {count} more", blocks=named, count=len(blocks) - MOST_NAMED)


def _no_entries(order: SprayOrder) -> str:
    if not order.cannot_now:
        return phrase("No block is worth a spray today: nothing is planned.")
    return phrases(
        "No block is open today: {count} is closed by {rules}.",
        "No block is open today: {count} are closed by {rules}.",
        len(order.cannot_now),
        rules=", ".join(dict.fromkeys(_title(held) for held in order.cannot_now)),
    )


def beyond_words(order: SprayOrder, stops: Sequence[Stop]) -> Iterator[str]:
    """
    Return which blocks the round takes in though sprayer hours do not reach them by rank.

    Parameters
    ----------
    order : SprayOrder
        With how far the hours reach.
    stops : sequence of Stop
        Of all sprayers.

    Yields
    ------
    str
        One sentence, or none.
    """
    within = {entry.block: entry.is_within for entry in order.entries}
    beyond = list(dict.fromkeys(stop.block for stop in stops if within[stop.block] is False))
    if beyond:
        yield phrase(
            "Time is left over, or the way leads by, for blocks that the hours do not reach by "
            "rank: {blocks}.",
            blocks=_names(beyond),
        )


def assumed_words(assumed: Sequence[Assumed]) -> Iterator[str]:
    """
    Return all that was assumed, in one sentence.

    Parameters
    ----------
    assumed : sequence of Assumed
        As from `ready_round`.

    Yields
    ------
    str
        One sentence, or none.

    Examples
    --------
    >>> list(assumed_words([Assumed("speed", "A, 4 km/h while spraying", sprayer="A")]))
    ['Assumed, not given in farm.toml: A, 4 km/h while spraying.']
    """
    if assumed:
        told = "; ".join(one.words for one in assumed)
        yield phrase("Assumed, not given in farm.toml: {numbers}.", numbers=told)


def caution_letters(cautions: Iterable[str]) -> dict[str, str]:
    """
    Return a letter for each caution, so that its words stand once below all stops.

    Parameters
    ----------
    cautions : iterable of str
        Of all stops, as they come.

    Returns
    -------
    dict of str to str
        Letter by words, in the order of their first stop.

    Examples
    --------
    >>> caution_letters(["bees", "wind", "bees"])
    {'bees': 'a', 'wind': 'b'}
    """
    found = enumerate(dict.fromkeys(cautions))
    return {words: ascii_lowercase[place % len(ascii_lowercase)] for place, words in found}
