"""Sheets of a stored sweep: a measure against each input that varies."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from .. import InputError
from .._house import INK, colour, legend, sheet
from ..stored import Datasets, label_of, read_datasets

if TYPE_CHECKING:
    from os import PathLike

    from matplotlib.axes import Axes

__all__ = ["against_input", "inputs_of"]


def inputs_of(source: Datasets | str | PathLike[str]) -> list[str]:
    """Keys that vary in a sweep file and are numbers."""
    data = _sweep(source)
    return [name.removeprefix("input/") for name in data.numbers if name.startswith("input/")]


def against_input(
    source: Datasets | str | PathLike[str], key: str, measure: str = "p2_kN", ax: Axes | None = None
) -> Axes:
    """A measure of every case of a sweep against one input, with the median where several cases share a value.

    Parameters
    ----------
    source : Datasets or path
        A sweep, read or as a file; a sweep under way shows what it holds so far.
    key : str
        Key that varies, such as "passage.speed_km_h".
    measure : str
        Measure, such as "p2_kN".
    ax : Axes, optional
        Where to draw; a new figure when left out.

    Returns
    -------
    Axes
        Input and measure in the units of the file.

    Raises
    ------
    InputError
        The sweep has no such input or measure.
    """
    data = _sweep(source)
    values, answers = data.numbers.get(f"input/{key}"), data.numbers.get(f"measures/{measure}")
    if values is None:
        raise InputError(f'"{key}" does not vary in this sweep; {", ".join(inputs_of(data)) or "no number"} does')
    if answers is None:
        raise InputError(f'"{measure}" is no measure of this sweep')
    label = f"{label_of(measure)} [{data.units[f'measures/{measure}']}]"
    ax = sheet(ax, f"{key.rsplit('.', 1)[-1]} [{data.units[f'input/{key}']}]", label[:1].upper() + label[1:],
               f"{label_of(measure)} of {answers.size} cases")  # fmt: skip
    done = np.isfinite(answers) & np.isfinite(values)
    ax.plot(values[done], answers[done], linestyle="none", marker="o", markersize=3.0, alpha=0.35,
            color=colour("nose"), markeredgewidth=0.0, label="cases")  # fmt: skip
    levels = np.unique(values[done])
    if 1 < levels.size <= min(60, done.sum() // 2):
        middle = [float(np.median(answers[done & (values == level)])) for level in levels]
        ax.plot(levels, middle, color=INK, linewidth=1.5, label="median")
    legend(ax)
    return ax


def _sweep(source: Datasets | str | PathLike[str]) -> Datasets:
    data = source if isinstance(source, Datasets) else read_datasets(Path(source))
    if data.kind != "sweep":
        raise InputError(f"a sweep is needed; this file holds a {data.kind}")
    return data
