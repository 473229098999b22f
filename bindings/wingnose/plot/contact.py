"""Sheets of a contact: pressure under the wheel by every normal law, and how far the laws are from the half-space."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
import xarray as xr
from matplotlib.axes import Axes
from numpy.typing import NDArray

from .. import InputError
from .._core import contact as laws
from .._house import INK, RULE, colour, colour_bar, legend, sheet
from .._reading import Source, has, number, read, rows, taken

# One colour and dash per law.
_LINES = {"ellipse": (colour("low-passed"), (0, (4, 1.6))), "strips": (colour("closed form"), "-")}
_STRIPS = ("y_mm", "width_mm", "ahead_of_axle_mm", "half_length_mm", "pressure_MPa")
Strips = tuple["NDArray[np.float64]", ...]  # these columns


class _Body(NamedTuple):
    """What one body carries: its title, the strips of every law but the half-space, the field of pressure."""

    name: str
    title: str
    strips: dict[str, Strips]
    field: tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]] | None  # mm, mm, MPa
    answers: list[xr.DataTree]


def pressure_field(
    source: Source, ax: Axes | None = None, *, body: str | None = None, beside: Sequence[Source] = ()
) -> Axes:
    """Half-space pressure under the wheel from above, with the outlines of the patch by the laws.

    `body`: the body looked at, the one that carries most when left out; `beside`: the same contact by other laws: only
    their outlines are drawn.
    """
    chosen = _chosen(source, body, beside)
    if chosen.field is None:
        raise InputError("this contact has no pressure field; ask for one with cells=64, or with --cells on the shell")
    x, y, pressure = chosen.field
    ax = sheet(ax, "ahead of the axle [mm]", "from the track centre line [mm]", f"Pressure on {chosen.title}",
               *chosen.answers)  # fmt: skip
    shown = np.where(pressure > 0.0, pressure, np.nan)
    mesh = ax.pcolormesh(x, y, shown, cmap="YlGnBu", shading="nearest", vmin=0.0, rasterized=True)
    colour_bar(ax, mesh, "pressure [MPa]")
    ax.contour(x, y, np.where(pressure > 0.0, 1.0, 0.0), levels=[0.5], colors=[INK], linewidths=1.6)
    ax.plot([], [], color=INK, linewidth=1.6, label=f"half-space, {np.max(pressure):.0f} MPa")
    for law, strips in chosen.strips.items():
        _strips_outline(ax, strips, f"{law}, {np.max(strips[4]):.0f} MPa", law)
    loaded_x, loaded_y = x[np.any(pressure > 0.0, axis=0)], y[np.any(pressure > 0.0, axis=1)]
    room_x, room_y = 0.12 * float(np.ptp(loaded_x)), 0.18 * float(np.ptp(loaded_y))
    ax.set_xlim(float(loaded_x[0]) - room_x, float(loaded_x[-1]) + room_x)
    ax.set_ylim(float(np.min(loaded_y)) - room_y, float(np.max(loaded_y)) + 3.2 * room_y)
    ax.grid(False)
    return legend(ax, loc="upper center", ncols=3)


def pressure_across(
    source: Source, ax: Axes | None = None, *, body: str | None = None, beside: Sequence[Source] = ()
) -> Axes:
    """Largest pressure along the track in every place across: what the wheel presses on the width of a body.

    `body`, `beside`: as in `pressure_field`; a contact without field shows its own law alone.
    """
    chosen = _chosen(source, body, beside)
    ax = sheet(ax, "from the track centre line [mm]", "largest pressure [MPa]", f"Pressure across {chosen.title}",
               *chosen.answers)  # fmt: skip
    if chosen.field is not None:
        _, y, pressure = chosen.field
        along = np.max(pressure, axis=1)
        loaded = np.flatnonzero(along > 0.0)
        near = slice(max(int(loaded[0]) - 1, 0), int(loaded[-1]) + 2)
        y, along = y[near], along[near]
        ax.fill_between(y, along, color=INK, alpha=0.12, linewidth=0)
        ax.plot(y, along, color=INK, linewidth=1.6, label="half-space")
    for law, strips in chosen.strips.items():
        shade, dashes = _LINES[law]
        for count, run in enumerate(_side_by_side(strips)):
            y, width, pressures = strips[0][run], strips[1][run], strips[4][run]
            edges = np.concatenate(([y[0] - width[0] / 2], y + width / 2))
            ax.stairs(pressures, edges, baseline=None, color=shade, linestyle=dashes, linewidth=1.5,
                      label=law if count == 0 else "_" + law)  # fmt: skip
    ax.set_ylim(bottom=0.0)
    return legend(ax)


def law_deviations(
    deviations: Sequence[laws.LawDeviation], ax: Axes | None = None, *, quantity: str = "peak_pressure"
) -> Axes:
    """How far the fast normal laws are from the half-space over lateral shifts of the wheel.

    `deviations`: from `wingnose.contact.law_deviations`; `quantity`: "peak_pressure", "approach", "area", "half_length"
    or "half_width". Drawn: shift of the wheel in mm, deviation in percent. Shaded where the contact angle changes by
    more than 0.15 rad inside the patch and the half-space itself is stretched.
    """
    known = ("peak_pressure", "approach", "area", "half_length", "half_width")
    if quantity not in known:
        raise ValueError(f'quantity "{quantity}" is not known; take one of {", ".join(known)}')
    words = quantity.replace("_", " ")
    shift = np.array([one.lateral for one in deviations]) * 1e3 - 750.0
    ax = sheet(ax, "shift of the wheel, + towards the field side [mm]", f"{words} less that of the half-space [%]",
               f"Deviation of the {words} by the fast laws from the half-space")  # fmt: skip
    yardstick = np.array([getattr(one.half_space, quantity) for one in deviations])
    for name in ("ellipse", "strips"):
        values = np.array([getattr(getattr(one, name), quantity) for one in deviations])
        shade, dashes = _LINES[name]
        ax.plot(shift, 100.0 * (values / yardstick - 1.0), color=shade, linestyle=dashes, linewidth=1.5, marker="o",
                markersize=3.2, label=name)  # fmt: skip
    ax.axhline(0.0, color=INK, linewidth=0.8)
    stretched = np.array([one.half_space.turn > 0.15 for one in deviations])
    if np.any(stretched):
        ax.fill_between(shift, 0.0, 1.0, where=stretched, step="mid", transform=ax.get_xaxis_transform(), color=RULE,
                        alpha=0.7, linewidth=0, zorder=0.5, label="half-space stretched")  # fmt: skip
    return legend(ax)


def _strips_outline(ax: Axes, strips: Strips, label: str, law: str) -> None:
    """Outline of every patch: strips that lie side by side."""
    shade, dashes = _LINES[law]
    for count, run in enumerate(_side_by_side(strips)):
        y, width, ahead, half_length = (column[run] for column in strips[:4])
        edges = np.repeat(np.concatenate(([y[0] - width[0] / 2], y + width / 2)), 2)[1:-1]
        front, back = np.repeat(ahead + half_length, 2), np.repeat(ahead - half_length, 2)
        ax.plot(np.concatenate((back, front[::-1], back[:1])), np.concatenate((edges, edges[::-1], edges[:1])),
                color=shade, linestyle=dashes, linewidth=1.6, label=label if count == 0 else "_" + label)  # fmt: skip


def _side_by_side(strips: Strips) -> list[slice]:
    y, width = strips[0], strips[1]
    apart = np.flatnonzero(np.diff(y) > 0.75 * (width[1:] + width[:-1])) + 1
    bounds = [0, *apart.tolist(), y.size]
    return [slice(first, last) for first, last in zip(bounds[:-1], bounds[1:], strict=True)]


def _chosen(source: Source, body: str | None, beside: Sequence[Source]) -> _Body:
    answers = [taken(one, "contact") for one in (source, *beside)]
    found = answers[0]
    forces = {name: force for name, force in rows(found, "bodies", "body", "vertical_force_kN")}
    name = max(forces, key=lambda one: forces[one]) if body is None else body
    if name not in forces:
        raise InputError(f'the "{name}" carries nothing here; bodies that carry: {", ".join(forces)}')
    instant = found.attrs.get("instant", "standing")
    words = "" if instant == "standing" else f", {instant} of the passage"
    laws_of = {str(one["place/law"].item()): one for one in answers if has(one, f"{name}/strips")}
    strips = {law: tuple(read(one, f"{name}/strips/{key}") for key in _STRIPS)
              for law, one in laws_of.items() if law != "half-space"}  # fmt: skip
    field = None
    if has(found, f"{name}/field"):
        x, y, pressure = (read(found, f"{name}/field/{key}") for key in ("x_mm", "y_mm", "pressure_MPa"))
        field = (x, y, pressure)
    at = number(found, "place/station_mm")
    return _Body(name, f"the {name} at {at:.0f} mm under {forces[name]:.0f} kN{words}", strips, field, answers)
