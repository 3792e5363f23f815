"""What the user's own label says of a material: facts copied from it, never guessed by us."""

import re
from dataclasses import dataclass
from datetime import date
from math import nan

_MULTI_SITE = re.compile(r"^(M|BM|P|U)[ -]?0*(\d+)$")


@dataclass(frozen=True, slots=True)
class Label:
    """
    One row of the user's label file.

    Attributes
    ----------
    material : str
        Active ingredient.
    frac_codes : tuple of str
        Every cross-resistance code in the product: a premix counts once for each. Empty where not
        written down.
    re_entry_hours, pre_harvest_days, minimum_interval_days : float
        As on the label; NaN where not written down.
    season_maximum : float
        Uses in a season; infinite where the label sets none, NaN where not written down.
    rate : float
        As on the label, NaN where not written down. The program has no rates of its own.
    rate_unit : str
        Of the rate, as written.
    formulation : str
        Two-letter code, such as WG or SC; empty where not written down.
    country : str
        Where the label holds.
    label_date : datetime.date or None
        Of the label; None where not written down.
    """

    material: str
    frac_codes: tuple[str, ...] = ()
    re_entry_hours: float = nan
    pre_harvest_days: float = nan
    minimum_interval_days: float = nan
    season_maximum: float = nan
    rate: float = nan
    rate_unit: str = ""
    formulation: str = ""
    country: str = ""
    label_date: date | None = None


def frac_code(written: str) -> str:
    """
    Return a cross-resistance code as newer lists write it.

    Parameters
    ----------
    written : str
        Such as ``m2``, ``M 02``, ``M-2`` or ``11``.

    Returns
    -------
    str
        In one spelling.

    Examples
    --------
    >>> [frac_code(text) for text in ("m2", "M 02", "m-2", "11", "bm02")]
    ['M02', 'M02', 'M02', '11', 'BM02']
    """
    text = written.strip().upper()
    found = _MULTI_SITE.match(text)
    return f"{found[1]}{int(found[2]):02d}" if found else text.lstrip("0")
