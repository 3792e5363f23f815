"""The last and the next look, against a plain loop."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from geo.season.visits import looks

SUBJECTS, DAYS = 3, 6
visits = st.lists(st.tuples(st.integers(0, SUBJECTS - 1), st.integers(-4, DAYS - 1)), max_size=9)


@given(visits=visits)
def test_looks_agree_with_a_plain_loop(visits: list[tuple[int, int]]) -> None:
    visits = sorted(visits)
    subject, day = np.array(visits, dtype=np.int64).reshape(-1, 2).T
    found = looks(subject, day, subject_count=SUBJECTS, day_count=DAYS)
    for who in range(SUBJECTS):
        for when in range(DAYS):
            # A visit before the season counts as made on its first day.
            own = [(max(d, 0), place) for place, (s, d) in enumerate(visits) if s == who]
            before = [one for one in own if one[0] <= when]
            after = [one for one in own if one[0] > when]
            assert found.has_last[who, when] == bool(before)
            assert found.has_following[who, when] == bool(after)
            if before:
                seen_on, place = before[-1]
                assert found.last[who, when] == place
                assert found.last_day[who, when] == seen_on
            if after:
                seen_on, place = after[0]
                assert found.following[who, when] == place
                assert found.following_day[who, when] == seen_on


def test_no_visits_at_all() -> None:
    nothing = np.array([], dtype=np.int64)
    found = looks(nothing, nothing, subject_count=2, day_count=3)
    assert not found.has_last.any()
    assert not found.has_following.any()
    assert ((found.last_day >= 0) & (found.following_day < 3)).all()
