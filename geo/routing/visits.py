"""What is to be visited, by whom, and what is a tour?"""

from dataclasses import dataclass

from geo.arrays import FloatArray


@dataclass(frozen=True, slots=True)
class Visit:
    """
    Something to do at a place, without a break.

    Attributes
    ----------
    place : int
        Where: a row of the travel times.
    minutes : float
        What it takes, or the time for each vehicle.
    windows : tuple of tuple of float
        Stretches of minutes; the whole visit lies within one of them.
    demand : float
        What it takes from the tank.
    prize : float or None
        What it is worth, 0 or more; None where it must be made.
    vehicles : frozenset of int or None
        Which vehicles may make it; None for all.
    """

    place: int
    minutes: float | tuple[float, ...]
    windows: tuple[tuple[float, float], ...]
    demand: float = 0.0
    prize: float | None = None
    vehicles: frozenset[int] | None = None

    def takes(self, vehicle: int) -> float:
        """
        Return how long the visit takes a vehicle.

        Parameters
        ----------
        vehicle : int
            Its place in the list of vehicles.

        Returns
        -------
        float
            Minutes.
        """
        return self.minutes[vehicle] if isinstance(self.minutes, tuple) else self.minutes

    @property
    def least_minutes(self) -> float:
        """
        Return how long the visit takes the quickest vehicle.

        Returns
        -------
        float
            Minutes.
        """
        return min(self.minutes) if isinstance(self.minutes, tuple) else self.minutes

    def is_open_to(self, vehicle: int) -> bool:
        """
        Return whether a vehicle may make the visit.

        Parameters
        ----------
        vehicle : int
            Its place in the list of vehicles.

        Returns
        -------
        bool
            True where nothing is said of vehicles.
        """
        return self.vehicles is None or vehicle in self.vehicles


@dataclass(frozen=True, slots=True)
class Vehicle:
    """
    A sprayer, or a person on foot.

    Attributes
    ----------
    start, end : int
        Places it leaves from and returns to.
    shift : tuple of float
        Minutes between which it is away.
    travel : int
        Which of the problem's tables of travel times is its own.
    capacity : float or None
        What its tank holds; None for no tank.
    refill_places : tuple of int
        Where it may be filled; none of them for a single tank a day.
    refill_minutes : float
        For filling and mixing.
    starts_empty : bool
        Whether it is filled before the first visit.
    most_minutes : float or None
        Longest time away; None for the whole shift.
    """

    start: int
    end: int
    shift: tuple[float, float]
    travel: int = 0
    capacity: float | None = None
    refill_places: tuple[int, ...] = ()
    refill_minutes: float = 0.0
    starts_empty: bool = False
    most_minutes: float | None = None

    @property
    def minutes(self) -> float:
        """
        Return how long it may be away.

        Returns
        -------
        float
            Minutes.
        """
        shift = self.shift[1] - self.shift[0]
        return shift if self.most_minutes is None else min(shift, self.most_minutes)


@dataclass(frozen=True, slots=True)
class VisitProblem:
    """
    Who may visit what.

    Attributes
    ----------
    visits : tuple of Visit
        To choose from.
    vehicles : tuple of Vehicle
        At hand.
    travel : tuple of numpy.ndarray
        [min] Shape (place, place) each: shortest times, so that no way round is shorter.
    is_waiting_counted : bool
        Whether time away is to be short, or only time on the way.
    groups : tuple of tuple of int
        Visits that are of use only all together: each group is made whole or not at all.
    """

    visits: tuple[Visit, ...]
    vehicles: tuple[Vehicle, ...]
    travel: tuple[FloatArray, ...]
    is_waiting_counted: bool = True
    groups: tuple[tuple[int, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class Step:
    """
    A visit or a refill.

    Attributes
    ----------
    visit : int or None
        Which one; None for a refill.
    place : int
        Where.
    arrives, starts, finishes : float
        Minutes, on the clock of the shifts.
    """

    visit: int | None
    place: int
    arrives: float
    starts: float
    finishes: float


@dataclass(frozen=True, slots=True)
class Route:
    """
    What one vehicle does.

    Attributes
    ----------
    vehicle : int
        Which one.
    leaves, returns : float
        Minutes, on the clock of the shifts.
    driving : float
        Minutes on the way.
    steps : tuple of Step
        In driving order.
    """

    vehicle: int
    leaves: float
    returns: float
    driving: float
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Tour:
    """
    The best order of visits that was found.

    Attributes
    ----------
    routes : tuple of Route
        Of those vehicles that leave, by vehicle.
    left_out : tuple of int
        Visits that are not made.
    is_complete : bool
        Whether every visit that must be made is made.
    prize : float
        Of the visits made.
    bound : float
        What no tour could collect more than.
    is_proven : bool
        Whether the two meet.
    """

    routes: tuple[Route, ...]
    left_out: tuple[int, ...]
    is_complete: bool
    prize: float
    bound: float
    is_proven: bool
