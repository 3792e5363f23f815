"""The parameters of anthracnose are those of the table, under either rule of wetness."""

from dataclasses import replace

import pytest

from geo.infection.anthracnose_parameters import (
    WETNESS_RULES,
    anthracnose_parameters,
    late_rain_parameters,
)
from geo.reference.number import values


@pytest.mark.published("dodd1991", "germination and appressoria at 95-100 % humidity; abstract")
@pytest.mark.published("sentelhas2008", "leaves taken as wet from 90 % humidity on; excerpt")
def test_two_rules_say_when_air_wets() -> None:
    assert [anthracnose_parameters(rule).wet_humidity for rule in WETNESS_RULES] == [95.0, 90.0]


def test_the_rules_differ_in_nothing_else() -> None:
    liberal = anthracnose_parameters("liberal")
    assert replace(liberal, wet_humidity=95.0) == anthracnose_parameters()


def test_late_rain_is_read_from_the_rows_of_fruit() -> None:
    table = values("anthracnose", "fruit anthracnose")
    late = late_rain_parameters()
    assert (late.late_rain, late.late_rain_days, late.late_rain_weight) == tuple(table.values())
