"""The day sheet as PDF, where the optional library that lays it out is there."""

from pathlib import Path

from geo.exports.files import write_whole
from geo.texts import phrase

GET_IT = 'pip install "mangoblock-risk[pdf]"'
GET_PANGO = "apt-get install libpango-1.0-0 libpangoft2-1.0-0"


def pdf_missing() -> str:
    """
    Return why no PDF can be written.

    Returns
    -------
    str
        One line that says how to get it; empty where it can be written.
    """
    try:
        import weasyprint  # noqa: F401
    except ImportError:
        return phrase(
            "No day-sheet.pdf: the library for it is not here; install it with: {command}, "
            "or print day-sheet.html from a browser",
            command=GET_IT,
        )
    except OSError:
        return phrase(
            "No day-sheet.pdf: a system library is not here; install Pango (on Debian: {command}), "
            "or print day-sheet.html from a browser",
            command=GET_PANGO,
        )
    return ""


def write_day_sheet_pdf(path: Path, page: str) -> None:
    """
    Write the page as a tagged PDF with real text (PDF/UA-1).

    Parameters
    ----------
    path : pathlib.Path
        Of the PDF.
    page : str
        Markup of the day sheet. Whatever it may name outside itself is not fetched.
    """
    import weasyprint
    from weasyprint.urls import URLFetcher

    laid_out = weasyprint.HTML(string=page, url_fetcher=URLFetcher(allowed_protocols=()))
    write_whole(path, lambda beside: laid_out.write_pdf(str(beside), pdf_variant="pdf/ua-1"))
