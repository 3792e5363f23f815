"""What the page rests on and what it does not know, line by line."""

from collections import Counter

import numpy as np
import xarray as xr

from geo.errors import Issue, Outcome
from geo.exports.page_words import as_date, newest_measured
from geo.infection.host import cultivar_shares
from geo.reference.cultivars import cultivar
from geo.reference.fungicides import reports
from geo.reference.number import TABLES, numbers, said, sources
from geo.season.disease import disease_key
from geo.season.farm import Farm, FileRead
from geo.season.file_roles import role_words
from geo.texts import listed, mark, phrase, phrase_of, phrases
from geo.texts.days import day_words

NOT_KNOWN_HERE = mark(
    "Not known here: whether pool strength and spore distances fit this valley; how fast each "
    "disease runs here (its rate is assumed); what the trees' age does; what was never written "
    "down."
)
MITES = mark(
    "Sulfur acts on mites too, not on insects: common practice, no source; nothing is reckoned "
    "from it."
)
NUTRITION = mark(
    "Nitrogen brings flushes of young leaves, which mildew infects more easily than hardened ones, "
    "so a heavy dressing before bloom is worth a thought: common practice, no source; nothing is "
    "reckoned from it."
)
RESISTANCE = mark(
    "Do not use one FRAC code again and again: change to another code, or mix with one, and count "
    "a mixture for each of its codes. Check the label for how often a code may be used in a "
    "season: common practice, no source; nothing is reckoned from it."
)
# What other sources report, by the name that the reference table has for it.
QUANTITIES = {
    "half_life": mark("half life"),
    "halving_rain": mark("halving rain"),
    "panicle_mildew_efficacy": mark("panicle mildew efficacy"),
    "leaf_mildew_efficacy": mark("leaf mildew efficacy"),
    "blossom_anthracnose_efficacy": mark("blossom anthracnose efficacy"),
    "fruit_anthracnose_efficacy": mark("fruit anthracnose efficacy"),
}
WORST_FIRST = (Outcome.STOP, Outcome.HOLD, Outcome.FIX, Outcome.NOTE)


def about_data(farm: Farm, season: xr.Dataset) -> list[str]:
    """
    Return what the page rests on.

    Parameters
    ----------
    farm : Farm
        Files and what was held, fixed or noted while reading them.
    season : xarray.Dataset
        For the hours.

    Returns
    -------
    list of str
        Plain lines, not yet escaped: what was set aside comes first.
    """
    issues = sorted(farm.issues, key=lambda issue: WORST_FIRST.index(issue.outcome))
    return [
        *(_issue_words(issue) for issue in issues),
        _weather_words(farm, season),
        *(_file_words(file) for file in farm.files),
        _standing_words(),
        *_rating_words(season),
        *_report_words(farm, season),
        *map(phrase_of, (MITES, NUTRITION, RESISTANCE, NOT_KNOWN_HERE)),
    ]


def set_aside(farm: Farm) -> str:
    """
    Return the sentence that sends the reader to what was set aside.

    Parameters
    ----------
    farm : Farm
        With its issues.

    Returns
    -------
    str
        Empty where nothing was set aside.
    """
    held = sum(issue.outcome == Outcome.HOLD for issue in farm.issues)
    if not held:
        return ""
    return phrases(
        "{count} thing was set aside while reading: see About the data.",
        "{count} things were set aside while reading: see About the data.",
        held,
    )


def _issue_words(issue: Issue) -> str:
    return f"{phrase_of(issue.outcome)}: {issue.where}: {issue.found}. {issue.fix}."


def _weather_words(farm: Farm, season: xr.Dataset) -> str:
    last_day = day_words(as_date(season["day"].values[-1]))
    filled = int(np.sum(season["is_filled"].values))
    return phrase(
        "Weather: measured until {measured}, known until {day}; {filled} of {hours} hours filled "
        "across short gaps",
        measured=newest_measured(season, farm.zone),
        day=last_day,
        filled=filled,
        hours=season.sizes["hour"],
    )


def _file_words(file: FileRead) -> str:
    name = file.path.name
    return phrase(
        "{role}: {file}, {used} used", role=role_words(file.role), file=name, used=file.used
    )


def _rating_words(season: xr.Dataset) -> list[str]:
    """Return what sources say of the farm's cultivars where they contradict each other."""
    disease = disease_key(season)
    names = {
        name: None
        for text in season["cultivar_share_text"].values.tolist()
        for name in cultivar_shares(text)
    }
    found = {rated.name: rated for rated in (cultivar(name, disease) for name in names)}
    return [
        phrase(
            "Sources differ on {cultivar}: {ratings}. Taken as {susceptibility:g} from 0 to 1, "
            "with a wide doubt",
            cultivar=name,
            ratings="; ".join(
                f"{sources()[one.source]['citation']}: {said(one.words)}" for one in rated.ratings
            ),
            susceptibility=rated.susceptibility,
        )
        for name, rated in found.items()
        if rated.are_at_odds
    ]


def _report_words(farm: Farm, season: xr.Dataset) -> list[str]:
    """Return what sources say of the farm's materials other than what is reckoned with."""
    used = {farm.settings.material, *season["spray_material"].values.tolist()}
    return [
        phrase(
            "Not reckoned with: {source} has a {quantity} of {value} for {material} "
            "({where}; {note})",
            source=sources()[source]["citation"],
            quantity=phrase_of(QUANTITIES[quantity]),
            value=" ".join(
                [format(number.value, "g"), *([] if number.unit == "1" else [number.unit])]
            ),
            material=phrase_of(material),
            where=said(number.where),
            note=said(number.note),
        )
        for material in sorted(used)
        for (source, quantity), number in reports(material).items()
    ]


def _standing_words() -> str:
    found = Counter(number.standing for table in TABLES for number in numbers(table).values())
    counted = {
        "measured": lambda count: phrase("{count} measured", count=count),
        "published": lambda count: phrase("{count} published", count=count),
        "label": lambda count: phrase("{count} label", count=count),
        "assumed": lambda count: phrase("{count} assumed", count=count),
    }
    return phrase(
        "Of the {count} numbers of the parameter set: {parts}",
        count=found.total(),
        parts=listed((counted[one](count) for one, count in found.most_common()), last="comma"),
    )
