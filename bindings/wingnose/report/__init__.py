"""Reports to hand in: one HTML file each, readable offline, printable on A4.

``python -m wingnose.report speeds.h5 -o speeds.html`` makes them from what the studies store: speed studies,
comparisons of crossings, what a landing or a traffic does to the steel, and rides of vehicles in space. `speeds`,
`comparison`, `damage` and `ride` take the answer (an ``xarray.DataTree``) or its file and return HTML in one piece:
nothing is loaded from elsewhere. An answer or a file of another kind is an InputError.

Examples
--------
>>> from wingnose import report, study
>>> found = study.speeds("profiles/demo.toml", 80, 140, 20, {"p2_kN": 150})
>>> page = report.speeds(found)
>>> page.startswith("<!doctype html>")
True
"""

from __future__ import annotations

from collections.abc import Callable
from os import PathLike
from pathlib import Path

from .. import InputError
from .._reading import Source, lacking
from .._tree import open as opened
from .._whole import check_whole, write_whole
from ._comparison import comparison
from ._damage import damage
from ._ride import ride
from ._speeds import speeds

__all__ = ["comparison", "damage", "ride", "speeds", "write"]

# What a file may hold, and its report.
_REPORTS: dict[str, Callable[[Source], str]] = {"speeds": speeds, "comparison": comparison,
                                              "damage": damage, "turnout_ride": ride}  # fmt: skip


def write(file: str | PathLike[str], target: str | PathLike[str] | None = None) -> Path:
    """Make the report of a stored study and write it to `target`, an HTML file; left out, that of the study with
    ``.html``. Returns the file written, which is whole or not there; raises InputError where the
    file holds nothing there is a report for, ComputeError on a full disk."""
    source = Path(file)
    chosen = Path(target) if target is not None else source.with_suffix(".html")
    if chosen.resolve() == source.resolve():
        raise InputError(f'"{chosen}" is the study itself; give the report another name')
    answer = opened(source)
    kind = answer.attrs["answer"]
    if kind not in _REPORTS:
        raise InputError(f'"{source}" holds a {kind}; there are reports of speed studies, comparisons, damage and rides only')
    check_whole(chosen, "report")
    with lacking(source, kind):
        page = _REPORTS[kind](answer)
    write_whole(chosen, page.encode(), "report")
    return chosen
