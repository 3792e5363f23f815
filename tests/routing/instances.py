"""Public routing instances, told as visits and vehicles."""

from pathlib import Path

import numpy as np
import pyvrp

from geo.routing import Vehicle, Visit, VisitProblem

DATA = Path(__file__).parent / "data"  # MIT, with its licence beside it
HORIZON = 100_000.0


def public_problem(name: str, *, rounding: str, vehicles: int) -> VisitProblem:
    """Read an instance of the pyvrp 0.14.1 sources; its units of time stand for minutes."""
    data = pyvrp.read(DATA / name, rounding)
    kind, depots = data.vehicle_type(0), [depot.location for depot in data.depots()]
    capacity, reloads = kind.capacity, [depots[number] for number in kind.reload_depots]
    end = min(float(data.depot(0).tw_late), HORIZON)
    return VisitProblem(
        visits=tuple(
            Visit(
                place=client.location,
                minutes=float(client.service_duration),
                windows=((client.tw_early, min(client.tw_late, end) + client.service_duration),),
                demand=float(client.delivery[0]) if client.delivery else 0.0,
                prize=None if client.required else float(client.prize),
            )
            for client in data.clients()
        ),
        vehicles=(
            Vehicle(
                start=depots[0],
                end=depots[0],
                shift=(0.0, end),
                capacity=float(capacity[0]) if capacity else None,
                refill_places=tuple(reloads),
            ),
        )
        * vehicles,
        travel=(np.array(data.duration_matrix(0), dtype=float),),
        is_waiting_counted=False,
    )
