"""The hours of the strip: one bit a rule, blocks of the same hours share a pattern."""

import numpy as np

from geo.exports.page_windows import windows_data
from tests.exports.made import Made


def test_the_bits_tell_each_rule_and_hour_again(farm_made: Made) -> None:
    windows = farm_made.windows
    data = windows_data(windows)
    assert [rule["title"] for rule in data["rules"]] == [
        "Sulfur and heat",
        "Too little wind",
        "Bees may forage",
    ]
    patterns = data["patterns"].reshape(2, 30)
    bits = patterns[data["of"]]
    for place, gate in enumerate(windows.gates):
        told = (bits >> np.uint32(place)) & 1 == 1
        assert (told == np.broadcast_to(gate.is_closed, told.shape)).all()
    assert (data["days"][0], data["clock"][0], len(data["clock"])) == ("Wed 14 Aug", "06:00", 30)
