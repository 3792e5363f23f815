"""The user's label file: facts copied from labels, and what is wrong with them."""

from datetime import date
from math import inf, isnan

import pytest

from geo.season.label import frac_code

LABELS = "labels.csv"
HEADER = (
    "material,frac_codes,rate,rate_unit,re_entry_hours,pre_harvest_days,season_maximum,"
    "minimum_interval_days,country,label_date"
)


def written(farm, *rows: str) -> None:
    (farm.folder / LABELS).write_text("\n".join([HEADER, *rows]) + "\n", "utf-8")


def test_the_made_farms_labels_are_read(demo):
    labels = {label.material: label for label in demo[0].labels}
    assert set(labels) == {"sulfur", "copper", "myclobutanil", "azoxystrobin"}
    sulfur = labels["sulfur"]
    assert (sulfur.frac_codes, sulfur.re_entry_hours, sulfur.season_maximum) == (("M02",), 24, inf)
    assert (sulfur.country, sulfur.label_date) == ("made example", date(2025, 6, 1))


def test_empty_cells_are_unknown_and_a_premix_has_every_code(farm):
    written(farm, "Myclobutanil,3+11,,,,,,,,", "sulfur,M 02,3,kg/ha,24,,none,,,")
    premix, sulfur = farm.read()[0].labels
    assert premix.frac_codes == ("3", "11")
    assert isnan(premix.re_entry_hours)
    assert premix.label_date is None
    assert (sulfur.frac_codes, sulfur.rate, sulfur.rate_unit) == (("M02",), 3.0, "kg/ha")


@pytest.mark.parametrize(
    ("row", "column"),
    [
        ("sulfur,M02,-2,kg/ha,24,0,3,7,,", "rate"),
        ("sulfur,M02,0,kg/ha,24,0,3,7,,", "rate"),
        ("sulfur,M02,2,kg/ha,-1,0,3,7,,", "re_entry_hours"),
        ("sulfur,M02,2,kg/ha,a day,0,3,7,,", "re_entry_hours"),
        ("sulfur,M02,2,kg/ha,24,inf,3,7,,", "pre_harvest_days"),
    ],
)
def test_a_number_that_no_label_has_sets_its_row_aside(farm, row, column):
    written(farm, row, "copper,M01,,,48,0,4,10,,")
    issue = farm.only("E-LABEL-NUMBER")
    assert issue.outcome == "HOLD"
    assert issue.where == f"{LABELS} row 2 column {column}"
    assert [label.material for label in farm.read()[0].labels] == ["copper"]


def test_an_unknown_material_is_set_aside_with_the_nearest(farm):
    written(farm, "sulphurr,M02,,,24,0,3,7,,")
    issue = farm.only("E-MATERIAL-UNKNOWN")
    assert "nearest" in issue.fix
    assert farm.read()[0].labels == ()


def test_the_first_of_two_rows_counts(farm):
    written(farm, "sulfur,M02,,,24,0,3,7,,", "sulfur,M02,,,4,0,3,7,,")
    assert farm.only("E-ROW-TWICE").where == f"{LABELS} row 3 column material"
    assert [label.re_entry_hours for label in farm.read()[0].labels] == [24.0]


def test_an_old_label_and_one_with_a_bad_date_are_not_used(farm):
    written(farm, "sulfur,M02,,,24,0,3,7,,2019-05-01", "copper,M01,,,48,0,4,9,,1/6/2025")
    issue = farm.only("E-LABEL-STALE")
    assert issue.outcome == "HOLD"
    assert issue.fix == "Copy the label in the store, with its own date"
    assert farm.only("E-LABEL-DATE").outcome == "HOLD"
    assert farm.read()[0].labels == ()


def test_an_empty_label_file_is_noted(farm):
    (farm.folder / LABELS).write_text("", "utf-8")
    assert "rules that need one are closed" in farm.only("E-LABELS-EMPTY").found
    assert farm.read()[0].labels == ()


@pytest.mark.parametrize(
    ("written_as", "code"),
    [("M2", "M02"), ("M02", "M02"), ("M 02", "M02"), ("m-2", "M02"), ("3", "3"), ("bm02", "BM02")],
)
def test_codes_of_older_lists_are_written_anew(written_as, code):
    assert frac_code(written_as) == code


def test_a_formulation_is_kept_by_its_code_and_another_is_noted(farm):
    (farm.folder / LABELS).write_text(
        "material,formulation\nsulfur,wg\ncopper,powder\nmyclobutanil,\n", "utf-8"
    )
    labels = farm.read()[0].labels
    assert [label.formulation for label in labels] == ["WG", "", ""]
    issue = farm.only("E-FORMULATION")
    assert issue.outcome == "NOTE"
    assert "column formulation" in issue.where
