"""Sheets of a passage: every function draws on Axes and returns them.

Lengths are drawn in mm, forces in kN; the values passed in are SI, as everywhere.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from .._core import assess
from .._core.layout import Crossing, WheelPath
from .._core.io import StoredResult
from .._core.passage import History
from .._core.study import Geometry, Result
from .._core.track import Assembly, ModalTrack, receptance as point_receptance
from .._house import INK, colour, legend, sheet
from ._places import size_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.axes import Axes
    from numpy.typing import ArrayLike, NDArray

    from .._core.profile import WheelProfile

__all__ = ["force", "receptance", "sections_at", "wheel_path"]

# Taping line of a centred wheel from the track centre line (m); see wingnose/words/frame.hpp.
TAPING_LINE_Y = 0.750


class _ForceLines(NamedTuple):
    station: NDArray[np.float64]
    total: NDArray[np.float64]
    bodies: dict[str, NDArray[np.float64]]
    static_load: float
    step: float
    p2: float | None
    cut_off: float
    order: int


class _PathLines(NamedTuple):
    station: NDArray[np.float64]
    bodies: dict[str, NDArray[np.float64]]
    transfer: float | None
    dip_angle: float | None


def force(
    source: Result | History | StoredResult,
    ax: Axes | None = None,
    *,
    window: tuple[float, float] | None = None,
    options: assess.MeasureOptions | None = None,
) -> Axes:
    """Contact force against station: wing and nose apart, their total, and the low-passed force P2 is read from.

    Parameters
    ----------
    source : Result, History or StoredResult
        What happened, from a run or from a result file.
    ax : Axes, optional
        Where to draw; a new figure when left out.
    window : (float, float), optional
        m, stations shown; all of them when left out.
    options : MeasureOptions, optional
        Filter of the low-passed line; that of the case where the source knows it.

    Returns
    -------
    Axes
        Station in m, force in kN.
    """
    lines = _force_lines(source, options)
    title = f"Contact force, static load {lines.static_load / 1e3:.1f} kN"
    ax = sheet(ax, "station of the axle [m]", "vertical contact force [kN]", title)
    for name, values in lines.bodies.items():
        ax.fill_between(lines.station, values / 1e3, color=colour(name), alpha=0.22, linewidth=0)
        ax.plot(lines.station, values / 1e3, color=colour(name), linewidth=1.1, label=name)
    if len(lines.bodies) > 1:
        ax.plot(lines.station, lines.total / 1e3, color=colour("total"), linewidth=1.4, label="total")
    smooth = assess.low_pass_zero_phase(lines.total, lines.step, lines.cut_off, lines.order)
    ax.plot(
        lines.station,
        smooth / 1e3,
        color=colour("low-passed"),
        linewidth=1.0,
        label=f"low-passed {lines.cut_off:.0f} Hz, order {lines.order}, zero phase",
    )
    if lines.p2 is not None:
        ax.axhline(lines.p2 / 1e3, color=colour("low-passed"), linewidth=0.9, linestyle=(0, (6, 3)))
        ax.annotate(
            f"P2 {lines.p2 / 1e3:.1f} kN",
            (0.995, lines.p2 / 1e3),
            xycoords=("axes fraction", "data"),
            ha="right",
            va="bottom",
            color=colour("low-passed"),
            fontsize=9,
        )
    ax.axhline(lines.static_load / 1e3, color=INK, linewidth=0.8, linestyle=(0, (1, 3)), label="static load")
    if window is not None:
        ax.set_xlim(*window)
    _legend_over_the_lines(ax)
    return ax


def _legend_over_the_lines(ax: Axes) -> None:
    # The lines fill the Axes: the names stand above the highest of them, in as few rows as fit.
    handles, labels = ax.get_legend_handles_labels()
    words = "".join(labels)
    broad = size_of(ax, words, 9.0)[0] + 0.07 * len(labels) < 1.0
    columns = len(labels) if broad else 2
    rows = -(-len(labels) // columns)
    ax.set_ylim(0.0, ax.get_ylim()[1] / (1.0 - 0.02 - rows * size_of(ax, "", 9.0)[1]))
    ax.legend(handles, labels, frameon=False, labelcolor=INK, fontsize=9, loc="upper left", ncols=columns,
              borderaxespad=0.2, columnspacing=1.3, labelspacing=0.35)  # fmt: skip


def wheel_path(
    source: Result | Geometry | WheelPath | StoredResult,
    ax: Axes | None = None,
    *,
    window: tuple[float, float] | None = None,
) -> Axes:
    """Height of the wheel on each body and the combined path, without any force.

    Parameters
    ----------
    source : Result, Geometry, WheelPath or StoredResult
        What was rolled.
    ax : Axes, optional
        Where to draw; a new figure when left out.
    window : (float, float), optional
        m, stations shown.

    Returns
    -------
    Axes
        Station in m, height in mm.
    """
    lines = _path_lines(source)
    title = "Path of the rigid wheel"
    if lines.dip_angle is not None:
        title += f", dip angle {lines.dip_angle * 1e3:.2f} mrad"
    ax = sheet(ax, "station of the axle [m]", "height of the wheel [mm]", title)
    shown = np.ones(lines.station.shape, dtype=bool)
    if window is not None:
        shown = (lines.station >= window[0]) & (lines.station <= window[1])
    # No contact is -inf in memory and NaN in files; as a line it is a gap.
    heights = {name: np.where(np.isfinite(height), height, np.nan) for name, height in lines.bodies.items()}
    combined = np.fmax.reduce(list(heights.values()))
    ax.plot(lines.station, combined * 1e3, color=INK, linewidth=3.2, alpha=0.22, label="combined")
    for name, height in heights.items():
        ax.plot(lines.station, height * 1e3, color=colour(name), linewidth=1.3, label=name)
    if lines.transfer is not None:
        ax.axvline(lines.transfer, color=colour("low-passed"), linewidth=0.9, linestyle=(0, (6, 3)))
        ax.annotate(
            f" transfer at {lines.transfer * 1e3:.1f} mm",
            (lines.transfer, 0.98),
            xycoords=("data", "axes fraction"),
            va="top",
            color=colour("low-passed"),
            fontsize=9,
        )
    # The bodies drop away from each other by centimetres; what matters is around the path that is rolled.
    low, high = float(np.nanmin(combined[shown])) * 1e3, float(np.nanmax(combined[shown])) * 1e3
    margin = max(0.25 * (high - low), 0.05)
    ax.set_ylim(low - margin, high + margin)
    if window is not None:
        ax.set_xlim(*window)
    legend(ax)
    return ax


def sections_at(
    crossing: Crossing,
    wheel: WheelProfile,
    station: float,
    ax: Axes | None = None,
    *,
    lateral_offset: float = 0.0,
    wheel_height: float | None = None,
) -> Axes:
    """Cross-section of wing and nose with the wheel over them at one station.

    Parameters
    ----------
    crossing : Crossing
        What is cut.
    wheel : WheelProfile
        What stands on it.
    station : float
        m, where to cut (for example the transfer station).
    ax : Axes, optional
        Where to draw; a new figure when left out.
    lateral_offset : float
        m, shift of the wheelset outward.
    wheel_height : float, optional
        m, height of the wheel's lowest point at its taping line; resting on this section when left out.

    Returns
    -------
    Axes
        Distance from the track centre line and height, both in mm, to one scale.
    """
    ax = sheet(ax, "distance from the track centre line [mm]", "height [mm]", f"Cross-section at {station * 1e3:.1f} mm")
    y_wheel = np.linspace(wheel.y_min, wheel.y_max, 801)
    # height() is the growth of the rolling radius, so the wheel's underside lies that much lower.
    underside = -wheel.height(y_wheel)
    y_track = y_wheel + TAPING_LINE_Y + lateral_offset
    rest = -np.inf
    for body in crossing.bodies:
        y, z = body.section(station)
        if y.size == 0:
            continue
        ax.fill_between(y * 1e3, z * 1e3, -60.0, color=colour(body.name), alpha=0.16, linewidth=0)
        ax.plot(y * 1e3, z * 1e3, color=colour(body.name), linewidth=1.6, label=body.name)
        gap = body.height(station, y_track) - underside
        if np.any(np.isfinite(gap)):
            rest = max(rest, float(np.nanmax(gap)))
    level = wheel_height if wheel_height is not None else (rest if np.isfinite(rest) else 0.0)
    ax.plot(y_track * 1e3, (underside + level) * 1e3, color=colour("wheel"), linewidth=1.6, label=f"wheel {wheel.name}")
    ax.set_aspect("equal", adjustable="box")
    ax.set_xlim(float(y_track[0]) * 1e3 - 10.0, float(y_track[-1]) * 1e3 + 10.0)
    ax.set_ylim(-50.0, 25.0)
    legend(ax)
    return ax


def receptance(
    track: ModalTrack | Assembly,
    stations: Sequence[float],
    frequency: ArrayLike | None = None,
    ax: Axes | None = None,
) -> Axes:
    """Magnitude of the point receptance of the rail at some stations.

    Parameters
    ----------
    track : ModalTrack or Assembly
        The track.
    stations : sequence of float
        m, points of force and answer.
    frequency : array_like, optional
        Hz; 20 to 3000 Hz when left out.
    ax : Axes, optional
        Where to draw; a new figure when left out.

    Returns
    -------
    Axes
        Frequency in Hz, receptance in m/N, both logarithmic.
    """
    hertz = np.geomspace(20.0, 3000.0, 240) if frequency is None else np.asarray(frequency, dtype=np.float64)
    assembly = track.assembly if isinstance(track, ModalTrack) else track
    ax = sheet(ax, "frequency [Hz]", "receptance [m/N]", "Point receptance of the rail")
    for shade, station in enumerate(stations):
        answer = np.abs(point_receptance(assembly, station, hertz))
        ax.loglog(hertz, answer, color=_cycle(shade), linewidth=1.3, label=f"at {station:.2f} m")
    legend(ax)
    return ax


def _cycle(index: int) -> str:
    names = ("nose", "wing", "low-passed", "wheel")
    return colour(names[index % len(names)])


def _force_lines(source: Result | History | StoredResult, options: assess.MeasureOptions | None) -> _ForceLines:
    if isinstance(source, StoredResult):
        return _stored_force_lines(source, options)
    history = source.history if isinstance(source, Result) else source
    chosen = options if options is not None else assess.MeasureOptions()
    p2, cut_off = None, chosen.p2_cut_off
    if isinstance(source, Result) and options is None:
        p2, cut_off = source.measures.p2, source.measures.p2_cut_off
    bodies = dict(zip(history.bodies, history.body_force, strict=True))
    return _ForceLines(
        history.station, history.force, bodies, history.static_load, history.step, p2, cut_off, chosen.p2_order
    )


def _stored_force_lines(stored: StoredResult, options: assess.MeasureOptions | None) -> _ForceLines:
    arrays = {name: stored_array.values for name, stored_array in stored.arrays.items()}
    time = arrays["history/time_s"]
    prefix, suffix = "history/force_", "_N"
    bodies = {
        name.removeprefix(prefix).removesuffix(suffix): values
        for name, values in reversed(arrays.items())
        if name.startswith(prefix) and name.endswith(suffix) and name != "history/force_N"
    }
    if options is None:
        p2, cut_off, order = stored.measures["p2_kN"] * 1e3, stored.measures["p2_cutoff_hz"], _stored_order(stored)
    else:
        p2, cut_off, order = None, options.p2_cut_off, options.p2_order
    return _ForceLines(
        arrays["history/station_mm"] * 1e-3,
        arrays["history/force_N"],
        bodies,
        stored.measures["static_load_kN"] * 1e3,
        float(time[1] - time[0]),
        p2,
        cut_off,
        order,
    )


def _stored_order(stored: StoredResult) -> int:
    for line in stored.texts["case/keys"]:
        key, _, value = line.partition("=")
        if key.strip() == "measures.p2_order":
            return int(float(value))
    return assess.MeasureOptions().p2_order


def _path_lines(source: Result | Geometry | WheelPath | StoredResult) -> _PathLines:
    if isinstance(source, StoredResult):
        arrays = {name: stored_array.values for name, stored_array in source.arrays.items()}
        bodies = {
            name.split("/")[1]: values * 1e-3
            for name, values in reversed(arrays.items())
            if name.startswith("path/") and name.endswith("/height_mm") and name.count("/") == 2
        }
        transfer = source.measures["transfer_station_mm"] * 1e-3
        return _PathLines(
            arrays["path/station_mm"] * 1e-3,
            bodies,
            None if np.isnan(transfer) else transfer,
            source.measures["dip_angle_mrad"] * 1e-3,
        )
    found = source.geometry if isinstance(source, Result) else source
    path = found if isinstance(found, WheelPath) else found.path
    kinematics = found.kinematics if isinstance(found, Geometry) else None
    return _PathLines(
        path.station,
        {body.name: body.height for body in path.bodies},
        kinematics.transfer_station if kinematics is not None else None,
        kinematics.dip_angle if kinematics is not None else None,
    )
