"""Print the timings: ``python -m geo.bench``, with ``--full`` on large grids."""

import argparse
from itertools import chain

from geo.bench import (
    day_round,
    district,
    farm_files,
    gates,
    kernels,
    page_scale,
    pixels,
    terrain,
    terrain_layer,
    whole_map,
)


def main() -> None:
    """Print each finding as soon as it is there."""
    parser = argparse.ArgumentParser(prog="python -m geo.bench", description=__doc__)
    parser.add_argument("--full", action="store_true", help="cells of a large elevation model")
    full = parser.parse_args().full
    for line in chain(
        whole_map.lines(),
        kernels.lines(),
        gates.lines(),
        day_round.lines(),
        pixels.lines(full=full),
        terrain.lines(full=full),
        terrain_layer.lines(full=full),
        district.lines(full=full),
        farm_files.lines(full=full),
        page_scale.lines(full=full),
    ):
        print(line, flush=True)


if __name__ == "__main__":
    main()
