"""Answers to questions about a case: a passage, speeds, crossings compared, damage of the steel, sweeps.

Every answer is an ``xarray.DataTree`` with its findings (see :func:`wingnose.findings`); ``file=`` stores it, too.
A sweep in three steps: say what varies, answer it, look at the Dataset::

    from wingnose import study

    plan = study.latin_hypercube("profiles/demo.toml", {
        "passage.speed_km_h": (80, 140),
        "wheel.lateral_offset_mm": (-4, 4),
        "passage.direction": ["facing", "trailing"],
    }, n=1000, seed=1)
    answers = study.sweep(plan, "sweep.h5")  # goes on where it was stopped
    answers["p2_kN"].mean()

Sampling needs SciPy: ``pip install "wingnose[study]"``. Who builds on the steps of a passage finds them as
`geometry_of`, `plan_of`, `run_of`, `result_of`, `contact_trail`, `steel_damage`.
"""

from .._core.answers import Wheels, read_wheels
from .._core.study import (
    Estimate, Geometry, Instant, Outcome, Result, SharedParts, State, Sweep, SweepChunk, SweepFile, answer_cases,
    contact_trail, estimates_of, geometry_of, instant, landing_station, plan_of, read_sweep, result_of, run_many, run_of,
    steel_damage, track_for,
)  # fmt: skip
from .answers import compare, contact, damage, estimate, geometry, run, speeds, track_response
from .datasets import open_dataset, to_dataset
from .running import IncompleteSweepWarning, sweep
from .sampling import grid, latin_hypercube, points, sobol

__all__ = [
    "Estimate", "Geometry", "IncompleteSweepWarning", "Instant", "Outcome", "Result", "SharedParts", "State", "Sweep",
    "SweepChunk", "SweepFile", "Wheels", "answer_cases", "compare", "contact", "contact_trail", "damage", "estimate",
    "estimates_of", "geometry", "geometry_of", "grid", "instant", "landing_station", "latin_hypercube", "open_dataset",
    "plan_of", "points", "read_sweep", "read_wheels", "result_of", "run", "run_many", "run_of", "sobol", "speeds",
    "steel_damage", "sweep", "to_dataset", "track_for", "track_response",
]  # fmt: skip
