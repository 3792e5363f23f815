"""What is said of each rival rule."""

import pytest

from geo.reference.number import sources
from geo.rules import RIVALS, Rival

each_rival = pytest.mark.parametrize("rival", RIVALS, ids=lambda rival: rival.key)


@each_rival
def test_a_rule_names_its_source_its_standing_and_what_it_does_not_see(rival: Rival) -> None:
    assert rival.source in sources()
    assert all([rival.name, rival.agent, rival.unit, rival.meaning, rival.standing])
    assert rival.blind_spots
    assert rival.column.startswith(rival.key)


def test_no_two_rules_share_a_name_or_a_column() -> None:
    for words in ("key", "name", "column"):
        assert len({getattr(rival, words) for rival in RIVALS}) == len(RIVALS)
