"""A page without any script that lists the faults of a farm, grouped by what became of them."""

import re
from pathlib import Path

from markupsafe import escape

from geo.errors import Issue, Outcome
from geo.exports.files import write_text
from geo.exports.offline import still_page
from geo.exports.templates import filled, joined
from geo.season.file_roles import role_words
from geo.season.survey import Survey, Verdict
from geo.texts import isolated, mark, phrase, phrase_of

_DATE = re.compile(r"\d{4}-\d{2}-\d{2}(?: \d{2}:\d{2})?")
MEANING = {
    Outcome.STOP: mark("nothing can be decided before this is mended"),
    Outcome.HOLD: mark("set aside; everything else is used"),
    Outcome.FIX: mark("repaired without changing what it means; your file is as it was"),
    Outcome.NOTE: mark("used as it stands, and worth knowing"),
}
VERDICTS = {
    Verdict.CLEAN: mark("Everything can be used."),
    Verdict.PARTIAL: mark("The farm can be used; something is set aside or noted."),
    Verdict.STOPPED: mark("The farm cannot be used as it stands."),
}


def write_check_page(path: Path, survey: Survey, *, strict: bool = False) -> None:
    """
    Write the page.

    Parameters
    ----------
    path : pathlib.Path
        Replaced only when the new page is complete.
    survey : Survey
        What was found.
    strict : bool
        As for ``Survey.verdict``.
    """
    write_text(path, check_html(survey, strict=strict))


def check_html(survey: Survey, *, strict: bool = False) -> str:
    """
    Return the page.

    Parameters
    ----------
    survey : Survey
        What was found.
    strict : bool
        As for ``Survey.verdict``.

    Returns
    -------
    str
        HTML that asks the network for nothing; the same bytes for the same findings.
    """
    body = filled(
        "check.html",
        survey=survey,
        role_words=role_words,
        dates_kept=_dates_kept,
        verdict=phrase_of(VERDICTS[survey.verdict(strict=strict)]),
        groups=[
            (phrase_of(outcome), phrase_of(MEANING[outcome]), [_row(issue) for issue in issues])
            for outcome in Outcome
            if (issues := survey.of(outcome))
        ],
    )
    title = phrase("{farm}: what was found in its files", farm=survey.name)
    return still_page(
        title=str(escape(title)),
        style=joined(("page.css", "rules.css", "check.css", "contrast.css")),
        body=body,
    )


def _dates_kept(words: str) -> str:
    # Behind Arabic letters the parts of a date would change places.
    return _DATE.sub(lambda found: isolated(found[0]), words)


def _row(issue: Issue) -> dict[str, str]:
    at = issue.where.removeprefix(issue.file).strip()
    return {
        "file": issue.file,
        "at": at,
        "found": _dates_kept(issue.found),
        "fix": _dates_kept(issue.fix),
        "code": issue.code,
    }
