"""A farm folder from somebody else cannot have other files of the computer read."""

import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner

from geo.cli.commands import app
from geo.errors import InputError
from geo.inputs.season import read_farm
from geo.reference.cultivars import cultivars
from geo.reference.fungicides import fungicides
from geo.reference.growth_stages import growth_stages
from tests.demo_run import FARM

HIDDEN = "nobody should see this"


@pytest.fixture
def farm(tmp_path: Path) -> Path:
    """Return the demo in a folder of its own, with a secret beside it."""
    (tmp_path / "secret.csv").write_text(f"{HIDDEN}\n", "utf-8")
    return Path(shutil.copytree(FARM, tmp_path / "farm"))


def read(farm: Path) -> None:
    read_farm(
        farm,
        materials=fungicides().keys(),
        cultivars=cultivars().keys(),
        stages=growth_stages().keys(),
    )


def with_diary(farm: Path, name: str, *, first: str = "") -> None:
    settings = farm / "farm.toml"
    text = settings.read_text("utf-8").replace('diary = "diary.csv"', f'diary = "{name}"')
    settings.write_text(first + text, "utf-8")


@pytest.mark.parametrize("name", ["../secret.csv", "absolute"])
def test_a_path_out_of_the_folder_is_refused_and_never_read(farm: Path, name: str) -> None:
    path = name if name != "absolute" else (farm.parent / "secret.csv").as_posix()
    with_diary(farm, path)
    with pytest.raises(InputError, match=r'E-FILE-OUTSIDE STOP .* key "files\.diary"'):
        read(farm)
    told = CliRunner().invoke(app, ["check", str(farm), "--out", str(farm.parent / "out")])
    assert told.exit_code == 2
    written = "".join(path.read_text("utf-8") for path in (farm.parent / "out").iterdir())
    assert "E-FILE-OUTSIDE" in told.output + written
    assert HIDDEN not in told.output + written


def test_a_link_out_of_the_folder_is_refused(farm: Path) -> None:
    (farm / "diary.csv").unlink()
    (farm / "diary.csv").symlink_to(farm.parent / "secret.csv")
    with pytest.raises(InputError, match="E-FILE-OUTSIDE"):
        read(farm)


def test_a_link_within_the_folder_is_read(farm: Path) -> None:
    (farm / "diary.csv").rename(farm / "sprays.csv")
    (farm / "diary.csv").symlink_to("sprays.csv")
    read(farm)


def test_who_named_the_file_may_allow_it(farm: Path) -> None:
    shutil.move(farm / "diary.csv", farm.parent / "shared.csv")
    with_diary(farm, "../shared.csv", first="files_elsewhere = true\n")
    read(farm)


def test_weather_of_a_listed_station_is_held_to_it_too(farm: Path) -> None:
    settings = farm / "farm.toml"
    text = settings.read_text("utf-8").replace('weather = "station.csv"', "")
    before, _, after = text.partition("[station]")
    station, _, rest = after.partition("\n[")
    station = station.replace("forecast_wind_height", "# forecast_wind_height")
    listed = f'[[stations]]\nname = "Ridge"\nweather = "../secret.csv"{station}'
    height = "\n[forecast]\nwind_height = 10.0\n"
    settings.write_text(f"{before}{listed}{height}\n[{rest}", "utf-8")
    with pytest.raises(InputError, match="E-FILE-OUTSIDE"):
        read(farm)
