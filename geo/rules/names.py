"""Which rival rules are shown, in whose unit, from where, and what are they blind to?"""

from dataclasses import dataclass

from geo.texts import mark


@dataclass(frozen=True, slots=True)
class Rival:
    """
    One rule beside our own.

    Its words are in English: `geo.texts.phrase_of` says them.

    Attributes
    ----------
    key : str
        Its label along the dimension ``rule``.
    name : str
        As printed.
    agent : str
        Disease it speaks of.
    unit : str
        As printed after a reading; empty for a bare number.
    column : str
        Column of the table: rule and unit.
    meaning : str
        The rule in plain words.
    source : str
        Key in ``sources.csv``.
    standing : str
        What the rule rests on, in words.
    blind_spots : tuple of str
        What it does not see.
    """

    key: str
    name: str
    agent: str
    unit: str
    column: str
    meaning: str
    source: str
    standing: str
    blind_spots: tuple[str, ...]


RIVALS = (
    Rival(
        key="field_rule",
        name=mark("Field rule"),
        agent="powdery mildew",
        unit="h",
        column="field_rule_hours",
        meaning=mark(
            "Hours of the day with 15-21 °C (the 60s to low 70s °F), 80-90 % relative "
            "humidity and no rain. More hours, worse mildew weather."
        ),
        source="common_practice",
        standing=mark("Common practice, no source: no publication of this window was found"),
        blind_spots=(
            mark("Misses the published optimum of germination, 22-23 °C."),
            mark("A hard edge: 79 % humidity counts for nothing, yet mildew is seen in drier air."),
            mark("Knows no stage, cultivar, spores or sprays."),
        ),
    ),
    Rival(
        key="grape_index",
        name=mark("Grape index"),
        agent="powdery mildew",
        unit=mark("points"),
        column="grape_index_points",
        meaning=mark(
            "Index of 0-100 made for grapevines. Three days in a row with 6 continuous hours "
            "at 21-30 °C start it (20, 40, 60). From then on such a day adds 20, or 10 if it also "
            "has an hour at 35 °C or more; any other day takes 10 away."
        ),
        source="gubler_thomas",
        standing=mark(
            "Published for another crop and another mildew; borrowed as a benchmark only"
        ),
        blind_spots=(
            mark("Sees no humidity and no rain."),
            mark("Mango blooms in cooler weather than its window: it under-reads early bloom."),
            mark("In hourly data an hour at 35 °C stands for its 15 minutes."),
            mark("The first day of the data stands for the day after bud break."),
        ),
    ),
    Rival(
        key="grape_index_2013",
        name=mark("Grape index, heat rule of 2013"),
        agent="powdery mildew",
        unit=mark("points"),
        column="grape_index_2013_points",
        meaning=mark(
            "The grape index with another heat rule: a day is hot after 2 hours in a row at "
            "38 °C or more."
        ),
        source="peduto2013",
        standing=mark(
            "Published for another crop and another mildew (abstract read); benchmark only"
        ),
        blind_spots=(
            mark("The same as the grape index; heat stops it later."),
            mark("No heat limit has been measured on mango mildew."),
        ),
    ),
    Rival(
        key="generic_wetness",
        name=mark("Generic wetness model"),
        agent="anthracnose",
        unit=mark("share of the hours needed"),
        column="generic_wetness_anthracnose_share_of_wet_hours_needed",
        meaning=mark(
            "Wet hours of the running wet period over the wet hours that infection needs at "
            "its temperature. 1 or more is infection by the model's own criterion (20 % incidence)."
        ),
        source="magarey2005",
        standing=mark(
            "Published model form (abstract read), with our own estimates for anthracnose: "
            "6 h at 25 °C, at most 48 h, gaps up to 8 h joined. They are assumed, not fitted"
        ),
        blind_spots=(
            mark(
                "Asks for wetness only: dew alone reads as infection, yet without rain no "
                "spores come."
            ),
            mark("No mango row of the model was at hand."),
            mark("Wet is taken as rain or 95 % humidity and more; no leaf was measured."),
        ),
    ),
    Rival(
        key="appressoria",
        name=mark("Appressoria alert (stand-in)"),
        agent="anthracnose",
        unit="%",
        column="appressoria_stand_in_percent",
        meaning=mark(
            "Highest share of anthracnose spores that would have formed infection cells "
            "(appressoria) in a wet period that day. Above 40 % is a high-risk period."
        ),
        source="estrada1996",
        standing=mark(
            "The 40 % line is published (abstract read); the curve that leads there is our "
            "own stand-in, because the coefficients of the published regressions were not at hand"
        ),
        blind_spots=(
            mark("Says what spores would do, not whether any arrived: rain must bring them."),
            mark(
                "Shares its curve with our own anthracnose model, so the two are not independent."
            ),
        ),
    ),
)
