"""Sheets of the wheels of a mixed traffic: which of them does how much to the steel."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from .. import InputError
from .._house import INK, STEEL_MARKS, colour, crossing_colour, crossing_dashes, legend, sheet
from ..stored import DamageFile, label_of, read_damage

if TYPE_CHECKING:
    from os import PathLike

    from matplotlib.axes import Axes
    from numpy.typing import NDArray

__all__ = ["traffic_shares"]

_QUANTITIES = ("peak_pressure_MPa", "shakedown_exceedance", "surface_fatigue_index", "t_gamma_N", "friction_energy_J")


def traffic_shares(
    source: DamageFile | str | PathLike[str], quantity: str = "shakedown_exceedance", ax: Axes | None = None
) -> Axes:
    """Share of the wheels of a mixed traffic at or below each value of what one of them does, class by class.

    Parameters
    ----------
    source : DamageFile or path
        A damage with a mixed traffic, read or as a file.
    quantity : str
        "peak_pressure_MPa", "shakedown_exceedance", "surface_fatigue_index", "t_gamma_N" or "friction_energy_J": the
        largest value, or the sum of the energy, of one wheel over new steel.
    ax : Axes, optional
        Where to draw; a new figure when left out.

    Returns
    -------
    Axes
        The quantity in its unit, share of the wheels of each class in %; the broad line is of all wheels.

    Raises
    ------
    InputError
        The file has no mixed traffic, or not this quantity.
    """
    found = source if isinstance(source, DamageFile) else read_damage(Path(source))
    if quantity not in _QUANTITIES:
        raise InputError(f'"{quantity}" is not told wheel by wheel; these are: {", ".join(_QUANTITIES)}')
    names = np.asarray(found.data.texts.get("traffic/population/class", []), dtype=str)
    if names.size == 0:
        raise InputError(f'the file of "{found.name}" has no wheels of a mixed traffic; give one with --traffic FILE')
    values = found.data.column(f"traffic/population/{quantity}", names.size)
    wheels = found.data.column("traffic/population/wheels", names.size)
    rolled = np.isfinite(values) & (wheels > 0.0)
    unit = found.data.units[f"traffic/population/{quantity}"]
    name = label_of(quantity)
    tonnage = found.data.number("traffic/measures/tonnage_MGT")
    ax = sheet(ax, f"{name} of one wheel [{unit}]", "share of wheels at or below [%]",
               f"{name[:1].upper()}{name[1:]} over the wheels: {tonnage:.3g} MGT, {found.steel}")  # fmt: skip
    if quantity in STEEL_MARKS:
        mark, words = STEEL_MARKS[quantity]
        ax.axvline(mark, color=colour("limit"), linewidth=1.1)
        ax.annotate(f" beyond: {words} ", (mark, 0.98), xycoords=("data", "axes fraction"), ha="right", va="top",
                    rotation=90, color=colour("limit"), fontsize=8)  # fmt: skip
    ax.step(*_steps(values[rolled], wheels[rolled]), where="post", color=INK, linewidth=3.4, alpha=0.3,
            label="all wheels")  # fmt: skip
    for number, one in enumerate(dict.fromkeys(names.tolist()), start=1):
        of = rolled & (names == one)
        if np.any(of):
            ax.step(*_steps(values[of], wheels[of]), where="post", color=crossing_colour(number),
                    linestyle=crossing_dashes(number), linewidth=1.6, label=one)  # fmt: skip
    low, high = ax.get_xlim()
    ax.set_xlim(low - 0.04 * (high - low), high)  # room for the words at a limit
    ax.set_ylim(0.0, 101.0)
    legend(ax)
    return ax


def _steps(
    values: NDArray[np.float64], weights: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    order = np.argsort(values)
    share = 100.0 * np.cumsum(weights[order]) / weights.sum()
    return np.append(values[order][:1], values[order]), np.append(0.0, share)
