"""Planned crews and picking."""

import pytest

CREWS = "crews.csv"


def planned(farm, *rows: str) -> None:
    farm.swap("farm.toml", '# crews = "crews.csv"', 'crews = "crews.csv"')
    (farm.folder / CREWS).write_text(
        "\n".join(["date,block_id,start,end,task", *rows]) + "\n", "utf-8"
    )


def test_without_a_file_nobody_is_asked_about(demo):
    assert demo[0].crews is None


def test_a_crew_stands_in_each_of_its_blocks(farm):
    planned(farm, "2026-02-19,B01;b02,06:30,12:00,pruning", "2026-02-21,B03,,,first Picking")
    crews = farm.read()[0].crews
    assert crews.block.tolist() == [0, 1, 2]
    day = 46  # 19 February, counted from 4 January
    assert crews.start.tolist() == [day * 24 + 6.5, day * 24 + 6.5, (day + 2) * 24.0]
    assert crews.end.tolist() == [day * 24 + 12.0, day * 24 + 12.0, (day + 3) * 24.0]
    assert crews.day.tolist() == [day, day, day + 2]
    assert crews.is_picking.tolist() == [False, False, True]


@pytest.mark.parametrize("task", ["Picking", "cosecha", "Recolección", "pizca", "colheita"])
def test_picking_is_known_in_the_farms_own_language(farm, task):
    planned(farm, f"2026-02-19,B01,06:30,12:00,{task}", "2026-02-19,B01,06:30,12:00,poda")
    assert farm.read()[0].crews.is_picking.tolist() == [True, False]


def test_an_unknown_block_is_set_aside(farm):
    planned(farm, "2026-02-19,B77,06:30,12:00,pruning")
    assert farm.only("E-BLOCK-UNKNOWN").outcome == "HOLD"
    assert farm.read()[0].crews.block.size == 0


@pytest.mark.parametrize(
    ("row", "code"),
    [
        ("19.2.26,B01,06:30,12:00,", "E-DATE"),
        ("2026-02-19,B01,half six,12:00,", "E-TIME"),
        ("2026-02-19,B01,12:00,06:30,", "E-CREW-ENDS"),
    ],
)
def test_what_cannot_be_read_stops(farm, row, code):
    planned(farm, row)
    assert farm.stop(code)


def test_an_empty_file_is_noted(farm):
    planned(farm)
    assert farm.only("E-CREWS-EMPTY").outcome == "NOTE"
