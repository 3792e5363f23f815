"""What it costs to leave a block today, and why some are not worth a spray, in plain sentences."""

from datetime import datetime

from geo.ranking.sentences import two_digits
from geo.reference.diseases import Disease

# Share of the loss that a spray must avoid to be worth a thought: less is printed as 0 %. Our own
# choice, a stand-in until costs are known.
LEAST_SHARE = 0.005


def waiting_words(
    avoidable: tuple[float, float, float],
    *,
    per_hour: float | None,
    next_window: datetime | None,
    end: datetime,
) -> str:
    """
    Return what leaving a block out costs.

    Parameters
    ----------
    avoidable : tuple of three float
        At the lowest, the expected and the highest effect: days of hazard index 1 times hectares.
    per_hour : float or None
        The expected for each hour of sprayer; None where hours are not known.
    next_window : datetime.datetime or None
        Local start of the next open hours.
    end : datetime.datetime
        Local end of the forecast.

    Returns
    -------
    str
        One sentence.

    Examples
    --------
    >>> waiting_words((1.0, 1.5, 2.0), per_hour=0.5, next_window=datetime(2026, 2, 9, 6),
    ...     end=datetime(2026, 2, 12))
    'Left until it is next open, 2026-02-09 06:00, it loses 1.5 hectare-days of index 1 (1.0 to 2.0) that a spray today would avoid: 0.5 an hour of sprayer.'
    """  # noqa: E501 - the sentence
    low, expected, high = map(two_digits, avoidable)
    until = (
        f"Left until it is next open, {next_window:%Y-%m-%d %H:%M}"
        if next_window
        else f"Not open again within the forecast: left until its end, {end:%Y-%m-%d %H:%M}"
    )
    by_hour = "" if per_hour is None else f": {two_digits(per_hour)} an hour of sprayer"
    return (
        f"{until}, it loses {expected} hectare-days of index 1 ({low} to {high}) that a spray "
        f"today would avoid{by_hour}."
    )


def not_worth_words(
    *,
    avoidable: float,
    unsprayed: float,
    protection: float,
    line: float,
    materials: tuple[str, ...],
    disease: Disease,
    until: str,
) -> str:
    """
    Return why a spray today is not worth it, at the relative level.

    Parameters
    ----------
    avoidable, unsprayed : float
        Loss that a spray today avoids, and all that comes until the next open hours.
    protection : float
        Lowest until then.
    line : float
        The reapply line.
    materials : tuple of str
        Planned for the tank.
    disease : Disease
        Sprayed against.
    until : str
        When the block is next open, in words.

    Returns
    -------
    str
        One sentence; empty where a spray is worth a thought.
    """
    if unsprayed <= 0.0:
        return f"No hazard is expected {until}."
    if protection > line:
        return (
            f"Its sprays still prevent {protection:.2f} or more {until}, above the reapply line of "
            f"{line:.2f}."
        )
    if avoidable > LEAST_SHARE * unsprayed:
        return ""
    tank = " with ".join(materials)
    return f"{tank.capitalize()} would avoid next to nothing of {disease.name} {until}."


def until_words(next_window: datetime | None, end: datetime) -> str:
    """
    Return until when, in words.

    Parameters
    ----------
    next_window : datetime.datetime or None
        Local start of the next open hours.
    end : datetime.datetime
        Local end of the forecast.

    Returns
    -------
    str
        To be put at the end of a sentence.

    Examples
    --------
    >>> until_words(None, datetime(2026, 2, 12))
    'until the forecast ends, 2026-02-12 00:00'
    """
    if next_window:
        return f"until it is next open, {next_window:%Y-%m-%d %H:%M}"
    return f"until the forecast ends, {end:%Y-%m-%d %H:%M}"
