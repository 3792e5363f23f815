"""How are days said?"""

from datetime import date, datetime

from geo.texts.phrases import language

DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


def day_words(day: date) -> str:
    """
    Return a day of the week and month, short.

    Parameters
    ----------
    day : datetime.date
        A local day.

    Returns
    -------
    str
        Such as ``Wed 14 Aug``; in other languages as the Unicode locale data have it.

    Examples
    --------
    >>> day_words(date(2024, 8, 14))
    'Wed 14 Aug'
    """
    # English by ourselves: it must not depend on the computer's language, and costs no import.
    if language().tag == "en":
        return f"{DAYS[day.weekday()]} {day.day} {MONTHS[day.month - 1][:3]}"
    return _by_skeleton(day, "MMMEd")


def weekday_words(day: date) -> str:
    """
    Return a day of the week, short.

    Parameters
    ----------
    day : datetime.date
        A local day.

    Returns
    -------
    str
        Such as ``Wed``.

    Examples
    --------
    >>> weekday_words(date(2024, 8, 14))
    'Wed'
    """
    return DAYS[day.weekday()] if language().tag == "en" else _by_skeleton(day, "E")


def weekday_number_words(day: date) -> str:
    """
    Return a day of the week with its number in the month, short.

    Parameters
    ----------
    day : datetime.date
        A local day.

    Returns
    -------
    str
        Such as ``Wed 14``.

    Examples
    --------
    >>> weekday_number_words(date(2024, 8, 14))
    'Wed 14'
    """
    if language().tag == "en":
        return f"{DAYS[day.weekday()]} {day.day}"
    return _by_skeleton(day, "Ed")


def short_day_words(day: date) -> str:
    """
    Return a day of the month, short.

    Parameters
    ----------
    day : datetime.date
        A local day.

    Returns
    -------
    str
        Such as ``14 Aug``.

    Examples
    --------
    >>> short_day_words(date(2024, 8, 14))
    '14 Aug'
    """
    if language().tag == "en":
        return f"{day.day} {MONTHS[day.month - 1][:3]}"
    return _by_skeleton(day, "MMMd")


def long_day_words(day: date) -> str:
    """
    Return a day of the month with its month in full.

    Parameters
    ----------
    day : datetime.date
        A local day.

    Returns
    -------
    str
        Such as ``14 August``.

    Examples
    --------
    >>> long_day_words(date(2024, 8, 14))
    '14 August'
    """
    if language().tag == "en":
        return f"{day.day} {MONTHS[day.month - 1]}"
    return _by_skeleton(day, "MMMMd")


def hour_words(moment: datetime) -> str:
    """
    Return an hour with its day.

    Parameters
    ----------
    moment : datetime.datetime
        Its local start.

    Returns
    -------
    str
        Such as ``Wed 14 Aug 06:00``.

    Examples
    --------
    >>> hour_words(datetime(2024, 8, 14, 6))
    'Wed 14 Aug 06:00'
    """
    return f"{day_words(moment.date())} {moment:%H:%M}"


def _by_skeleton(day: date, skeleton: str) -> str:
    from babel.dates import format_skeleton

    return str(format_skeleton(skeleton, day, locale=language().locale))
