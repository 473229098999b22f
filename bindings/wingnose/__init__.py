"""Wheel-rail contact and impact loads at railway crossings.

A case goes in, a passage is simulated, an answer comes out: named arrays with units and findings::

    import wingnose

    case = wingnose.read_case("profiles/demo.toml")
    answer = wingnose.run(case, file="run.h5")
    answer["measures/p2_kN"]        # an xarray.DataArray with its unit and meaning
    wingnose.findings(answer)       # what a reader must know beside the numbers
    wingnose.run(case.vary({"passage.speed_km_h": 120}))

Every answer is an ``xarray.DataTree``, whether it was just computed or comes from a file (:func:`open`). The numbers
a passage is told by, with unit, label and meaning, stand in one table, :data:`quantities`.

The rooms (``layout``, ``contact``, ``track``, ``passage``, ...) hold the parts of the computation as values in SI
units (m, s, N, kg, rad), in the frame of the header ``wingnose/words/frame.hpp``: x along the route from wing to nose,
y outward, z up, forces on the wheel positive upward. Values do not change once made; arrays are read-only views of the
C++ data.

Results are estimates for engineering comparison. They do not replace the infrastructure manager's standards or the
judgement of licensed engineers.
"""

from . import study
from ._core import (
    Case, ComputeError, Direction, Finding, InputError, KeyInfo, KeyKind, Quantity, __commit__, __version__, assess,
    closedform, contact, layout, parse_case, passage, profile, read_case, reference, track, vehicle,
)  # fmt: skip
from ._core import caution as CAUTION
from ._core import quantities as _quantities
from ._tree import findings, open, to_datatree
from .study import run

#: Every number a passage is told by: key to :class:`Quantity`, in the order of print.
quantities: dict[str, Quantity] = _quantities()

__all__ = [
    "CAUTION", "Case", "ComputeError", "Direction", "Finding", "InputError", "KeyInfo", "KeyKind", "Quantity",
    "__commit__", "__version__", "assess", "closedform", "contact", "findings", "layout", "open", "parse_case", "passage",
    "profile", "quantities", "read_case", "reference", "run", "study", "to_datatree", "track", "vehicle",
]  # fmt: skip
