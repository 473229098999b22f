"""Sheets of a speed study: force against speed with the closed forms beside it, dynamic factor, lost contact."""

from __future__ import annotations

import numpy as np
import xarray as xr
from matplotlib.axes import Axes
from numpy.typing import NDArray

from .._house import CLEAR, INK, MARGIN_SHADE, best_place, colour, freest, legend_above, mark, sheet, size_of
from .._reading import Source, has, limits_of, number, over_speeds, read, rows, taken, texts, title, unit

# Words at upright lines; a page of several small figures says them once.
SPEED_MARK = "wingnose-speed-mark"
_DASHES = ((0, (5, 2)), (0, (1, 1.4)), (0, (6, 2, 1, 2)), (0, (3, 3)))


def force_against_speed(source: Source, ax: Axes | None = None) -> Axes:
    """P2 of the simulated passages against speed, with the closed forms, the limits on P2, and the speeds asked for."""
    study = taken(source, "speeds")
    ax = sheet(ax, "speed [km/h]", "P2 [kN]", "P2 against speed", study)
    speed, p2 = _speed(study), over_speeds(study, "p2_kN").values
    closed = zip(_DASHES * 4, texts(study, "lumped_track"), read(study, "closed_form/p2_kN").T, strict=False)
    for dashes, track, values in closed:
        ax.plot(speed, values, color=colour("closed form"), linewidth=1.3, linestyle=dashes,
                label=f"closed form, {track}")  # fmt: skip
    ax.plot(speed, p2, color=colour("low-passed"), linewidth=1.8, marker="o", markersize=_dot(speed, 3.2),
            label="simulated")  # fmt: skip
    _limits(ax, study, "p2_kN")
    _speeds_asked_for(ax, study, p2)
    static = over_speeds(study, "static_load_kN").values
    if np.any(np.isfinite(static)):
        ax.axhline(float(np.nanmax(static)), color=INK, linewidth=0.8, linestyle=(0, (1, 3)), label="static load")
    _finish(ax, study)
    return ax


def dynamic_factor_against_speed(source: Source, ax: Axes | None = None) -> Axes:
    """Largest total force and P2, each over the static load, against speed."""
    ax = against_speed(source, ["dynamic_factor", "p2_dynamic_factor"], ax)
    ax.set_ylabel("force over static load [-]", color=INK)
    ax.set_title("Dynamic factor", color=INK, loc="left", fontsize=11)
    return ax


def lost_contact_against_speed(source: Source, ax: Axes | None = None) -> Axes:
    """Time without any contact during the passage, against speed."""
    study = taken(source, "speeds")
    ax = against_speed(study, ["lost_contact_ms"], ax)
    ax.set_ylim(bottom=0.0)
    speed, flying = _speed(study), over_speeds(study, "lost_contact_ms").values > 0.0
    if not np.any(flying):
        ax.set_ylim(0.0, 1.0)
    switches = np.flatnonzero(flying[1:] != flying[:-1])  # a line from nothing would say that it begins where scanned
    drawn, values = ax.lines[0], over_speeds(study, "lost_contact_ms").values
    drawn.set_data(np.insert(speed, switches + 1, np.nan), np.insert(values, switches + 1, np.nan))
    for place, i in enumerate(switches):
        ax.axvspan(speed[i], speed[i + 1], color=INK, alpha=0.12, linewidth=0,
                   label="" if place else "begins or ends between")  # fmt: skip
    if switches.size:
        legend_above(ax)
    ax.set_title("Time without any contact", color=INK, loc="left", fontsize=11)
    return ax


def against_speed(source: Source, keys: list[str], ax: Axes | None = None) -> Axes:
    """Any measures of one unit against speed, with the limits on them.

    Where others lie upon the first one, it is drawn broad and they are dashed, so that all are seen.

    `keys`: measures, such as ``["peak_nose_kN", "peak_wing_kN"]``.
    """
    study = taken(source, "speeds")
    told = [over_speeds(study, key) for key in keys]
    of, first = told[0].attrs["units"], told[0].values
    kind = told[0].long_name if len(keys) == 1 else "force" if of == "kN" else "value"
    words = kind if len(keys) == 1 else f"{kind} against speed"
    ax = sheet(ax, "speed [km/h]", f"{kind} [{unit(of) or '-'}]", title(words), study)
    speed = _speed(study)
    hidden = any(_coincide(first, other.values) for other in told[1:])
    for place, (key, one) in enumerate(zip(keys, told, strict=True)):
        broad = hidden and place == 0
        ax.plot(speed, one.values, color=_line_colour(key), linewidth=4.0 if broad else 1.6,
                alpha=0.45 if broad else 1.0, marker="o",
                linestyle=_DASHES[(place - 1) % len(_DASHES)] if hidden and place else "-",
                markersize=_dot(speed, 5.0 if broad else 2.8), label=one.long_name)  # fmt: skip
        _limits(ax, study, key)
        mark(ax, key, along=False)
    _speeds_asked_for(ax, study, first)
    _finish(ax, study, named=len(keys) > 1)
    return ax


def _speed(study: xr.DataTree) -> NDArray[np.float64]:
    return over_speeds(study, "p2_kN")["speed_km_h"].values


def _coincide(one: NDArray[np.float64], other: NDArray[np.float64]) -> bool:
    """Whether two curves lie on each other, to a hundredth of their range, over a third of the speeds or more."""
    both = np.isfinite(one) & np.isfinite(other)
    if not np.any(both):
        return False
    span = np.ptp(np.concatenate([one[both], other[both]]))
    return bool(np.mean(np.abs(one[both] - other[both]) <= 0.01 * span) > 1.0 / 3.0)


def _dot(speed: NDArray[np.float64], size: float) -> float:
    return size if speed.size <= 60 else 0.0


def _line_colour(key: str) -> str:
    for part, name in (("p2", "low-passed"), ("nose", "nose"), ("wing", "wing")):
        if part in key:
            return colour(name)
    return INK


def _limits(ax: Axes, study: xr.DataTree, key: str) -> None:
    for limit in limits_of(study):
        if limit.key != key:
            continue
        ax.axhline(limit.value, color=colour("limit"), linewidth=1.3)
        # On the side the limit leaves free, unless that side lies outside of what is drawn; at the end that is free.
        least = float(np.nanmin(over_speeds(study, key).values, initial=np.inf))
        below = limit.kind == "at most" and least < limit.value
        width, height = size_of(ax, limit.bound, 9.0)
        level = ax.transAxes.inverted().transform(ax.transData.transform((0.0, limit.value)))[1]
        y = level - 0.03 - height if below else level + 0.03
        right = freest(ax, [(0.005, y, width, height), (0.995 - width, y, width, height)]) == 1
        ax.annotate(limit.bound, (0.995 if right else 0.005, limit.value), (0.0, -2.0 if below else 2.0),
                    xycoords=("axes fraction", "data"), textcoords="offset points", ha="right" if right else "left",
                    va="top" if below else "bottom", color=colour("limit"), fontsize=9)  # fmt: skip


def _speeds_asked_for(ax: Axes, study: xr.DataTree, values: NDArray[np.float64]) -> None:
    speed = _speed(study)
    for name, place in (("today", "right"), ("proposed", "left")):
        at = number(study, f"change/{name}_km_h")
        if np.isnan(at):
            continue
        nearest = int(np.nanargmin(np.abs(speed - at)))
        ax.axvline(at, color=colour("wheel"), linewidth=0.9, linestyle=(0, (6, 3)))
        if np.isfinite(values[nearest]):
            ax.plot(at, values[nearest], marker="o", markersize=7, markerfacecolor="none", color=INK)
        ax.annotate(f" {name} {at:.0f} ", (at, 0.015), xycoords=("data", "axes fraction"), ha=place, va="bottom",
                    color=colour("wheel"), fontsize=9, gid=SPEED_MARK, bbox=CLEAR)  # fmt: skip
    for failed, _ in rows(study, "failures", "speed_km_h", "reason") if has(study, "failures/reason") else ():
        ax.axvspan(failed - 0.5, failed + 0.5, color=MARGIN_SHADE, linewidth=0)


def _finish(ax: Axes, study: xr.DataTree, *, named: bool = True) -> None:
    permissible = number(study, "permissible/speed_km_h")
    if np.isfinite(permissible):
        ax.axvline(permissible, color=colour("limit"), linewidth=1.0, linestyle=(0, (2, 2)))
        # Cut, not rounded: a permissible speed must not grow in print.
        told = np.floor(permissible * 10.0 + 1e-9) / 10.0
        at = float(ax.transAxes.inverted().transform(ax.transData.transform((permissible, 0.0)))[0])
        wordings = (f"all limits kept up to {told:.1f}", f"all limits kept \n up to {told:.1f}")
        sides = (("left", at + 0.004), ("right", at - 0.004))
        words, side, y = best_place(ax, wordings, sides, (0.09, 0.2, 0.35, 0.5, 0.65, 0.8, 0.9), 9.0)
        ax.annotate(f" {words} ", (permissible, y), xycoords=("data", "axes fraction"), ha=side, va="bottom",
                    multialignment=side, color=colour("limit"), fontsize=9, gid=SPEED_MARK, bbox=CLEAR)  # fmt: skip
    if named:  # a single line is named by its axis
        legend_above(ax)
