"""How is each sprayer set before it leaves: nozzles, speed and pattern of rows, in words?"""

from collections.abc import Iterator

from geo.arrays import FloatArray
from geo.rounds.calibration import seconds_over
from geo.rounds.dose import flow
from geo.rounds.ready import ReadyRound, ReadySprayer
from geo.rounds.work import row_pattern
from geo.texts import phrase

COURSE_M = 100.0  # usual length of a course to hold a watch against; our own choice


def setup_words(ready: ReadyRound) -> Iterator[str]:
    """
    Return what to check before leaving.

    Parameters
    ----------
    ready : ReadyRound
        All numbers of the round.

    Yields
    ------
    str
        A sentence for each sprayer, and one for the rows; where blocks differ, from the least to
        the most.
    """
    for sprayer in ready.sprayers:
        yield _of_sprayer(sprayer, ready)
    yield row_pattern(float(ready.row_spacing.min()), ready.turning_radius)


def _of_sprayer(sprayer: ReadySprayer, ready: ReadyRound) -> str:
    litres = flow(ready.volume, speed=sprayer.speed, row_spacing=ready.row_spacing)
    told = {
        "sprayer": sprayer.name,
        "litres": _range(litres, 1),
        "volume": _range(ready.volume, 0),
        "speed": sprayer.speed,
        "row_spacing": _range(ready.row_spacing, 1),
        "course": COURSE_M,
        "seconds": seconds_over(COURSE_M, speed=sprayer.speed),
    }
    if not sprayer.nozzles:
        return phrase(
            "{sprayer}: {litres} L/min from all nozzles for {volume} L/ha at {speed:g} km/h on "
            "rows of {row_spacing} m; {course:g} m take {seconds:.0f} s.",
            **told,
        )
    return phrase(
        "{sprayer}: {litres} L/min from all nozzles ({each} each of {nozzles}) for {volume} L/ha "
        "at {speed:g} km/h on rows of {row_spacing} m; {course:g} m take {seconds:.0f} s.",
        each=_range(litres / sprayer.nozzles, 2),
        nozzles=sprayer.nozzles,
        **told,
    )


def _range(values: FloatArray, digits: int) -> str:
    low, high = (f"{value:.{digits}f}" for value in (values.min(), values.max()))
    return low if low == high else phrase("{low} to {high}", low=low, high=high)
