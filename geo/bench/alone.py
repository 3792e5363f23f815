"""A piece of work in a process of its own, so that its peak of memory is its own."""

import subprocess
import sys

MEASURED = """
from resource import RUSAGE_SELF, getrusage
from time import perf_counter
{prepare}
before = getrusage(RUSAGE_SELF).ru_maxrss / 2**20
started = perf_counter()
{work}
seconds, peak = perf_counter() - started, getrusage(RUSAGE_SELF).ru_maxrss / 2**20
print(f"{{seconds:.1f}} {{peak:.2f}} {{before:.2f}}")
"""


def alone(*, prepare: str, work: str) -> tuple[float, float, float]:
    """
    Return how long something takes and what memory it needs.

    Parameters
    ----------
    prepare : str
        Python that is not timed.
    work : str
        Python that is.

    Returns
    -------
    float
        [s] Time of the work.
    float
        [GiB] Peak memory of the process.
    float
        [GiB] What of it was there before the work.
    """
    code = MEASURED.format(prepare=prepare, work=work)
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    seconds, peak, before = map(float, done.stdout.split())
    return seconds, peak, before
