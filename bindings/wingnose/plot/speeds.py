"""Sheets of a speed study: force against speed with the closed forms beside it, dynamic factor, lost contact."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from .._house import INK, PAPER, MARGIN_SHADE, STEEL_MARKS, colour, legend_above, sheet
from ..stored import SpeedsFile, label_of, read_speeds
from ._places import freest, size_of

if TYPE_CHECKING:
    from os import PathLike

    from matplotlib.axes import Axes
    from numpy.typing import NDArray

__all__ = ["against_speed", "dynamic_factor_against_speed", "force_against_speed", "lost_contact_against_speed"]

# Words at upright lines; a page of several small figures says them once.
SPEED_MARK = "wingnose-speed-mark"
_CLEAR = {"facecolor": PAPER, "edgecolor": "none", "alpha": 0.8, "pad": 0.8}
_DASHES = ((0, (5, 2)), (0, (1, 1.4)), (0, (6, 2, 1, 2)), (0, (3, 3)))


def force_against_speed(source: SpeedsFile | str | PathLike[str], ax: Axes | None = None) -> Axes:
    """P2 of the simulated passages against speed, with the closed forms, the limits on P2, and the speeds asked for.

    Parameters
    ----------
    source : SpeedsFile or path
        A speed study, read or as a file.
    ax : Axes, optional
        Where to draw; a new figure when left out.

    Returns
    -------
    Axes
        Speed in km/h, force in kN.
    """
    study = _study(source)
    ax = sheet(ax, "speed [km/h]", "P2 [kN]", "P2 against speed")
    speed = study.column("speed_km_h")
    p2 = study.column("p2_kN")
    for dashes, (track, values) in zip(_DASHES * 4, study.closed_forms.items(), strict=False):
        ax.plot(speed, values, color=colour("closed form"), linewidth=1.3, linestyle=dashes,
                label=f"closed form, {track}")  # fmt: skip
    ax.plot(speed, p2, color=colour("low-passed"), linewidth=1.8, marker="o", markersize=_dot(speed, 3.2),
            label="simulated")  # fmt: skip
    _limits(ax, study, "p2_kN")
    _speeds_asked_for(ax, study, p2)
    static = study.column("static_load_kN")
    if np.any(np.isfinite(static)):
        ax.axhline(float(np.nanmax(static)), color=INK, linewidth=0.8, linestyle=(0, (1, 3)), label="static load")
    _finish(ax, study)
    return ax


def dynamic_factor_against_speed(source: SpeedsFile | str | PathLike[str], ax: Axes | None = None) -> Axes:
    """Largest total force and P2, each over the static load, against speed.

    Parameters
    ----------
    source : SpeedsFile or path
        A speed study, read or as a file.
    ax : Axes, optional
        Where to draw; a new figure when left out.

    Returns
    -------
    Axes
        Speed in km/h, factor without unit.
    """
    study = _study(source)
    ax = against_speed(study, ["dynamic_factor", "p2_dynamic_factor"], ax)
    ax.set_ylabel("force over static load [-]", color=INK)
    ax.set_title("Dynamic factor", color=INK, loc="left", fontsize=11)
    return ax


def lost_contact_against_speed(source: SpeedsFile | str | PathLike[str], ax: Axes | None = None) -> Axes:
    """Time without any contact during the passage, against speed.

    Parameters
    ----------
    source : SpeedsFile or path
        A speed study, read or as a file.
    ax : Axes, optional
        Where to draw; a new figure when left out.

    Returns
    -------
    Axes
        Speed in km/h, time in ms.
    """
    study = _study(source)
    ax = against_speed(study, ["lost_contact_ms"], ax)
    ax.set_ylim(bottom=0.0)
    if not np.any(study.column("lost_contact_ms") > 0.0):
        ax.set_ylim(0.0, 1.0)
    ax.set_title("Time without any contact", color=INK, loc="left", fontsize=11)
    return ax


def against_speed(source: SpeedsFile | str | PathLike[str], keys: list[str], ax: Axes | None = None) -> Axes:
    """Any measures of one unit against speed, with the limits on them.

    Where others lie upon the first one, it is drawn broad and they are dashed, so that all are seen.

    Parameters
    ----------
    source : SpeedsFile or path
        A speed study, read or as a file.
    keys : list of str
        Measures, such as ``["peak_nose_kN", "peak_wing_kN"]``.
    ax : Axes, optional
        Where to draw; a new figure when left out.

    Returns
    -------
    Axes
        Speed in km/h, the measures in their own unit.
    """
    study = _study(source)
    unit = study.data.units.get(f"speeds/{keys[0]}", "-").replace("mm3", "mm³")
    names = [label_of(key) for key in keys]
    kind = names[0] if len(keys) == 1 else "force" if unit == "kN" else "value"
    title = names[0] if len(keys) == 1 else f"{kind} against speed"
    ax = sheet(ax, "speed [km/h]", f"{kind} [{unit}]", title[:1].upper() + title[1:])
    speed = study.column("speed_km_h")
    hidden = any(_coincide(study.column(keys[0]), study.column(key)) for key in keys[1:])
    for place, (key, name) in enumerate(zip(keys, names, strict=True)):
        broad = hidden and place == 0
        ax.plot(speed, study.column(key), color=_line_colour(key), linewidth=4.0 if broad else 1.6,
                alpha=0.45 if broad else 1.0, linestyle=_DASHES[(place - 1) % len(_DASHES)] if hidden and place else "-",
                marker="o", markersize=_dot(speed, 5.0 if broad else 2.8), label=name)  # fmt: skip
        _limits(ax, study, key)
        if key in STEEL_MARKS:
            mark, words = STEEL_MARKS[key]
            ax.axhline(mark, color=colour("wheel"), linewidth=0.9, linestyle=(0, (1, 3)))
            ax.annotate(f"{words} above", (0.995, mark), xycoords=("axes fraction", "data"), ha="right", va="bottom",
                        color=colour("wheel"), fontsize=8, bbox=_CLEAR)  # fmt: skip
    _speeds_asked_for(ax, study, study.column(keys[0]))
    _finish(ax, study, named=len(keys) > 1)
    return ax


def _study(source: SpeedsFile | str | PathLike[str]) -> SpeedsFile:
    return source if isinstance(source, SpeedsFile) else read_speeds(Path(source))


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


def _limits(ax: Axes, study: SpeedsFile, key: str) -> None:
    for limit in study.limits:
        if limit.key != key:
            continue
        ax.axhline(limit.value, color=colour("limit"), linewidth=1.3)
        # On the side the limit leaves free, unless that side lies outside of what is drawn; at the end that is free.
        below = limit.kind == "at most" and bool(np.nanmin(study.column(key), initial=np.inf) < limit.value)
        words = limit.text.removeprefix(label_of(key)).strip()
        width, height = size_of(ax, words, 9.0)
        level = ax.transAxes.inverted().transform(ax.transData.transform((0.0, limit.value)))[1]
        y = level - 0.03 - height if below else level + 0.03
        right = freest(ax, [(0.005, y, width, height), (0.995 - width, y, width, height)]) == 1
        ax.annotate(words, (0.995 if right else 0.005, limit.value), (0.0, -2.0 if below else 2.0),
                    xycoords=("axes fraction", "data"), textcoords="offset points", ha="right" if right else "left",
                    va="top" if below else "bottom", color=colour("limit"), fontsize=9)  # fmt: skip


def _speeds_asked_for(ax: Axes, study: SpeedsFile, values: NDArray[np.float64]) -> None:
    speed = study.column("speed_km_h")
    for name, at, place in (("today", study.today, "right"), ("proposed", study.proposed, "left")):
        if np.isnan(at):
            continue
        nearest = int(np.nanargmin(np.abs(speed - at)))
        ax.axvline(at, color=colour("wheel"), linewidth=0.9, linestyle=(0, (6, 3)))
        if np.isfinite(values[nearest]):
            ax.plot(at, values[nearest], marker="o", markersize=7, markerfacecolor="none", color=INK)
        ax.annotate(f" {name} {at:.0f} ", (at, 0.015), xycoords=("data", "axes fraction"), ha=place, va="bottom",
                    color=colour("wheel"), fontsize=9, gid=SPEED_MARK, bbox=_CLEAR)  # fmt: skip
    for failed, _ in study.failures:
        ax.axvspan(failed - 0.5, failed + 0.5, color=MARGIN_SHADE, linewidth=0)


def _finish(ax: Axes, study: SpeedsFile, *, named: bool = True) -> None:
    if np.isfinite(study.permissible):
        ax.axvline(study.permissible, color=colour("limit"), linewidth=1.0, linestyle=(0, (2, 2)))
        # Cut, not rounded: a permissible speed must not grow in print.
        told = np.floor(study.permissible * 10.0 + 1e-9) / 10.0
        at = float(ax.transAxes.inverted().transform(ax.transData.transform((study.permissible, 0.0)))[0])
        places = []
        for words in (f" all limits kept up to {told:.1f} ", f" all limits kept \n up to {told:.1f} "):
            width, height = size_of(ax, words.strip(), 9.0)
            for side, x in (("left", at + 0.004), ("right", at - 0.004 - width)):
                places += [(words, side, (x, y, width, height)) for y in (0.09, 0.2, 0.35, 0.5, 0.65, 0.8, 0.9)]
        words, side, box = places[freest(ax, [place[2] for place in places])]
        ax.annotate(words, (study.permissible, box[1]), xycoords=("data", "axes fraction"), ha=side, va="bottom",
                    multialignment=side, color=colour("limit"), fontsize=9, gid=SPEED_MARK, bbox=_CLEAR)  # fmt: skip
    if named:  # a single line is named by its axis
        legend_above(ax)
