"""What the program says of its jobs is said in the language spoken, and does the same."""

from pathlib import Path

import pytest

from geo.errors import InputError
from geo.pipeline.check import check, write_survey
from geo.pipeline.new_farm import start_farm
from geo.pipeline.run import read
from geo.pipeline.suppositions import suppositions
from geo.pipeline.walk import GPX, SHEET, clear_walk, walk_of, write_walk
from geo.scouting.walk import Walk
from geo.texts import phrase_of, speaking
from tests.demo_run import FARM, demo_outcome
from tests.spoken import still_english

ZONE = "America/Mazatlan"
DISEASE = "panicle_mildew"
ASKED = {
    "--rain": ["20", "5@22-2"],
    "--warmer": ["2", "-1"],
    "--stage": ["B07=615"],
    "--spray": ["B03;B07=sulfur@tomorrow"],
    "--cultivar": ["B07=Keitt"],
    "--neighbour": ["N1=known", "N2=unknown"],
    "--without-neighbour": ["N1"],
}


def test_what_is_supposed_is_said_in_spanish_and_changes_the_same() -> None:
    season = read(FARM)[1]
    english = suppositions(ASKED, season, zone=ZONE)
    with speaking("es"):
        spanish = suppositions(ASKED, season, zone=ZONE)
    assert still_english(one.words for one in spanish) == []
    assert {one.words for one in spanish}.isdisjoint(one.words for one in english)
    for here, there in zip(spanish, english, strict=True):
        assert here.change(season).identical(there.change(season))


def test_each_fault_of_what_is_supposed_is_said_in_spanish_with_the_same_code() -> None:
    season = read(FARM)[1]
    wrong = {option: ["@"] for option in ASKED}

    def refused() -> list[str]:
        with pytest.raises(InputError) as caught:
            suppositions(wrong, season, zone=ZONE)
        return str(caught.value).splitlines()

    english = refused()
    with speaking("es"):
        spanish = refused()
    assert [line.split()[0] for line in spanish] == [line.split()[0] for line in english]
    assert still_english(line.split(": ", 1)[1] for line in spanish) == []


def test_a_spanish_walk_sheet_is_written_and_known_again_as_ours(tmp_path: Path) -> None:
    with speaking("es"):
        walk = walk_of(demo_outcome(), disease=DISEASE, hours=2.0)
        assert isinstance(walk, Walk)
        paths = write_walk(demo_outcome(), walk, tmp_path, disease=DISEASE)
        assert {path.name for path in paths.values()} == {SHEET, GPX}
        assert [phrase_of(what) for what in paths] == ["para imprimir", "para teléfono"]
    clear_walk(tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_a_walk_that_cannot_be_is_said_in_spanish() -> None:
    with speaking("es"):
        words = walk_of(demo_outcome(), disease=DISEASE, hours=0.2, gate="East gate")
        assert isinstance(words, str)
        assert words.startswith("Sin recorrido: en 0.2 h desde East gate no se puede revisar")
        with pytest.raises(InputError, match=r"E-WALK-HOURS \w+ --hours: 0 horas"):
            walk_of(demo_outcome(), disease=DISEASE, hours=0.0)


def test_files_of_a_check_keep_their_names_and_a_new_farm_can_be_read(tmp_path: Path) -> None:
    outlines, example = FARM / "blocks.geojson", FARM / "farm.toml"
    with speaking("es"):
        paths = write_survey(check(FARM), tmp_path / "out")
        start_farm(tmp_path / "own", outlines, example=example, zone=ZONE)
        assert [phrase_of(what) for what in paths] == ["las fallas", "como tabla", "las columnas"]
    assert sorted(path.name for path in paths.values()) == [
        "check.csv",
        "check.html",
        "columns.csv",
    ]
    settings = (tmp_path / "own" / "farm.toml").read_text("utf-8")
    assert 'language = "es"' in settings
    assert "E-SETTINGS" not in {issue.code for issue in check(tmp_path / "own").issues}
