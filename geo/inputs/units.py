"""In which unit does a column come, and what turns it into ours? A closed table, no guess."""

import re
import unicodedata
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Unit:
    """
    A unit, and the way from it to the house's unit of the same quantity.

    Attributes
    ----------
    name : str
        As we write it.
    scale, offset : float
        House value = value × scale + offset.
    """

    name: str
    scale: float = 1.0
    offset: float = 0.0


# All factors are exact by the units' own definitions (SI Brochure; international foot, inch, mile
# and nautical mile of 1959 and 1929).
_INCH_MM, _MILE_M, _NAUTICAL_MILE_M, _FOOT_M, _HOUR_S = 25.4, 1609.344, 1852.0, 0.3048, 3600.0
_FAHRENHEIT_STEP, _FAHRENHEIT_ZERO, _KELVIN_ZERO = 5.0 / 9.0, 32.0, 273.15
DEGREES_CELSIUS = Unit("degC")
UNITS: dict[str, dict[str, Unit]] = {
    "temperature": {
        "degC": DEGREES_CELSIUS,
        "degF": Unit("degF", _FAHRENHEIT_STEP, -_FAHRENHEIT_ZERO * _FAHRENHEIT_STEP),
        "K": Unit("K", 1.0, -_KELVIN_ZERO),
    },
    "humidity": {"percent": Unit("percent"), "fraction": Unit("fraction", 100.0)},
    "speed": {
        "m_s": Unit("m_s"),
        "km_h": Unit("km_h", 1000.0 / _HOUR_S),
        "mph": Unit("mph", _MILE_M / _HOUR_S),
        "knots": Unit("knots", _NAUTICAL_MILE_M / _HOUR_S),
        "ft_s": Unit("ft_s", _FOOT_M),
    },
    "depth": {"mm": Unit("mm"), "cm": Unit("cm", 10.0), "in": Unit("in", _INCH_MM)},
    "share": {
        "fraction": Unit("fraction"),
        "percent": Unit("percent", 0.01),
        "oktas": Unit("oktas", 0.125),
    },
    "angle": {"degree": Unit("degree")},
}
# What people and loggers write, without case, points and blanks.
_WRITTEN = {
    "degC": ("c", "°c", "ºc", "degc", "deg_c", "celsius", "cel", "centigrade", "degreescelsius"),
    "degF": ("f", "°f", "ºf", "degf", "deg_f", "fahrenheit", "[degf]", "degreesfahrenheit"),
    "K": ("k", "°k", "kelvin"),
    "percent": ("%", "percent", "pct", "%rh", "prozent"),
    "fraction": ("fraction", "1", "0-1", "0..1", "0to1"),
    "m_s": ("m/s", "m_s", "ms-1", "m·s-1", "ms⁻¹", "mps", "m/sec"),
    "km_h": ("km/h", "km_h", "kmh", "kph", "kmph", "kmh-1", "km/hr"),
    "mph": ("mph", "mi/h", "miles/h", "[mi_i]/h", "milesperhour"),
    "knots": ("kt", "kts", "kn", "knot", "knots", "[kn_i]/h", "[kn_i]"),
    "ft_s": ("ft/s", "ft_s", "fps"),
    "mm": ("mm", "mm/h", "mm_h", "l/m2", "l/m²", "millimetres", "millimeters"),
    "cm": ("cm",),
    "in": ("in", "inch", "inches", '"', "in/h", "[in_i]"),
    "oktas": ("okta", "oktas", "eighths", "1/8"),
    "degree": ("°", "deg", "degree", "degrees", "degreestrue", "grados"),
}
_KNOWN = {word: name for name, words in _WRITTEN.items() for word in words}
_BRACKETS = re.compile(r"^(?P<name>.*?)[\s,;]*[\[(](?P<unit>[^\])]*\]?[^\])]*)[\])]\s*$")
_TAIL = re.compile(r"^(?P<name>.*\w)[\s_,-]+(?P<unit>\S+)$")
_IN = re.compile(r"[\s_,]+in$", re.IGNORECASE)
_CASELESS_GAP = re.compile(r"[\s.]+")


def unit_named(text: str) -> str:
    """
    Return our name of a unit.

    Parameters
    ----------
    text : str
        As written.

    Returns
    -------
    str
        Empty for what is no unit in the table.

    Examples
    --------
    >>> [unit_named(text) for text in ("°F", "Km/h", "ms-1", "%", "furlongs")]
    ['degF', 'km_h', 'm_s', 'percent', '']
    """
    flat = _CASELESS_GAP.sub("", unicodedata.normalize("NFC", text).casefold())
    return _KNOWN.get(flat, "")


def parted(heading: str) -> tuple[str, str]:
    """
    Return what a heading names, and the unit in it.

    Parameters
    ----------
    heading : str
        As written.

    Returns
    -------
    tuple of str
        The name, and our name of the unit; the second is empty where none is written, and the
        first is the whole heading then.

    Examples
    --------
    >>> parted("Wind speed (km/h)"), parted("rain_mm"), parted("Air temp. in °F"), parted("time")
    (('Wind speed', 'km_h'), ('rain', 'mm'), ('Air temp.', 'degF'), ('time', ''))
    """
    text = heading.strip()
    for pattern in (_BRACKETS, _TAIL):
        found = pattern.match(text)
        if found and unit_named(found["unit"]):
            return _IN.sub("", found["name"]).strip(" _-,"), unit_named(found["unit"])
    # Units of two words, such as m_s, stand behind two marks.
    head, _, tail = text.rpartition("_")
    first, _, middle = head.rpartition("_")
    if first and unit_named(f"{middle}_{tail}"):
        return first, unit_named(f"{middle}_{tail}")
    return text, ""
