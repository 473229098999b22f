"""Sheets of a stored sweep: a measure against each input that varies."""

from __future__ import annotations

import numpy as np
from matplotlib.axes import Axes

from .. import InputError
from .._house import INK, colour, legend, sheet
from .._reading import Source, grave_cases, label, node, taken, title, variable


def inputs_of(source: Source) -> list[str]:
    """Keys that vary in a sweep and are numbers."""
    found = node(taken(source, "sweep"), "input").data_vars
    return [str(key) for key, values in found.items() if values.dtype.kind == "f"]


def against_input(source: Source, key: str, measure: str = "p2_kN", ax: Axes | None = None) -> Axes:
    """A measure of every case of a sweep against one input, with the median where several cases share a value.

    A sweep under way shows what it holds so far. Cases with a grave finding are crossed out.

    `key`: key that varies, such as "passage.speed_km_h"; `measure`: measure, such as "p2_kN".
    """
    data = taken(source, "sweep")
    if key not in inputs_of(data):
        raise InputError(f'"{key}" does not vary in this sweep; {", ".join(inputs_of(data)) or "no number"} does')
    known = [str(name) for name in node(data, "measures").data_vars]
    if measure not in known:
        raise InputError(f'"{measure}" is no measure of this sweep; allowed: {", ".join(known)}.')
    told, given = variable(node(data, "measures"), measure), variable(node(data, "input"), key)
    ax = sheet(ax, title(label(given, meaning=True)), title(label(told)), f"{told.long_name} of {told.size} cases",
               data)  # fmt: skip
    values, answers = given.values, told.values
    done = np.isfinite(answers) & np.isfinite(values)
    ax.plot(values[done], answers[done], linestyle="none", marker="o", markersize=3.0, alpha=0.35,
            color=colour("nose"), markeredgewidth=0.0, label="cases")  # fmt: skip
    grave = done & grave_cases(data)
    if np.any(grave):
        ax.plot(values[grave], answers[grave], "x", color=colour("limit"), label="grave cases")
    levels = np.unique(values[done])
    if 1 < levels.size <= min(60, done.sum() // 2):
        middle = [float(np.median(answers[done & (values == level)])) for level in levels]
        ax.plot(levels, middle, color=INK, linewidth=1.5, label="median")
    return legend(ax)
