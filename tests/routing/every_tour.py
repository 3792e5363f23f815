"""The best prize of a small problem, found by going through every tour."""

from geo.routing import VisitProblem

LITTLE = 1e-9


def best_prize(problem: VisitProblem) -> float:
    """Return it: every subset in every order by every vehicle, refills wherever they may be."""
    reached = {0}
    for number in range(len(problem.vehicles)):
        reached = {a | b for a in reached for b in _sets(problem, number) if not a & b}
    prizes = [visit.prize or 0.0 for visit in problem.visits]
    return max(sum(prizes[i] for i in range(len(prizes)) if made >> i & 1) for made in reached)


def _sets(problem: VisitProblem, number: int) -> set[int]:
    vehicle = problem.vehicles[number]
    travel = problem.travel[vehicle.travel]
    most = float("inf") if vehicle.capacity is None else vehicle.capacity
    found = {0}

    def go(made: int, place: int, clock: float, tank: float) -> None:
        for i, visit in enumerate(problem.visits):
            if made >> i & 1 or not visit.is_open_to(number) or visit.demand > most:
                continue
            ways = [(clock + travel[place, visit.place], tank - visit.demand)]
            for water in vehicle.refill_places:
                way = travel[place, water] + vehicle.refill_minutes + travel[water, visit.place]
                ways.append((clock + way, most - visit.demand))
            for arrives, left in ways:
                for start, end in visit.windows:
                    done = max(arrives, start) + visit.takes(number)
                    home = done + travel[visit.place, vehicle.end]
                    if left >= 0 and done <= end + LITTLE and home <= vehicle.shift[1] + LITTLE:
                        found.add(made | 1 << i)
                        go(made | 1 << i, visit.place, done, left)

    go(0, vehicle.start, vehicle.shift[0], -1.0 if vehicle.starts_empty else most)
    return found
