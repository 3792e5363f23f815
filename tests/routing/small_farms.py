"""Small farms to route on: few enough visits that every tour can be gone through."""

import numpy as np
from hypothesis import strategies as st

from geo.routing import Vehicle, Visit, VisitProblem


@st.composite
def farms(draw: st.DrawFn) -> VisitProblem:
    """Draw a small farm: up to five visits, up to two vehicles with or without a tank."""
    count, teams = draw(st.integers(1, 5)), draw(st.integers(1, 2))
    spot = st.tuples(st.integers(0, 30), st.integers(0, 30))
    xy = np.array(draw(st.lists(spot, min_size=count + 2, max_size=count + 2)), dtype=float)
    travel = np.abs(xy[:, None] - xy[None]).sum(axis=2)
    visits = []
    for number in range(count):
        first = draw(st.integers(0, 8)) * 30.0
        windows = [(first, first + draw(st.integers(1, 4)) * 30.0)]
        if draw(st.booleans()):
            windows.append((windows[0][1] + 30.0, windows[0][1] + 90.0))
        visits.append(
            Visit(
                place=number + 2,
                minutes=float(draw(st.integers(5, 60))),
                windows=tuple(windows),
                demand=float(draw(st.integers(1, 100))),
                prize=float(draw(st.integers(0, 50))),
                vehicles=draw(st.sampled_from([None, frozenset({teams - 1})])),
            )
        )
    return VisitProblem(
        visits=tuple(visits),
        vehicles=tuple(
            Vehicle(
                start=0,
                end=0,
                shift=(0.0, float(draw(st.integers(2, 14)) * 30)),
                capacity=draw(st.sampled_from([None, 100.0])),
                refill_places=(1,),
                refill_minutes=10.0,
                starts_empty=draw(st.booleans()),
            )
            for _ in range(teams)
        ),
        travel=(travel,),
    )
