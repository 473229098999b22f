"""Sheets of a comparison of crossings under a population of wheels; one colour per crossing on all of them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
import xarray as xr
from matplotlib.axes import Axes
from numpy.typing import NDArray

from .. import InputError
from .._house import INK, PAPER, best_place, crossing_line, legend, mark, sheet, upright
from .._reading import Source, cumulative as steps, has, label, number, read, taken, texts, title, variable

_THICKNESS = "nose_thickness_at_transfer_mm"


def paths(source: Source, ax: Axes | None = None, *, wheel: int = 0) -> Axes:
    """Paths of one typical wheel over every crossing, laid over each other.

    `wheel`: which of the stored wheels, from 0 on.
    """
    found = taken(source, "comparison")
    reasons = texts(found, "paths/reason")
    words = "Path of the rigid wheel"
    if wheel < len(reasons):
        words += f": {texts(found, 'wheels/name')[int(read(found, 'paths/wheel')[wheel])]}, {reasons[wheel]}"
    ax = sheet(ax, "station of the axle [m]", "height of the wheel [mm]", words, found)
    seen = [np.empty(0)]
    for number_of, name, line in _crossings(found):
        if not has(found, f"paths/crossing_{number_of}/{wheel}"):
            continue
        station, height = (read(found, f"paths/crossing_{number_of}/{wheel}/{key}_mm") for key in ("station", "height"))
        station = station * 1e-3
        ax.plot(station, height, **line, linewidth=1.6, label=name)
        seen.append(height[(station > -0.3) & (station < 1.2) & np.isfinite(height)])
    near = np.concatenate(seen)
    if near.size:
        lowest, highest = float(near.min()), float(near.max())
        margin = max(0.12 * (highest - lowest), 0.05)
        ax.set_xlim(-0.3, 1.2)
        ax.set_ylim(lowest - margin, highest + margin)
    return legend(ax)


def envelopes(source: Source, ax: Axes | None = None) -> Axes:
    """Total force against station: median of the wheels as a line, 5 to 95 % as a band, per crossing."""
    found = taken(source, "comparison")
    ax = sheet(ax, "station of the axle [m]", "total contact force [kN]",
               "Force over the wheels: median, and band from 5 to 95 %", found)  # fmt: skip
    station = read(found, "envelope/station_mm") * 1e-3
    low, middle, high = (read(found, f"envelope/{key}_kN") for key in ("q05", "q50", "q95"))
    for i, name, line in _crossings(found):
        ax.fill_between(station, low[i], high[i], color=line["color"], alpha=0.1, linewidth=0)
        ax.plot(station, high[i], color=line["color"], linewidth=0.8, alpha=0.7)
        ax.plot(station, middle[i], **line, linewidth=1.6, label=name)
    ax.set_ylim(bottom=0.0)
    return legend(ax)


def nose_load(source: Source, ax: Axes | None = None) -> Axes:
    """Load carried at each nose thickness: mean over the wheels as a line, 95 % of their largest as a thin one."""
    found = taken(source, "comparison")
    ax = sheet(ax, "nose thickness under the axle [mm]", "force on the nose [kN]",
               "Load at each nose thickness: mean over the wheels, thin line: 95 % of the largest", found)  # fmt: skip
    middle = 0.5 * (read(found, "nose_load/thickness_from_mm") + read(found, "nose_load/thickness_to_mm"))
    for i, name, line in _crossings(found):
        ax.plot(middle, read(found, "nose_load/mean_kN")[i], **line, linewidth=1.8, label=name)
        ax.plot(middle, read(found, "nose_load/q95_kN")[i], **line, linewidth=0.8)
    ax.set_ylim(bottom=0.0)
    return legend(ax)


def transfers(source: Source, ax: Axes | None = None, *, bins: int = 30) -> Axes:
    """Where over the nose the wheels transfer: share of wheels by the nose's thickness there.

    `bins`: number of bins over all crossings.
    """
    found = taken(source, "comparison")
    ax = sheet(ax, label(variable(found, f"passages/{_THICKNESS}")), "share of wheels [%]",
               "Where the wheels transfer over the nose", found)  # fmt: skip
    known = [_known(found, _THICKNESS, i) for i, _, _ in _crossings(found)]
    every = np.concatenate([values for values, _ in known])
    if every.size:
        low, high = float(every.min()), float(every.max())
        edges = np.linspace(low, max(high, low + 1.0), bins + 1)
        for (_, name, line), (values, weights) in zip(_crossings(found), known, strict=True):
            share = 100.0 * np.histogram(values, edges, weights=weights)[0] / max(float(weights.sum()), 1e-300)
            ax.stairs(share, edges, fill=True, color=line["color"], alpha=0.18)
            ax.stairs(share, edges, **line, linewidth=1.5, label=name)
        thin = number(found, "about/thin_nose_mm")
        upright(ax, thin, f" thinner than {thin:.0f} mm ")
    return legend(ax)


def cumulative(source: Source, quantity: str = "p2_kN", ax: Axes | None = None) -> Axes:
    """Share of the wheels compared at or below each value of a quantity, per crossing.

    Where a few wheels lie far out, the axis ends before them and says how far they reach.

    `quantity`: key of a quantity, such as "p2_kN".
    """
    found = taken(source, "comparison")
    if quantity not in texts(found, "quantity"):
        raise InputError(f'"{quantity}" is not compared here; allowed: {", ".join(texts(found, "quantity"))}.')
    told = variable(found, f"passages/{quantity}")
    ax = sheet(ax, label(told), "share of wheels at or below [%]",
               f"{title(told.long_name)}, cumulative over the wheels", found)  # fmt: skip
    curves = []
    for i, name, line in _crossings(found):
        curves.append(steps(*_known(found, quantity, i)))
        ax.step(*curves[-1], where="post", **line, linewidth=1.6, label=name)
    marks = mark(ax, quantity, along=True)
    ax.set_ylim(0.0, 100.0)
    _leave_out_far_ones(ax, [curve for curve in curves if curve[0].size], marks)
    return legend(ax)


def _leave_out_far_ones(ax: Axes, curves: list[tuple[NDArray[np.float64], ...]], marks: list[float]) -> None:
    most = max((float(value[np.searchsorted(share, 90.0)]) for value, share in curves), default=0.0)
    greatest = max((float(value[-1]) for value, _ in curves), default=0.0)
    if greatest <= 2.0 * most or most <= 0.0:
        return
    left, right = min([*marks, *(float(value[0]) for value, _ in curves)]), 1.3 * most
    ax.set_xlim(left - 0.05 * (right - left), right)
    told = f"{greatest:.0f}" if greatest >= 100.0 else f"{greatest:.3g}"
    wordings = (f"a few wheels beyond, up to {told} ", f"a few wheels \nbeyond, up to {told} ")
    words, _, y = best_place(ax, wordings, [("right", 1.0)], (0.03, 0.15, 0.3, 0.45, 0.6, 0.75), 8.0)
    ax.annotate(words, (1.0, y), xycoords="axes fraction", ha="right", va="bottom", multialignment="right",
                color=INK, fontsize=8)  # fmt: skip


def differences(source: Source, ax: Axes | None = None, *, crossing: int | None = None) -> Axes:
    """Crossings less the reference, criterion by criterion, with bootstrap intervals, in % of the reference.

    `crossing`: number of one crossing, from 1 on, all but the reference when left out. Drawn: difference in % of the
    reference's value; full circle: the interval leaves out 0. Shares are in percentage points, and say so; criteria
    whose reference is 0 are left out. An arrow ends intervals that reach beyond the axis.
    """
    found = taken(source, "comparison")
    shown = [one for one in _crossings(found) if one[0] > 0 and crossing in (None, one[0])]
    keys, units = texts(found, "ranking/key"), texts(found, "ranking/value_unit")
    scales = {
        key: (of, 1.0 if of == "%" else 100.0 / abs(value))
        for key, of, value in zip(keys, units, read(found, "ranking/value")[:, 0], strict=True)
        if of == "%" or (np.isfinite(value) and value != 0.0)
    }
    percent = f"{100.0 * number(found, 'about/confidence'):.0f} %"
    ax = sheet(ax, "difference to the reference [%]", "", f"Differences to {texts(found, 'crossing')[0]}, with {percent} "
               "intervals (hollow circle: it holds 0)", found)  # fmt: skip
    # Value, begin and end of the interval, in % of the reference, and the name of each criterion.
    names: dict[str, str] = {}
    drawn: list[dict[str, NDArray[np.float64]]] = []
    for number_of, _, _ in shown:
        path = f"differences/crossing_{number_of}"
        three = np.array([read(found, f"{path}/{name}") for name in ("value", "low", "high")]).T
        at = {key: place for place, key in enumerate(texts(found, f"{path}/key"))}
        rows_of = {key: three[at[key]] * scale for key, (_, scale) in scales.items()}
        drawn.append({key: row for key, row in rows_of.items() if np.isfinite(row[0])})
        names |= {key: texts(found, f"{path}/label")[at[key]] for key in scales}
    # A single wide interval must not press all others flat.
    reach = 2.5 * max((abs(row[0]) for one in drawn for row in one.values()), default=0.0) or np.inf
    for lane, ((_, name, line), several) in enumerate(zip(shown, drawn, strict=True)):
        shift = 0.5 * (lane - 0.5 * (len(shown) - 1)) / max(len(shown), 1)
        shade = line["color"]
        ax.plot([], [], color=shade, marker="o", label=name)
        for place, key in enumerate(scales):
            if key not in several:
                continue
            value, low, high = several[key]
            ax.plot(np.clip([low, high], -reach, reach), [place + shift] * 2, color=shade, linewidth=2.0)
            for end, sign in ((low, -1.0), (high, 1.0)):
                if sign * end > reach:
                    ax.plot(sign * reach, place + shift, marker=">" if sign > 0.0 else "<", markersize=7, color=shade)
            ax.plot(value, place + shift, marker="o", markersize=6, color=shade,
                    markerfacecolor=shade if low > 0.0 or high < 0.0 else PAPER)  # fmt: skip
    ax.axvline(0.0, color=INK, linewidth=0.9)
    words = [names.get(key, key) + ("\n[percentage points]" if of == "%" else "") for key, (of, _) in scales.items()]
    ax.set_yticks(range(len(scales)), words)
    ax.set_ylim(len(scales) - 0.5, -0.5)
    return legend(ax)


def _crossings(found: xr.DataTree) -> Iterator[tuple[int, str, dict[str, Any]]]:
    """Number, name and line of every crossing."""
    for i, name in enumerate(texts(found, "crossing")):
        yield i, name, crossing_line(i)


def _known(found: xr.DataTree, quantity: str, crossing: int) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """A quantity of the wheels compared that have it, and their weights."""
    values = read(found, f"passages/{quantity}")[crossing]
    known = np.isfinite(values) & (read(found, "wheels/compared") > 0.5)
    return values[known], read(found, "wheels/share")[known]
