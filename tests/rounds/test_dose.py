"""Dose: canopy, spray volume, nozzle flow and rows, against printed worked examples."""

import pytest

from geo.rounds.dose import flow, litres_per_hectare, row_litres, tree_row_volume

# Bound's and Landers' sheets and the others below are quoted as read in public copies.
FOOT, ACRE, GALLON = 0.3048, 4046.8564224, 3.785411784


def test_a_box_of_ten_by_eight_feet_on_eighteen_foot_rows_is_193600_cubic_feet_an_acre() -> None:
    metric = tree_row_volume(height=8 * FOOT, width=10 * FOOT, row_spacing=18 * FOOT)
    assert metric * ACRE / 10_000 / FOOT**3 == pytest.approx(193_600, rel=1e-6)


def test_a_printed_canadian_canopy_is_35676_cubic_metres_a_hectare() -> None:
    canopy = tree_row_volume(height=5.5, width=4.8, row_spacing=7.4)
    assert canopy == pytest.approx(35_676, abs=0.5)
    assert litres_per_hectare(canopy, litres_per_1000_m3=93.7) == pytest.approx(3343, abs=1)


def test_a_printed_boom_gives_200_litres_a_hectare() -> None:
    assert flow(200, speed=7.8, row_spacing=0.5) == pytest.approx(1.3)


def test_24_nozzles_at_200_gallons_an_acre_give_half_a_gallon_a_minute_each() -> None:
    volume = 200 * GALLON / ACRE * 10_000
    litres = flow(volume, speed=1.5 * 1.609344, row_spacing=20 * FOOT)
    assert litres / GALLON / 24 == pytest.approx(0.505, abs=0.0005)


def test_a_row_of_200_metres_on_8_metres_takes_160_litres() -> None:
    assert row_litres(1000, row_length=200, row_spacing=8) == 160
    assert flow(1000, speed=4, row_spacing=8) == pytest.approx(53.3, abs=0.05)


def test_a_printed_orchard_sprayed_with_400_gallons_takes_0_7_gallons_a_thousand_cubic_feet() -> (
    None
):
    # 20 by 23 feet of canopy on rows of 35 feet; Pennsylvania's tree fruit guide.
    canopy = tree_row_volume(height=23 * FOOT, width=20 * FOOT, row_spacing=35 * FOOT)
    cubic_feet = canopy * ACRE / 10_000 / FOOT**3
    assert cubic_feet == pytest.approx(572_503, abs=1)
    assert 400 / (cubic_feet / 1000) == pytest.approx(0.7, abs=0.05)


def test_printed_volumes_of_a_box_are_136_and_194_gallons_an_acre() -> None:
    canopy = tree_row_volume(height=8 * FOOT, width=10 * FOOT, row_spacing=18 * FOOT)
    for gallons, printed in ((0.7, 136), (1.0, 194)):
        thousand = gallons * GALLON / FOOT**3  # litres for a thousand cubic metres
        volume = litres_per_hectare(canopy, litres_per_1000_m3=thousand)
        assert volume / GALLON * ACRE / 10_000 == pytest.approx(printed, abs=0.5)


def test_thirty_acres_at_40_litres_an_acre_take_1200_litres() -> None:
    # A printed sheet of Alberta's agriculture department; here as one long row of the same area.
    row = row_litres(40 / ACRE * 10_000, row_length=30 * ACRE / 8, row_spacing=8)
    assert row == pytest.approx(1200)
