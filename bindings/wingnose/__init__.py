"""Wheel-rail contact and impact loads at railway crossings.

A case goes in, a passage is simulated, measures come out::

    import wingnose

    case = wingnose.read_case("profiles/demo.toml")
    result = wingnose.run(case)
    result.measures.p2          # N
    result.history.force        # N, an array that is not copied

All values are in SI units (m, s, N, kg, rad) in the frame of the header
``wingnose/words/frame.hpp``: x along the route from wing to nose, y outward, z up, forces on the
wheel positive upward. Values do not change once made: ``case.replace(lateral_offset=0.002)``
gives a changed copy. Arrays are read-only views of the C++ data.

Results are estimates for engineering comparison. They do not replace the infrastructure
manager's standards or the judgement of licensed engineers.
"""

from . import study
from ._core import (
    ComputeError,
    Direction,
    InputError,
    __commit__,
    __version__,
    assess,
    closedform,
    contact,
    layout,
    io,
    passage,
    profile,
    track,
    vehicle,
)
from ._core.io import measures_json, read_case, read_result, write_result
from ._core.study import Case, Geometry, Result, estimate, geometry, run, track_for
from ._core.track import modal_track

CAUTION = io.caution

__all__ = [
    "CAUTION",
    "Case",
    "ComputeError",
    "Direction",
    "Geometry",
    "InputError",
    "Result",
    "__commit__",
    "__version__",
    "assess",
    "closedform",
    "contact",
    "layout",
    "estimate",
    "geometry",
    "io",
    "measures_json",
    "modal_track",
    "passage",
    "profile",
    "read_case",
    "read_result",
    "run",
    "study",
    "track",
    "track_for",
    "vehicle",
    "write_result",
]
