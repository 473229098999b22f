"""Command line of the reports."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from .. import ComputeError, InputError
from . import write


def main(arguments: list[str] | None = None) -> int:
    """Make a report; returns the exit code: 0 done, 1 could not compute, 2 bad input."""
    parser = argparse.ArgumentParser(
        prog="python -m wingnose.report",
        description="One-page HTML report of a speed study, a comparison or a damage; one file, readable offline, "
        "prints on A4.",
    )
    parser.add_argument("file", type=Path, help="what `wingnose speeds`, `compare` or `damage` stored (HDF5)")
    parser.add_argument("-o", "--output", type=Path, help="HTML file; beside FILE when left out")
    given = parser.parse_args(arguments)
    try:
        print(write(given.file, given.output))
    except (InputError, ComputeError, OSError) as error:
        print(error, file=sys.stderr)
        return 2 if isinstance(error, InputError) else 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
