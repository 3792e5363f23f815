"""How does mildew on leaves differ from mildew on panicles?"""

from dataclasses import fields

from geo.infection.panicle_mildew import PanicleMildew
from geo.reference.number import values


def leaf_mildew_parameters() -> PanicleMildew:
    """
    Return the parameters of mildew on leaves from the reference table.

    Nothing published tells the response of leaves from that of panicles, so the hourly curve is
    the same; rows of the subject ``leaf mildew`` stand where leaves differ. That is wash-off so
    far: colonies sit under the leaf as well. Bracts shield panicles only, which is a matter of
    stages and not of weather.

    Returns
    -------
    PanicleMildew
        The defaults.

    Examples
    --------
    >>> leaf_mildew_parameters().wash_per_mm
    0.05
    """
    table = values("mildew", "panicle mildew") | values("mildew", "leaf mildew")
    return PanicleMildew(**{field.name: table[field.name] for field in fields(PanicleMildew)})
