"""Sheets of a contact: pressure under the wheel by every normal law, and how far the laws are from the half-space.

Lengths are drawn in mm, pressures in MPa; the values passed in are SI, as everywhere.
"""

from __future__ import annotations

from os import PathLike
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from .._core.contact import StationContact
from .._house import INK, RULE, colour, legend, sheet
from ..stored import ContactFile, read_contact

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    from .._core import contact as laws

__all__ = ["law_deviations", "pressure_across", "pressure_field"]

# One colour and dash per law.
_LINES = {
    "ellipse": (colour("low-passed"), (0, (4, 1.6))),
    "strips": (colour("closed form"), "-"),
    "half-space": (INK, "-"),
}


Strips = tuple["NDArray[np.float64]", ...]  # mm and MPa: y, width, ahead, half length, pressure


class _Body(NamedTuple):
    name: str
    vertical: float  # kN
    strips: Strips
    field: tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]] | None  # mm, mm, MPa


class _Contact(NamedTuple):
    law: str
    instant: str
    station: float  # mm
    bodies: list[_Body]

    def body(self, name: str | None) -> _Body:
        if name is None:
            return max(self.bodies, key=lambda body: body.vertical)
        for body in self.bodies:
            if body.name == name:
                return body
        known = ", ".join(body.name for body in self.bodies)
        raise ValueError(f'the "{name}" carries nothing here; bodies that carry: {known}')


def pressure_field(
    source: StationContact | ContactFile | str | PathLike[str],
    ax: Axes | None = None,
    *,
    body: str | None = None,
    beside: Sequence[StationContact | ContactFile] = (),
) -> Axes:
    """Half-space pressure under the wheel from above, with the outlines of the patch by the laws.

    Parameters
    ----------
    source : StationContact, ContactFile or path
        A contact with pressure fields.
    ax : Axes, optional
        Where to draw; a new figure when left out.
    body : str, optional
        The body looked at; the one that carries most when left out.
    beside : sequence of StationContact or ContactFile
        The same contact by other laws: only their outlines are drawn.

    Returns
    -------
    Axes
        Distance ahead of the axle and from the track centre line in mm, pressure in MPa.
    """
    found = _contact(source)
    chosen = found.body(body)
    if chosen.field is None:
        raise ValueError("this contact has no pressure field; ask for one with cells=64, or with --cells on the shell")
    x, y, pressure = chosen.field
    words = f", {found.instant} of the passage" if found.instant else ""
    title = f"Pressure on the {chosen.name} at {found.station:.0f} mm under {chosen.vertical:.0f} kN{words}"
    ax = sheet(ax, "ahead of the axle [mm]", "from the track centre line [mm]", title)
    shown = np.where(pressure > 0.0, pressure, np.nan)
    mesh = ax.pcolormesh(x, y, shown, cmap="YlGnBu", shading="nearest", vmin=0.0, rasterized=True)
    figure = ax.get_figure(root=True)
    if figure is not None:
        figure.colorbar(mesh, ax=ax, pad=0.01).set_label("pressure [MPa]", color=INK)
    ax.contour(x, y, np.where(pressure > 0.0, 1.0, 0.0), levels=[0.5], colors=[INK], linewidths=1.6)
    ax.plot([], [], color=INK, linewidth=1.6, label=f"half-space, {np.max(pressure):.0f} MPa")
    others = [found] if found.law != "half-space" else []
    for one in [*others, *(_contact(each) for each in beside)]:
        strips = one.body(chosen.name).strips
        _strips_outline(ax, strips, f"{one.law}, {np.max(strips[4]):.0f} MPa", one.law)
    loaded_x, loaded_y = x[np.any(pressure > 0.0, axis=0)], y[np.any(pressure > 0.0, axis=1)]
    room_x, room_y = 0.12 * float(np.ptp(loaded_x)), 0.18 * float(np.ptp(loaded_y))
    ax.set_xlim(float(loaded_x[0]) - room_x, float(loaded_x[-1]) + room_x)
    ax.set_ylim(float(np.min(loaded_y)) - room_y, float(np.max(loaded_y)) + 3.2 * room_y)
    ax.grid(False)
    ax.legend(frameon=False, labelcolor=INK, fontsize=9, loc="upper center", ncols=3)
    return ax


def pressure_across(
    source: StationContact | ContactFile | str | PathLike[str],
    ax: Axes | None = None,
    *,
    body: str | None = None,
    beside: Sequence[StationContact | ContactFile] = (),
) -> Axes:
    """Largest pressure along the track in every place across: what the wheel presses on the width of a body.

    Parameters
    ----------
    source, ax, body, beside
        As in `pressure_field`; a contact without field shows its own law alone.

    Returns
    -------
    Axes
        Distance from the track centre line in mm, pressure in MPa.
    """
    found = _contact(source)
    chosen = found.body(body)
    words = f", {found.instant} of the passage" if found.instant else ""
    title = f"Pressure across the {chosen.name} at {found.station:.0f} mm under {chosen.vertical:.0f} kN{words}"
    ax = sheet(ax, "from the track centre line [mm]", "largest pressure [MPa]", title)
    if chosen.field is not None:
        _, y, pressure = chosen.field
        rows = np.max(pressure, axis=1)
        loaded = np.flatnonzero(rows > 0.0)
        near = slice(max(int(loaded[0]) - 1, 0), int(loaded[-1]) + 2)
        y, rows = y[near], rows[near]
        ax.fill_between(y, rows, color=INK, alpha=0.12, linewidth=0)
        ax.plot(y, rows, color=INK, linewidth=1.6, label="half-space")
    others = [found] if found.law != "half-space" else []
    for one in [*others, *(_contact(each) for each in beside)]:
        strips = one.body(chosen.name).strips
        shade, dashes = _LINES[one.law]
        for number, run in enumerate(_side_by_side(strips)):
            y, width, pressures = strips[0][run], strips[1][run], strips[4][run]
            edges = np.concatenate(([y[0] - width[0] / 2], y + width / 2))
            words = one.law if number == 0 else "_" + one.law
            ax.stairs(pressures, edges, baseline=None, color=shade, linestyle=dashes, linewidth=1.5, label=words)
    ax.set_ylim(bottom=0.0)
    legend(ax)
    return ax


def law_deviations(
    deviations: Sequence[laws.LawDeviation],
    ax: Axes | None = None,
    *,
    quantity: str = "peak_pressure",
) -> Axes:
    """How far the fast normal laws are from the half-space over lateral shifts of the wheel.

    Parameters
    ----------
    deviations : sequence of LawDeviation
        From `wingnose.contact.law_deviations`.
    ax : Axes, optional
        Where to draw; a new figure when left out.
    quantity : str
        "peak_pressure", "approach", "area", "half_length" or "half_width".

    Returns
    -------
    Axes
        Shift of the wheel in mm, deviation in percent. Shaded where the contact angle changes by more than 0.15 rad
        inside the patch and the half-space itself is stretched.
    """
    known = ("peak_pressure", "approach", "area", "half_length", "half_width")
    if quantity not in known:
        raise ValueError(f'quantity "{quantity}" is not known; take one of {", ".join(known)}')
    words = quantity.replace("_", " ")
    shift = np.array([one.lateral for one in deviations]) * 1e3
    shift -= 750.0
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
    legend(ax)
    return ax


def _strips_outline(ax: Axes, strips: Strips, label: str, law: str) -> None:
    """Outline of every patch: strips that lie side by side."""
    shade, dashes = _LINES[law]
    for number, run in enumerate(_side_by_side(strips)):
        y, width, ahead, half_length = (column[run] for column in strips[:4])
        edges = np.repeat(np.concatenate(([y[0] - width[0] / 2], y + width / 2)), 2)[1:-1]
        front, back = np.repeat(ahead + half_length, 2), np.repeat(ahead - half_length, 2)
        ax.plot(
            np.concatenate((back, front[::-1], back[:1])),
            np.concatenate((edges, edges[::-1], edges[:1])),
            color=shade,
            linestyle=dashes,
            linewidth=1.6,
            label=label if number == 0 else "_" + label,
        )


def _side_by_side(strips: Strips) -> list[slice]:
    y, width = strips[0], strips[1]
    apart = np.flatnonzero(np.diff(y) > 0.75 * (width[1:] + width[:-1])) + 1
    bounds = [0, *apart.tolist(), y.size]
    return [slice(first, last) for first, last in zip(bounds[:-1], bounds[1:], strict=True)]


def _contact(source: StationContact | ContactFile | str | PathLike[str]) -> _Contact:
    if isinstance(source, StationContact):
        return _Contact(source.law, source.instant, source.station * 1e3, [_live(body) for body in source.bodies])
    stored = source if isinstance(source, ContactFile) else read_contact(source)
    instant = "" if stored.instant == "standing" else stored.instant
    bodies = [
        _Body(one.body, one.vertical, tuple(one.strips), None if (f := one.field) is None else (f.x, f.y, f.pressure))
        for one in stored.bodies
    ]
    return _Contact(stored.law, instant, stored.station, bodies)


def _live(body: laws.BodyContact) -> _Body:
    def column(name: str, scale: float) -> NDArray[np.float64]:
        return np.array([getattr(strip, name) for strip in body.strips]) * scale

    strips = (
        column("y", 1e3),
        column("width", 1e3),
        column("dx", 1e3),
        column("half_length", 1e3),
        column("pressure", 1e-6),
    )
    field = body.field
    drawn = None if field is None else (field.x * 1e3, field.y * 1e3, field.pressure * 1e-6)
    return _Body(body.body, body.vertical * 1e-3, strips, drawn)
