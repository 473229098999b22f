"""Sheets of damage: maps of the running surface, the landing in a shakedown diagram, and courses along the nose."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from matplotlib.colors import LinearSegmentedColormap, LogNorm, Normalize

from .. import InputError
from .._core.assess import CrackFunction
from .._house import INK, colour, crossing_colour, crossing_dashes, legend, sheet
from ..stored import DamageFile, read_damage

if TYPE_CHECKING:
    from collections.abc import Sequence
    from os import PathLike

    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    Source = DamageFile | str | PathLike[str]

__all__ = ["along", "damage_map", "shakedown"]

_MAPS = {
    "peak_pressure_MPa": ("Largest elastic pressure", "peak pressure [MPa]", 1.0),
    "wheels": ("Wheels that loaded a place", "wheels [-]", 1.0),
    "wheels_beyond_shakedown": ("Wheels beyond elastic shakedown", "wheels [-]", 1.0),
    "wheels_beyond_surface_flow": ("Wheels whose surface fatigue index was above 0", "wheels [-]", 1.0),
    "friction_energy_J_mm2": ("Friction energy per wheel", "friction energy per wheel [J/mm²]", 1.0),
    "wear_depth_um": ("Wear per wheel on the shape as given", "wear depth per wheel [nm]", 1e3),
}
_SUMS = ("friction_energy_J_mm2", "wear_depth_um")  # over a traffic their mean over the wheels is drawn: a rate
_SPAN = 1e3  # largest over least value on the scale of sums
_COURSES = {
    "peak_pressure_MPa": "elastic peak pressure [MPa]",
    "load_factor": "load factor p0/k [-]",
    "shakedown_exceedance": "shakedown exceedance [-]",
    "surface_fatigue_index": "surface fatigue index [-]",
    "t_gamma_N": "T-gamma [N]",
    "crack_damage_1e_6": "crack damage per wheel [1e-6]",
    "normal_force_kN": "normal force [kN]",
    "friction_power_kW": "friction power [kW]",
}
_CRACKS = CrackFunction()
_LIMITS: dict[str, list[tuple[float, str, str | tuple[float, tuple[float, ...]]]]] = {
    "shakedown_exceedance": [(1.0, "above: plastic with every wheel", "-")],
    "surface_fatigue_index": [(0.0, "above: the surface yields", "-")],
    "t_gamma_N": [
        (_CRACKS.threshold, "above: cracks start (R260)", (0, (5, 2))),
        (_CRACKS.balance, "above: wear outruns cracks (R260)", "-"),
    ],
    "crack_damage_1e_6": [(0.0, "below: wear outruns cracks", "-")],
}
# From paper to ink over the colours of the bodies, rising in darkness.
_SHADES = LinearSegmentedColormap.from_list("wingnose damage", ["#efe6d2", "#d9a75a", "#b9772e", "#a23b56", INK])


def damage_map(
    source: Source,
    quantity: str = "peak_pressure_MPa",
    ax: Axes | None = None,
    *,
    part: str | None = None,
    window: tuple[float, float] | None = None,
) -> Axes:
    """Damage over the running surface in plan, wing and nose in one frame with their running edges.

    Parameters
    ----------
    source : DamageFile or path
        A damage, read or as a file.
    quantity : str
        A map of the file, such as "peak_pressure_MPa" or "wear_depth_um".
    ax : Axes, optional
        Where to draw; a new figure when left out.
    part : str, optional
        "passage" or "traffic"; the traffic where there is one when left out.
    window : (float, float), optional
        m, stations shown; where anything lies when left out.

    Returns
    -------
    Axes
        Station and distance from the track centre line, both in mm and not to one scale. Friction energy and wear are
        those of a mean wheel, on a logarithmic scale over three decades. Blank: nothing lies there. An arrow on the
        scale: places lie beyond it.
    """
    found = _damage(source)
    part = part if part is not None else "traffic" if found.has_traffic else "passage"
    maps = [found.map(body, quantity, part=part) for body in found.bodies]
    title, label, scale = _MAPS[quantity]
    if part == "traffic" and quantity in _SUMS:
        scale /= found.data.number("traffic/measures/wheels")
    ax = sheet(ax, "station [mm]", "from the track centre line [mm]", f"{title}: {_words(found, part)}")
    positive = np.concatenate([one.values[one.values > 0.0] for one in maps] or [np.empty(0)]) * scale
    most, beyond = (float(positive.max(initial=0.0)), False) if quantity != "peak_pressure_MPa" else _top(positive)
    if label == "wheels [-]" and most > 1e4:
        label, scale, most = "wheels [thousand]", scale * 1e-3, most * 1e-3
    # Sliding is strong in one place and weak over metres: only a logarithmic scale shows both.
    norm = LogNorm(most / _SPAN, most) if quantity in _SUMS and most > 0.0 else Normalize(0.0, most)
    low_x, high_x, low_y, high_y = np.inf, -np.inf, np.inf, -np.inf
    drawn = None
    for one in maps:
        held = one.values > 0.0
        if not held.any():
            continue
        values = np.where(held, one.values * scale, np.nan).T
        drawn = ax.pcolormesh(one.x, one.y, values, cmap=_SHADES, norm=norm, shading="nearest", rasterized=True)
        along_x, across = one.x[held.any(axis=1)], one.y[held.any(axis=0)]
        low_x, high_x = min(low_x, along_x[0]), max(high_x, along_x[-1])
        low_y, high_y = min(low_y, across[0]), max(high_y, across[-1])
    if drawn is None:
        ax.text(0.02, 0.93, "none anywhere", transform=ax.transAxes, color=INK)
    else:
        ends = "min" if quantity in _SUMS else "max" if beyond else "neither"
        bar = ax.figure.colorbar(drawn, ax=ax, pad=0.01, extend=ends)
        bar.set_label(label, color=INK)
        bar.outline.set_visible(False)
        bar.ax.tick_params(colors=INK, length=3)
    for body in found.bodies:
        x, y = found.edge(body)
        if x.size == 0:  # not a crossing
            continue
        ax.plot(x, y, color=colour(body), linewidth=1.4, label=f"running edge of the {body}")
        if drawn is None:
            low_x, high_x = min(low_x, x[0]), max(high_x, x[-1])
            low_y, high_y = min(low_y, y.min()), max(high_y, y.max())
    if window is not None:
        low_x, high_x = 1e3 * window[0], 1e3 * window[1]
    if high_x > low_x and high_y >= low_y:
        ax.set_xlim(low_x - 20.0, high_x + 20.0)
        ax.set_ylim(min(low_y, _least_edge(found)) - 0.16 * (high_y - low_y + 40.0), high_y + 12.0)
    # Below the nose, where nothing lies.
    if ax.get_legend_handles_labels()[0]:
        ax.legend(frameon=False, labelcolor=INK, fontsize=9, loc="lower right", ncols=2)
    return ax


def shakedown(source: Source, ax: Axes | None = None, *, body: str | None = None) -> Axes:
    """Path of the case's own wheel through the shakedown diagram of the new steel, coloured by station.

    Parameters
    ----------
    source : DamageFile or path
        A damage, read or as a file.
    ax : Axes, optional
        Where to draw; a new figure when left out.
    body : str, optional
        Contacts on "wing" or "nose" only; both when left out, the wing as squares.

    Returns
    -------
    Axes
        Traction coefficient and load factor, both without unit. Above the limit of elastic shakedown every wheel leaves
        plastic strain.
    """
    found = _damage(source)
    ax = sheet(ax, "traction coefficient: creep over normal force [-]", "load factor p0/k: pressure over shear yield [-]",
               f"Shakedown diagram: {_words(found, 'passage')}, k {found.shear_yield:.0f} MPa")  # fmt: skip
    traction = found.data.column("limits/traction_coefficient")
    ax.plot(traction, found.data.column("limits/elastic_shakedown"), color=colour("limit"), linewidth=1.8,
            label="elastic shakedown")  # fmt: skip
    ax.plot(traction, found.data.column("limits/first_yield"), color=INK, linewidth=1.0, linestyle=(0, (5, 2)),
            label="first yield")  # fmt: skip
    flow = traction[traction > 0.0]
    ax.plot(flow, 1.0 / flow, color=colour("low-passed"), linewidth=1.0, linestyle=(0, (1, 1.5)),
            label="surface flow, fatigue index 0")  # fmt: skip
    bodies = [one for one in found.bodies if body in (None, one)]
    columns = {one: found.contacts(one, "traction_coefficient", "load_factor", "x_mm") for one in bodies}
    stations = np.concatenate([x for _, _, x in columns.values()]) if columns else np.empty(0)
    top, right, drawn = 5.0, 0.45, None
    for one, (f, load, x) in columns.items():
        if f.size == 0:
            continue
        drawn = ax.scatter(f, load, c=x, cmap="cividis", vmin=stations.min(), vmax=stations.max(), s=13,
                           marker="s" if one == "wing" else "o", linewidths=0, zorder=3, clip_on=False)  # fmt: skip
        ax.plot([], [], color=INK, linestyle="none", marker="s" if one == "wing" else "o", markersize=4, label=one)
        most = float(f.max())
        top = max(top, float(load.max()))
        right = max(right, 1.05 * most, min(1.75 * most, float(traction[-1])))  # room for the legend right of the path
    if drawn is not None:
        bar = ax.figure.colorbar(drawn, ax=ax, pad=0.01)
        bar.set_label("station of the patch [mm]", color=INK)
        bar.outline.set_visible(False)
        bar.ax.tick_params(colors=INK, length=3)
    ax.set_xlim(0.0, right)
    ax.set_ylim(0.0, 1.08 * top)
    legend(ax)
    return ax


def along(
    sources: Source | Sequence[Source],
    quantity: str = "surface_fatigue_index",
    ax: Axes | None = None,
    *,
    body: str = "nose",
    window: tuple[float, float] | None = None,
) -> Axes:
    """Course of a quantity along one body under the case's own wheel, for one steel or several.

    Parameters
    ----------
    sources : DamageFile, path, or sequence of these
        Damages, read or as files, told apart by their steel.
    quantity : str
        A column of the contacts, such as "peak_pressure_MPa", "surface_fatigue_index" or "t_gamma_N".
    ax : Axes, optional
        Where to draw; a new figure when left out.
    body : str
        "nose" or "wing".
    window : (float, float), optional
        m, stations shown.

    Returns
    -------
    Axes
        Station in mm. Where the quantity depends on the steel and a traffic hardens it, the thick line is the new steel
        and the thin ones are the beginnings of later stages.
    """
    listed = [sources] if isinstance(sources, (DamageFile, str, Path)) or not hasattr(sources, "__iter__") else sources
    files = [_damage(one) for one in listed]
    if quantity not in _COURSES:
        raise InputError(f'"{quantity}" has no course along a body; these have: {", ".join(_COURSES)}')
    label = _COURSES[quantity]
    name = label.rpartition(" [")[0]
    ax = sheet(ax, "station of the patch [mm]", label, f"{name[0].upper()}{name[1:]} along the {body}")
    same = quantity in ("peak_pressure_MPa", "normal_force_kN", "t_gamma_N", "friction_power_kW", "crack_damage_1e_6")
    for number, found in enumerate(files):
        place, values = found.contacts(body, "x_mm", quantity)
        inside = np.full(place.shape, True)
        if window is not None:
            inside = (place >= 1e3 * window[0]) & (place <= 1e3 * window[1])
        x, values = _gaps(place[inside], values[inside])
        shade = crossing_colour(number) if len(files) > 1 else colour(body)
        stages = np.empty((0, 0)) if same else found.in_stages(body, quantity)
        changing = stages.shape[0] > 1 and bool(np.any(stages[0] != stages[-1]))
        new = found.steel + (", new" if changing else "")
        ax.plot(x, values, color=shade, linewidth=1.8, linestyle="-" if changing else crossing_dashes(number), label=new)
        if changing:
            for later in stages[1:-1]:
                ax.plot(*_gaps(place[inside], later[inside]), color=shade, linewidth=0.6, alpha=0.45)
            last = found.stages["wheels"][-2]
            ax.plot(*_gaps(place[inside], stages[-1][inside]), color=shade, linewidth=1.3, linestyle=(0, (4, 1.5)),
                    label=f"{found.steel}, after {last:,.0f} wheels")  # fmt: skip
    highest = ax.get_ylim()[1]
    for value, words, dashes in _LIMITS.get(quantity, []):
        if value <= highest:  # one far above would press the course flat
            ax.axhline(value, color=colour("limit"), linewidth=0.9, linestyle=dashes, label=words)
    if window is not None:
        ax.set_xlim(1e3 * window[0], 1e3 * window[1])
    if quantity != "surface_fatigue_index" and quantity != "crack_damage_1e_6":
        ax.set_ylim(bottom=0.0)
    legend(ax)
    return ax


def _damage(source: Source) -> DamageFile:
    return source if isinstance(source, DamageFile) else read_damage(Path(source))


def _least_edge(found: DamageFile) -> float:
    edges = [found.edge(body)[1] for body in found.bodies]
    return min((float(y.min()) for y in edges if y.size), default=np.inf)


def _top(values: NDArray[np.float64]) -> tuple[float, bool]:
    # Where a scale ends, and whether some values lie above: a speck far above all others would leave the rest pale.
    if values.size == 0:
        return 0.0, False
    most, high = float(values.max()), float(np.quantile(values, 0.998))
    return (high, True) if high < 0.7 * most else (most, False)


def _words(found: DamageFile, part: str) -> str:
    if part == "passage":
        return f"one wheel, {found.steel}"
    tonnage = found.data.number("traffic/measures/tonnage_MGT")
    return f"{tonnage:.3g} MGT, {found.steel}"


def _gaps(x: NDArray[np.float64], values: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    # Where the body was left for a while the line has a gap.
    if x.size < 3:
        return x, values
    steps = np.abs(np.diff(x))
    breaks = np.flatnonzero(steps > max(5.0 * float(np.median(steps)), 1.0)) + 1
    return np.insert(x, breaks, np.nan), np.insert(values, breaks, np.nan)
