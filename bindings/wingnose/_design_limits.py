"""What can be made and may be used: limits of a crossing design, each an input of the user."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping

import numpy as np

from ._core import Case, InputError, layout

STEP = 0.010  # m, between the stations at which slopes are read
REACH = 3.0  # m of the nose looked at, from its point


@dataclasses.dataclass(frozen=True)
class Limits:
    """Limits a design must keep. The defaults are assumptions to start from, no standard: set your own."""

    ramp_slope: float = 0.020  # most rise of the highest line of the nose per length (m/m), read every 10 mm
    wing_lift_slope: float = 0.010  # most lift of the wing per length (m/m), where the case has a lift
    # Least and most of measures under every wheel, in their units; NaN or infinity for none:
    # {"nose_thickness_at_transfer_mm": (20, inf)}.
    measures: Mapping[str, tuple[float, float]] = dataclasses.field(default_factory=dict)

    def __post_init__(self) -> None:
        for name, value in (("ramp_slope", self.ramp_slope), ("wing_lift_slope", self.wing_lift_slope)):
            if not value > 0.0:
                raise InputError(f"{name}: {value} is not allowed; allowed: above 0 m/m.")


def excess_of_shape(case: Case, limits: Limits) -> float:
    """How far the slopes of a design are over their limits, as a share of these; 0 within."""
    excess = max(0.0, ramp_slope(case) / limits.ramp_slope - 1.0)
    return excess + max(0.0, wing_lift_slope(case) / limits.wing_lift_slope - 1.0)


def ramp_slope(case: Case) -> float:
    """Steepest rise of the highest line of the nose (m/m) in the first metres."""
    shape = case.excitation
    if isinstance(shape, layout.CrossingShape):
        made = layout.generate(shape)
    elif isinstance(shape, layout.SectionedShape):
        made = layout.from_sections(shape)
    else:
        raise InputError(f"{case.name}: a prescribed path has no nose to design; give a crossing.")
    nose = next(body for body in made.bodies if body.name == "nose")
    stations = np.arange(nose.x_begin + 1e-6, min(nose.x_begin + REACH, nose.x_end), STEP)
    top = np.array([np.max(nose.section(float(x), 81)[1]) for x in stations])
    return float(np.max(np.diff(top)) / STEP)


def wing_lift_slope(case: Case) -> float:
    """Lift of the wing over the length in which it is reached (m/m); 0 for measured sections."""
    shape = case.excitation
    if not isinstance(shape, layout.CrossingShape) or shape.wing_lift_run <= 0.0:
        return 0.0
    return shape.wing_lift / shape.wing_lift_run


def excess_of_measure(values: np.ndarray[tuple[int, ...], np.dtype[np.float64]], low: float, high: float) -> float:
    """How far a measure is out of its limits under the worst wheel, as a share of the limit."""
    below = (low - np.nanmin(values)) / max(abs(low), 1e-9) if np.isfinite(low) else 0.0
    above = (np.nanmax(values) - high) / max(abs(high), 1e-9) if np.isfinite(high) else 0.0
    return float(max(below, above, 0.0))
