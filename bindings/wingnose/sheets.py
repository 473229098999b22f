"""Draw the sheets of a result file: ``python -m wingnose.sheets RESULT.h5 [FOLDER]``.

Leaves RESULT_force.png and RESULT_path.png beside the result, or in FOLDER.
"""

from __future__ import annotations

import sys
from pathlib import Path

from . import InputError, plot, read_result
from ._house import PAPER


def draw(result_file: Path, folder: Path) -> list[Path]:
    """Draw force history and wheel path of a result file; returns the pictures written."""
    stored = read_result(result_file)
    folder.mkdir(parents=True, exist_ok=True)
    landing = stored.measures["landing_station_mm"] * 1e-3
    around = (landing - 1.5, landing + 2.0)
    sheets = {"force": plot.force(stored, window=around), "path": plot.wheel_path(stored, window=around)}
    written = []
    for name, ax in sheets.items():
        figure = ax.get_figure(root=True)
        if figure is None:
            continue
        target = folder / f"{result_file.stem}_{name}.png"
        figure.savefig(target, dpi=150, facecolor=PAPER)
        written.append(target)
    return written


def main(arguments: list[str]) -> int:
    """Command line; returns the exit code."""
    if not 1 <= len(arguments) <= 2:
        print(__doc__, file=sys.stderr)
        return 2
    result_file = Path(arguments[0])
    try:
        written = draw(result_file, Path(arguments[1]) if len(arguments) == 2 else result_file.parent)
    except InputError as error:
        print(error, file=sys.stderr)
        return 2
    for picture in written:
        print(picture)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
