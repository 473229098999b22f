"""Reports to hand in: one HTML file each, readable offline, printable on A4.

``python -m wingnose.report speeds.h5 -o speeds.html`` makes them from what the studies store: speed studies,
comparisons of crossings, and what a landing or a traffic does to the steel.

Examples
--------
>>> from wingnose import report, study
>>> found = study.speeds("profiles/demo.toml", 80, 140, 20, {"p2_kN": 150})
>>> page = report.speeds(found)
>>> page.startswith("<!doctype html>")
True
"""

from ._comparison import comparison
from ._damage import damage
from ._speeds import speeds
from ._write import write

__all__ = ["comparison", "damage", "speeds", "write"]
