"""Does the command line speak the language that was asked for?"""

import os
import subprocess
import sys

import pytest
from typer.testing import CliRunner

from geo.cli.commands import app
from geo.cli.tongue import language_first, language_of_computer
from geo.texts import language
from tests.demo_run import FARM

RUN = [sys.executable, "-c", "from geo.cli import main; main()"]


@pytest.mark.parametrize(
    ("environment", "tag"),
    [
        ({}, "en"),
        ({"LANG": "es_MX.UTF-8"}, "es"),
        ({"LANG": "es_MX.UTF-8", "LC_ALL": "C"}, "en"),
        ({"LANG": "en_US.UTF-8", "LC_MESSAGES": "es_PE"}, "es"),
        ({"LANG": "en_US.UTF-8", "LANGUAGE": "fr:es:en"}, "es"),
        ({"LANG": "fr_FR.UTF-8"}, "en"),
        ({"LANG": "es@latin", "LC_ALL": ""}, "es"),
    ],
)
# POSIX.1-2017, Base Definitions 8.2: LC_ALL before LC_MESSAGES before LANG, empty is unset.
# GNU gettext manual 2.3: LANGUAGE, a list, before them all.
def test_the_computers_language_is_taken_as_posix_orders_it(environment, tag):
    assert language_of_computer(environment) == tag


def test_the_language_may_stand_anywhere_but_behind_two_dashes():
    assert language_first(["map", "--language=es", "x"]) == (["--language", "es", "map", "x"], "es")
    assert language_first(["map", "--", "--language", "es"])[1] is None
    assert language_first(["map", "--language"]) == (["--language", "map"], None)
    assert language_first(["map", "--language", "xx"])[1] is None


def in_spanish(*arguments, **environment):
    run = subprocess.run(
        [*RUN, *arguments],
        capture_output=True,
        text=True,
        check=False,
        env={"PATH": os.environ["PATH"], "PYTHONPATH": os.getcwd(), **environment},  # noqa: PTH109
    )
    return run.returncode, " ".join((run.stdout + run.stderr).split())


def test_help_is_told_in_the_language_asked_for_or_that_of_the_computer():
    assert "huerto" in in_spanish("--help", LANG="es_PE.UTF-8")[1]
    assert "huerto" in in_spanish("--help", "--language", "es")[1]
    assert "Carpeta de la finca" in in_spanish("map", "--help", LANG="es_PE.UTF-8")[1]
    assert "Farm folder" in in_spanish("map", "--help", LANG="C.UTF-8")[1]


def test_a_language_without_a_catalogue_is_refused_with_those_there_are():
    code, said = in_spanish("check", "--language", "xx")
    assert code == 2
    assert "'xx': one of en, es" in said


def spoken(tmp_path, monkeypatch, *arguments, first=""):
    """Return the language in which a command reads a farm."""
    farm = tmp_path / "farm"
    farm.mkdir()
    text = (FARM / "farm.toml").read_text("utf-8").replace('language = "en"\n', first)
    (farm / "farm.toml").write_text(text, "utf-8")
    found = []
    monkeypatch.setattr(
        "geo.pipeline.check.survey", lambda *_, **__: found.append(language().tag) or 1 / 0
    )
    ended = CliRunner().invoke(app, [*arguments, "check", str(farm)])
    assert isinstance(ended.exception, ZeroDivisionError)
    assert language().tag == "en", "the language outlived the command"
    return found[0]


def test_a_farm_is_told_of_in_its_own_language(tmp_path, monkeypatch):
    assert spoken(tmp_path, monkeypatch, first='language = "es"\n') == "es"


def test_what_was_asked_for_goes_before_the_farms_language(tmp_path, monkeypatch):
    asked = ("--language", "es")
    assert spoken(tmp_path, monkeypatch, *asked, first='language = "en"\n') == "es"


@pytest.mark.parametrize("first", ["", 'language = "xx"\n', "language = 3\n", "language = ["])
def test_a_farm_that_names_no_language_we_know_is_told_of_in_that_of_the_computer(
    tmp_path, monkeypatch, first
):
    assert spoken(tmp_path, monkeypatch, first=first) == "en"


def test_a_language_of_a_farm_that_we_do_not_know_is_a_fault(tmp_path):
    farm = tmp_path / "farm"
    farm.mkdir()
    text = (FARM / "farm.toml").read_text("utf-8").replace('language = "en"', 'language = "ess"')
    (farm / "farm.toml").write_text(text, "utf-8")
    ended = CliRunner().invoke(app, ["check", str(farm), "--out", str(tmp_path / "out")])
    assert ended.exit_code == 2
    said = " ".join(ended.output.split())
    assert "E-CHOICE-UNKNOWN" in said
    assert '"ess" is not known Write its tag; nearest: "es"' in said or (
        '"ess" is not known. Write its tag; nearest: "es"' in said
    )
