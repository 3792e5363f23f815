"""The PDF holds real text, fetches nothing, and its absence is said."""

import builtins
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader

from geo.exports.day_sheet import day_sheet_html
from geo.exports.day_sheet_pdf import pdf_missing, write_day_sheet_pdf
from tests.exports.made import made
from tests.exports.made_round import HOSTILE_SPRAYER, made_round


def test_the_pdf_is_a_page_for_each_sprayer_and_the_office_of_text_that_can_be_read_back(
    tmp_path: Path,
) -> None:
    farm_made = made()
    farm = replace(farm_made.farm, name="Rancho Ñandú <b>")
    planned = made_round(farm, sprayers=("Airblast 1", HOSTILE_SPRAYER))
    page = day_sheet_html(farm=farm, season=farm_made.season, day_round=planned)
    path = tmp_path / "day-sheet.pdf"
    write_day_sheet_pdf(path, page)
    read = PdfReader(path)
    texts = [" ".join(sheet.extract_text().split()) for sheet in read.pages]
    assert len(texts) == 3
    for said in ("Rancho Ñandú <b>", "sulfur FRAC M02", "07:00–07:18", "<img src=x", "Loads"):
        assert said in texts[0]
    assert HOSTILE_SPRAYER in texts[1]
    assert read.metadata is not None
    assert str(read.metadata.title).startswith("Day sheet: Rancho Ñandú <b>")
    assert read.trailer["/Root"]["/MarkInfo"]["/Marked"]


def test_a_pdf_never_fetches_what_a_page_names(tmp_path: Path) -> None:
    (tmp_path / "secret.txt").write_text("secret", "utf-8")
    at = (tmp_path / "secret.txt").as_uri()
    page = f"<html lang=en><title>x</title><p>plain<img alt='' src='{at}'><object data='{at}'>"
    write_day_sheet_pdf(tmp_path / "x.pdf", page)
    read = PdfReader(tmp_path / "x.pdf")
    assert "secret" not in read.pages[0].extract_text()
    assert not list(read.pages[0].images)


@pytest.mark.parametrize(
    ("error", "said"),
    [(ImportError, 'pip install "mangoblock-risk[pdf]"'), (OSError, "apt-get install libpango")],
)
def test_what_is_missing_is_said_with_how_to_get_it(
    monkeypatch: pytest.MonkeyPatch, error: type[Exception], said: str
) -> None:
    real = builtins.__import__

    def without(name: str, *rest: object, **more: object) -> object:
        if name == "weasyprint":
            raise error(name)
        return real(name, *rest, **more)

    monkeypatch.setattr(builtins, "__import__", without)
    told = pdf_missing()
    monkeypatch.undo()
    assert said in told
    assert "print day-sheet.html from a browser" in told
    assert "\n" not in told


def test_nothing_is_said_where_the_pdf_can_be_written() -> None:
    assert pdf_missing() == ""
