"""One case, many cases, and sweeps over the keys of a case.

A sweep in three steps: say what varies, answer it, look at the Dataset::

    from wingnose import study

    plan = study.latin_hypercube("profiles/demo.toml", {
        "passage.speed_km_h": (80, 140),
        "wheel.lateral_offset_mm": (-4, 4),
        "passage.direction": ["facing", "trailing"],
    }, n=1000, seed=1)
    answers = study.sweep(plan, "sweep.h5")  # goes on where it was stopped
    answers["p2_kN"].mean()

Sampling needs SciPy and the Datasets need xarray: ``pip install "wingnose[study]"``.
"""

from typing import TYPE_CHECKING

from .._core import study as _core
from .._core.study import *  # noqa: F403
from .datasets import open_dataset, to_dataset
from .running import IncompleteSweepWarning, sweep
from .sampling import grid, latin_hypercube, points, sobol

__all__ = [
    "IncompleteSweepWarning",
    "grid",
    "latin_hypercube",
    "open_dataset",
    "points",
    "sobol",
    "sweep",
    "to_dataset",
]
if TYPE_CHECKING:
    __all__ += _core.__all__
else:
    __all__ += [name for name in vars(_core) if not name.startswith("_")]
