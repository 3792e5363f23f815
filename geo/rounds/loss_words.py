"""What it costs to leave a block today, and why some are not worth a spray, in plain sentences."""

from datetime import datetime

from geo.ranking.sentences import two_digits
from geo.reference.diseases import Disease
from geo.rounds.material_words import tank_words
from geo.texts import phrase, phrase_of
from geo.texts.days import hour_words

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
    'Left until it is next open, Mon 9 Feb 06:00, it loses 1.5 hectare-days of index 1 (1.0 to 2.0) that a spray today would avoid: 0.5 an hour of sprayer.'
    """  # noqa: E501 - the sentence
    low, expected, high = map(two_digits, avoidable)
    told = {"low": low, "expected": expected, "high": high, "hour": hour_words(next_window or end)}
    if next_window and per_hour is None:
        return phrase(
            "Left until it is next open, {hour}, it loses {expected} hectare-days of index 1 "
            "({low} to {high}) that a spray today would avoid.",
            **told,
        )
    if per_hour is None:
        return phrase(
            "Not open again within the forecast: left until its end, {hour}, it loses {expected} "
            "hectare-days of index 1 ({low} to {high}) that a spray today would avoid.",
            **told,
        )
    told["per_hour"] = two_digits(per_hour)
    if next_window:
        return phrase(
            "Left until it is next open, {hour}, it loses {expected} hectare-days of index 1 "
            "({low} to {high}) that a spray today would avoid: {per_hour} an hour of sprayer.",
            **told,
        )
    return phrase(
        "Not open again within the forecast: left until its end, {hour}, it loses {expected} "
        "hectare-days of index 1 ({low} to {high}) that a spray today would avoid: {per_hour} an "
        "hour of sprayer.",
        **told,
    )


def not_worth_words(
    *,
    avoidable: float,
    unsprayed: float,
    protection: float,
    line: float,
    materials: tuple[str, ...],
    disease: Disease,
    next_window: datetime | None,
    end: datetime,
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
    next_window : datetime.datetime or None
        Local start of the next open hours.
    end : datetime.datetime
        Local end of the forecast.

    Returns
    -------
    str
        One sentence; empty where a spray is worth a thought.
    """
    if unsprayed <= 0.0:
        return _no_hazard(next_window, end)
    if protection > line:
        return _protected(protection, line, next_window, end)
    if avoidable > LEAST_SHARE * unsprayed:
        return ""
    return _no_effect(materials, disease, next_window, end)


def _no_hazard(next_window: datetime | None, end: datetime) -> str:
    if next_window:
        return phrase(
            "No hazard is expected until it is next open, {hour}.", hour=hour_words(next_window)
        )
    return phrase("No hazard is expected until the forecast ends, {hour}.", hour=hour_words(end))


def _protected(protection: float, line: float, next_window: datetime | None, end: datetime) -> str:
    if next_window:
        return phrase(
            "Its sprays still prevent {protection:.2f} or more until it is next open, {hour}, "
            "above the reapply line of {line:.2f}.",
            protection=protection,
            hour=hour_words(next_window),
            line=line,
        )
    return phrase(
        "Its sprays still prevent {protection:.2f} or more until the forecast ends, {hour}, above "
        "the reapply line of {line:.2f}.",
        protection=protection,
        hour=hour_words(end),
        line=line,
    )


def _no_effect(
    materials: tuple[str, ...], disease: Disease, next_window: datetime | None, end: datetime
) -> str:
    tank, name = tank_words(materials).capitalize(), phrase_of(disease.name)
    if next_window:
        return phrase(
            "{tank} would avoid next to nothing of {disease} until it is next open, {hour}.",
            tank=tank,
            disease=name,
            hour=hour_words(next_window),
        )
    return phrase(
        "{tank} would avoid next to nothing of {disease} until the forecast ends, {hour}.",
        tank=tank,
        disease=name,
        hour=hour_words(end),
    )
