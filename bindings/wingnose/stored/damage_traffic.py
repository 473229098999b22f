"""Wheels of a traffic, class by class, as a damage file tells of them."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from .datasets import Datasets

_GROUP = "traffic/population/"


class TrafficClass(NamedTuple):
    """Wheels of one class of a traffic; what no wheel of it tells is NaN."""

    name: str
    kinds: int
    failed: int
    share: float  # of the wheels that roll
    mean_load: float  # kN, static
    peak_pressure: float  # MPa, largest of one wheel
    shakedown: float  # largest exceedance of one wheel over new steel
    fatigue_index: float  # largest of one wheel over new steel
    t_gamma: float  # N, largest of one wheel
    energy_share: float  # of the friction energy of the traffic


def classes_of(data: Datasets) -> list[TrafficClass]:
    """The classes of a traffic in the order of the file, and all of its wheels last; empty without such a traffic."""
    names = np.asarray(data.texts.get(_GROUP + "class", []), dtype=str)
    if names.size == 0:
        return []
    wheels = data.column(_GROUP + "wheels", names.size)
    energy = np.nan_to_num(data.column(_GROUP + "friction_energy_J", names.size)) * wheels
    failed = np.array([text != "" for text in data.texts[_GROUP + "failure"]])

    def told(name: str, which: NDArray[np.bool_]) -> TrafficClass:
        rolled = which & ~failed & (wheels > 0.0)

        def largest(key: str) -> float:
            values = data.column(_GROUP + key, names.size)[rolled]
            return float(np.nanmax(values)) if np.any(np.isfinite(values)) else float("nan")

        load = data.column(_GROUP + "static_load_kN", names.size)[rolled]
        return TrafficClass(
            name,
            int(which.sum()),
            int((which & failed).sum()),
            _ratio(wheels[which].sum(), wheels.sum()),
            _ratio((load * wheels[rolled]).sum(), wheels[rolled].sum()),
            largest("peak_pressure_MPa"),
            largest("shakedown_exceedance"),
            largest("surface_fatigue_index"),
            largest("t_gamma_N"),
            _ratio(energy[which].sum(), energy.sum()),
        )

    known = list(dict.fromkeys(names.tolist()))
    every = np.ones(names.size, dtype=bool)
    return [*(told(name, names == name) for name in known), told("all wheels", every)]


def _ratio(part: float, whole: float) -> float:
    return float(part / whole) if whole > 0.0 else float("nan")
