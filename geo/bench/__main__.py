"""Print the timings: ``python -m geo.bench``."""

from geo.bench import kernels, whole_map


def main() -> None:
    """Print each finding as soon as it is there."""
    for line in (*whole_map.lines(), *kernels.lines()):
        print(line, flush=True)


if __name__ == "__main__":
    main()
