"""Sheets of damage: maps of the running surface, the landing in a shakedown diagram, courses along a body, and which
wheels of a mixed traffic do how much to the steel.
"""

from __future__ import annotations

import os
from collections.abc import Sequence

import numpy as np
import xarray as xr
from matplotlib.axes import Axes
from matplotlib.colors import LinearSegmentedColormap, LogNorm, Normalize
from numpy.typing import NDArray

from .. import InputError, quantities
from .._core.assess import CrackFunction
from .._house import INK, colour, colour_bar, crossing_line, legend, mark, sheet
from .._reading import (
    Source, bodies_of, contacts_of, cumulative, has, label, maps_of, node, number, read, taken, texts, title, unit,
    variable,
)  # fmt: skip

_SUMS = ("friction_energy_J_mm2", "wear_depth_um")  # over a traffic their mean over the wheels is drawn: a rate
_FINE = {"um": ("nm", 1e3)}  # a rate per wheel is read in a finer unit
_SPAN = 1e3  # largest over least value on the scale of sums
_CRACKS = CrackFunction()
# Limits the table of quantities does not tell.
_LIMITS: dict[str, list[tuple[float, str, str | tuple[float, tuple[float, ...]]]]] = {
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

    `quantity`: a map of the answer, such as "peak_pressure_MPa" or "wear_depth_um"; `part`: "passage" or "traffic", the
    traffic where there is one when left out; `window`: m, stations shown, where anything lies when left out. Drawn:
    station and distance from the track centre line, both in mm and not to one scale. Friction energy and wear are those
    of a mean wheel, on a logarithmic scale over three decades. Blank: nothing lies there. An arrow on the scale: places
    lie beyond it.
    """
    found = taken(source, "damage")
    part = part if part is not None else "traffic" if has(found, "traffic") else "passage"
    maps = maps_of(found, quantity, part)
    words, bar_words, scale, norm, ends = _scale(found, quantity, part, maps)
    ax = sheet(ax, "station [mm]", "from the track centre line [mm]", f"{words}: {_words(found, part)}", found)
    low_x, high_x, low_y, high_y = np.inf, -np.inf, np.inf, -np.inf
    drawn = None
    for one in maps.values():
        held = one.values > 0.0
        if not held.any():
            continue
        x, y = read(one, "x_mm"), read(one, "y_mm")
        values = np.where(held, one.values * scale, np.nan).T
        drawn = ax.pcolormesh(x, y, values, cmap=_SHADES, norm=norm, shading="nearest", rasterized=True)
        along_x, across = x[held.any(axis=1)], y[held.any(axis=0)]
        low_x, high_x = min(low_x, along_x[0]), max(high_x, along_x[-1])
        low_y, high_y = min(low_y, across[0]), max(high_y, across[-1])
    if drawn is None:
        ax.text(0.02, 0.93, "none anywhere", transform=ax.transAxes, color=INK)
    else:
        colour_bar(ax, drawn, bar_words, ends)
    least = np.inf
    for body in maps:
        if not has(found, f"edges/{body}"):  # not a crossing
            continue
        x, y = (read(found, f"edges/{body}/{key}") for key in ("x_mm", "y_mm"))
        ax.plot(x, y, color=colour(body), linewidth=1.4, label=f"running edge of the {body}")
        least = min(least, float(y.min()))
        if drawn is None:
            low_x, high_x = min(low_x, x[0]), max(high_x, x[-1])
            low_y, high_y = min(low_y, y.min()), max(high_y, y.max())
    if window is not None:
        low_x, high_x = 1e3 * window[0], 1e3 * window[1]
    if high_x > low_x and high_y >= low_y:
        ax.set_xlim(low_x - 20.0, high_x + 20.0)
        ax.set_ylim(min(low_y, least) - 0.16 * (high_y - low_y + 40.0), high_y + 12.0)
    # Below the nose, where nothing lies.
    if ax.get_legend_handles_labels()[0]:
        legend(ax, loc="lower right", ncols=2)
    return ax


def _scale(
    found: xr.DataTree, quantity: str, part: str, maps: dict[str, xr.DataArray]
) -> tuple[str, str, float, Normalize, str]:
    """How a map is drawn: title, label of the scale, factor to its unit, the scale, which of its ends are arrows."""
    told = next(iter(maps.values()))
    units = str(told.attrs["units"])
    of, factor = _FINE.get(units, (units, 1.0))
    if quantity in _SUMS and part == "traffic":
        factor /= number(found, "traffic/wheels")
    positive = np.concatenate([one.values[one.values > 0.0] for one in maps.values()]) * factor
    most, beyond = float(positive.max(initial=0.0)), False
    # A speck of pressure far above all others would leave the rest pale: the scale ends below it.
    if quantity == "peak_pressure_MPa" and positive.size and (high := float(np.quantile(positive, 0.998))) < 0.7 * most:
        most, beyond = high, True
    if quantity in _SUMS:
        # Sliding is strong in one place and weak over metres: only a logarithmic scale shows both.
        norm = LogNorm(most / _SPAN, most) if most > 0.0 else Normalize(0.0, most)
        words = f"{title(told.long_name)} per wheel ({told.description})"
        return words, f"{told.long_name} per wheel [{unit(of)}]", factor, norm, "min"
    if units == "-":
        fewer, of = (1e-3, "thousand") if most > 1e4 else (1.0, "-")
        return title(told.description), f"wheels [{of}]", factor * fewer, Normalize(0.0, most * fewer), "neither"
    return title(told.description), label(told), factor, Normalize(0.0, most), "max" if beyond else "neither"


def shakedown(source: Source, ax: Axes | None = None, *, body: str | None = None) -> Axes:
    """Path of the case's own wheel through the shakedown diagram of the new steel, coloured by station.

    `body`: contacts on "wing" or "nose" only, both when left out, the wing as squares. Drawn: traction coefficient and
    load factor, both without unit. Above the limit of elastic shakedown every wheel leaves plastic strain.
    """
    found = taken(source, "damage")
    k = number(found, "steel/shear_yield_MPa")
    ax = sheet(ax, "traction coefficient: creep over normal force [-]",
               "load factor p0/k: pressure over shear yield [-]",
               f"Shakedown diagram: {_words(found, 'passage')}, k {k:.0f} MPa", found)  # fmt: skip
    traction, elastic, first = (read(found, f"limits/{key}")
                                  for key in ("traction_coefficient", "elastic_shakedown", "first_yield"))  # fmt: skip
    ax.plot(traction, elastic, color=colour("limit"), linewidth=1.8, label="elastic shakedown")
    ax.plot(traction, first, color=INK, linewidth=1.0, linestyle=(0, (5, 2)), label="first yield")
    flow = traction[traction > 0.0]
    ax.plot(flow, 1.0 / flow, color=colour("low-passed"), linewidth=1.0, linestyle=(0, (1, 1.5)),
            label="surface flow, fatigue index 0")  # fmt: skip
    bodies = [one for one in bodies_of(found) if body in (None, one)]
    columns = {one: contacts_of(found, one, "traction_coefficient", "load_factor", "x_mm") for one in bodies}
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
        colour_bar(ax, drawn, "station of the patch [mm]")
    ax.set_xlim(0.0, right)
    ax.set_ylim(0.0, 1.08 * top)
    return legend(ax)


def along(
    sources: Source | Sequence[Source],
    quantity: str = "surface_fatigue_index",
    ax: Axes | None = None,
    *,
    body: str = "nose",
    window: tuple[float, float] | None = None,
) -> Axes:
    """Course of a quantity along one body under the case's own wheel, for one steel or several.

    `sources`: damages, told apart by their steel; `quantity`: a column of the contacts, such as "peak_pressure_MPa",
    "surface_fatigue_index" or "t_gamma_N"; `body`: "nose" or "wing"; `window`: m, stations shown. Drawn: station in mm.
    Where the quantity depends on the steel and a traffic hardens it, the thick line is the new steel and the thin ones
    are the beginnings of later stages.
    """
    listed = [sources] if isinstance(sources, (xr.DataTree, str, os.PathLike)) else sources
    answers = [taken(one, "damage") for one in listed]
    known = [str(name) for name, column in answers[0]["contacts"].data_vars.items() if column.dtype.kind == "f"]
    if quantity not in known:
        raise InputError(f'"{quantity}" has no course along a body; these have: {", ".join(known)}')
    told = variable(answers[0], f"contacts/{quantity}")
    ax = sheet(ax, "station of the patch [mm]", label(told), f"{title(told.long_name)} along the {body}", *answers)
    for count, found in enumerate(answers):
        place, values = contacts_of(found, body, "x_mm", quantity)
        first, last = window or (-np.inf, np.inf)
        inside = (place >= 1e3 * first) & (place <= 1e3 * last)
        line = {**crossing_line(count), **({"color": colour(body)} if len(answers) == 1 else {})}
        stages = np.empty((0, 0))
        if has(found, f"traffic/contacts/{quantity}"):
            stages = read(found, f"traffic/contacts/{quantity}")[:, read(found, "contacts/body") == body]
        changing = stages.shape[0] > 1 and bool(np.any(stages[0] != stages[-1]))
        steel = texts(found, "steel/name")[0]
        line |= {"linestyle": "-", "label": f"{steel}, new"} if changing else {"label": steel}
        ax.plot(*_gaps(place[inside], values[inside]), **line, linewidth=1.8)
        if changing:
            for later in stages[1:-1]:
                ax.plot(*_gaps(place[inside], later[inside]), color=line["color"], linewidth=0.6, alpha=0.45)
            rolled = float(read(found, "traffic/stages/wheels")[-2])
            ax.plot(*_gaps(place[inside], stages[-1][inside]), color=line["color"], linewidth=1.3,
                    linestyle=(0, (4, 1.5)), label=f"{steel}, after {rolled:,.0f} wheels")  # fmt: skip
    highest = ax.get_ylim()[1]
    limits = list(_LIMITS.get(quantity, []))
    kind = quantities.get(quantity)
    if kind is not None and kind.mark is not None:
        limits.append((kind.mark, f"above: {kind.beyond}", "-"))
    for value, words, dashes in limits:
        if value <= highest:  # one far above would press the course flat
            ax.axhline(value, color=colour("limit"), linewidth=0.9, linestyle=dashes, label=words)
    if window is not None:
        ax.set_xlim(1e3 * window[0], 1e3 * window[1])
    if ax.dataLim.y0 >= 0.0:
        ax.set_ylim(bottom=0.0)
    return legend(ax)


def traffic_shares(source: Source, quantity: str = "shakedown_exceedance", ax: Axes | None = None) -> Axes:
    """Share of the wheels of a mixed traffic at or below each value of what one of them does, class by class.

    `quantity`: such as "peak_pressure_MPa", "shakedown_exceedance" or "friction_energy_J": the largest value, or the
    sum of the energy, of one wheel over new steel.
    """
    found = taken(source, "damage")
    if not has(found, "traffic/classes"):
        name = found.attrs["name"]
        raise InputError(f'the damage of "{name}" has no wheels of a mixed traffic; give one with --traffic FILE')
    population = node(found, "traffic/population")
    known = [str(key) for key in population.data_vars if key in quantities and quantities[str(key)].of_steel]
    if quantity not in known:
        raise InputError(f'"{quantity}" is not told wheel by wheel; these are: {", ".join(known)}')
    names, values, wheels = (read(population, key) for key in ("class", quantity, "wheels"))
    rolled = np.isfinite(values) & (wheels > 0.0)
    told = variable(population, quantity)
    ax = sheet(ax, label(told).replace(" [", " of one wheel ["), "share of wheels at or below [%]",
               f"{title(told.long_name)} over the wheels: {_words(found, 'traffic')}", found)  # fmt: skip
    mark(ax, quantity, along=True)
    ax.step(*cumulative(values[rolled], wheels[rolled]), where="post", color=INK, linewidth=3.4, alpha=0.3,
            label="all wheels")  # fmt: skip
    for count, one in enumerate(dict.fromkeys(names.tolist()), start=1):
        of = rolled & (names == one)
        if np.any(of):
            ax.step(*cumulative(values[of], wheels[of]), where="post", **crossing_line(count), linewidth=1.6, label=one)
    low, high = ax.get_xlim()
    ax.set_xlim(low - 0.04 * (high - low), high)  # room for the words at a limit
    ax.set_ylim(0.0, 101.0)
    return legend(ax)


def _words(found: xr.DataTree, part: str) -> str:
    steel = texts(found, "steel/name")[0]
    return f"one wheel, {steel}" if part == "passage" else f"{number(found, 'traffic/tonnage_MGT'):.3g} MGT, {steel}"


def _gaps(x: NDArray[np.float64], values: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    # Where the body was left for a while the line has a gap.
    if x.size < 3:
        return x, values
    steps = np.abs(np.diff(x))
    breaks = np.flatnonzero(steps > max(5.0 * float(np.median(steps)), 1.0)) + 1
    return np.insert(x, breaks, np.nan), np.insert(values, breaks, np.nan)
