"""Sheets of a passage: forces, the wheel's path, cross-sections, the track's receptance."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import cycle

import numpy as np
from matplotlib.axes import Axes
from numpy.typing import ArrayLike

from .._core import assess
from .._core.contact import WheelPath
from .._core.layout import Crossing
from .._core.profile import WheelProfile
from .._core.track import Assembly, ModalTrack, receptance as point_receptance
from .._house import INK, colour, legend, sheet, size_of
from .._reading import Source, node, number, read, taken

# Taping line of a centred wheel from the track centre line (m); see wingnose/words/frame.hpp.
TAPING_LINE_Y = 0.750


def force(
    source: Source,
    ax: Axes | None = None,
    *,
    window: tuple[float, float] | None = None,
    options: assess.MeasureOptions | None = None,
) -> Axes:
    """Contact force against station: wing and nose apart, their total, and the low-passed force P2 is read from.

    `window`: m, stations shown, all of them when left out; `options`: filter of the low-passed line, that of the case
    when left out.
    """
    found = taken(source, "run")
    history = node(found, "history")
    station, time = read(history, "station_mm") * 1e-3, read(history, "time_s")
    total, static = read(history, "force_N") / 1e3, number(found, "measures/static_load_kN")
    ax = sheet(ax, "station of the axle [m]", "vertical contact force [kN]",
               f"Contact force, static load {static:.1f} kN", found)  # fmt: skip
    bodies = [name[1] for key in history.data_vars if (name := re.fullmatch(r"force_(\w+)_N", str(key)))]
    for body in bodies:
        values = read(history, f"force_{body}_N") / 1e3
        ax.fill_between(station, values, color=colour(body), alpha=0.22, linewidth=0)
        ax.plot(station, values, color=colour(body), linewidth=1.1, label=body)
    if len(bodies) > 1:
        ax.plot(station, total, color=colour("total"), linewidth=1.4, label="total")
    cut_off, order = number(found, "measures/p2_cutoff_hz"), int(number(found, "measures/p2_filter_order"))
    if options is not None:
        cut_off, order = options.p2_cut_off, options.p2_order
    smooth = assess.low_pass_zero_phase(total, float(time[1] - time[0]), cut_off, order)
    ax.plot(station, smooth, color=colour("low-passed"), linewidth=1.0,
            label=f"low-passed {cut_off:.0f} Hz, order {order}, zero phase")  # fmt: skip
    p2 = number(found, "measures/p2_kN")
    if options is None and np.isfinite(p2):
        ax.axhline(p2, color=colour("low-passed"), linewidth=0.9, linestyle=(0, (6, 3)))
        ax.annotate(f"P2 {p2:.1f} kN", (0.995, p2), xycoords=("axes fraction", "data"), ha="right", va="bottom",
                    color=colour("low-passed"), fontsize=9)  # fmt: skip
    ax.axhline(static, color=INK, linewidth=0.8, linestyle=(0, (1, 3)), label="static load")
    if window is not None:
        ax.set_xlim(*window)
    return _legend_over_the_lines(ax)


def _legend_over_the_lines(ax: Axes) -> Axes:
    # The lines fill the Axes: the names stand above the highest of them, in as few rows as fit.
    labels = ax.get_legend_handles_labels()[1]
    broad = size_of(ax, "".join(labels), 9.0)[0] + 0.07 * len(labels) < 1.0
    columns = len(labels) if broad else 2
    rows = -(-len(labels) // columns)
    ax.set_ylim(0.0, ax.get_ylim()[1] / (1.0 - 0.02 - rows * size_of(ax, "", 9.0)[1]))
    return legend(ax, loc="upper left", ncols=columns, borderaxespad=0.2, columnspacing=1.3, labelspacing=0.35)


def wheel_path(
    source: WheelPath | Source, ax: Axes | None = None, *, window: tuple[float, float] | None = None
) -> Axes:
    """Height of the wheel on each body and the combined path, without any force.

    `source`: a run, a geometry, or a path of the rooms; `window`: m, stations shown.
    """
    title, transfer, answers = "Path of the rigid wheel", np.nan, []
    if isinstance(source, WheelPath):
        station = source.station
        heights = {body.name: body.height * 1e3 for body in source.bodies}
    else:
        found = taken(source, "run", "geometry")
        answers.append(found)
        station = read(found, "path/station_mm") * 1e-3
        heights = {name: read(body, "height_mm") for name, body in node(found, "path").children.items()}
        transfer, dip = number(found, "measures/transfer_station_mm"), number(found, "measures/dip_angle_mrad")
        title += f", dip angle {dip:.2f} mrad" if np.isfinite(dip) else ""
    ax = sheet(ax, "station of the axle [m]", "height of the wheel [mm]", title, *answers)
    first, last = window or (-np.inf, np.inf)
    shown = (station >= first) & (station <= last)
    # No contact is -inf in memory and NaN in answers; as a line it is a gap.
    heights = {name: np.where(np.isfinite(height), height, np.nan) for name, height in heights.items()}
    combined = np.fmax.reduce(list(heights.values()))
    ax.plot(station, combined, color=INK, linewidth=3.2, alpha=0.22, label="combined")
    for name, height in heights.items():
        ax.plot(station, height, color=colour(name), linewidth=1.3, label=name)
    if np.isfinite(transfer):
        ax.axvline(transfer * 1e-3, color=colour("low-passed"), linewidth=0.9, linestyle=(0, (6, 3)))
        ax.annotate(f" transfer at {transfer:.1f} mm", (transfer * 1e-3, 0.98), xycoords=("data", "axes fraction"),
                    va="top", color=colour("low-passed"), fontsize=9)  # fmt: skip
    # The bodies drop away from each other by centimetres; what matters is around the path that is rolled.
    low, high = float(np.nanmin(combined[shown])), float(np.nanmax(combined[shown]))
    margin = max(0.25 * (high - low), 0.05)
    ax.set_ylim(low - margin, high + margin)
    if window is not None:
        ax.set_xlim(*window)
    return legend(ax)


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

    `crossing`: what is cut; `wheel`: what stands on it; `station`: m, where to cut (for example the transfer station);
    `lateral_offset`: m, shift of the wheelset outward; `wheel_height`: m, height of the wheel's lowest point at its
    taping line, resting on this section when left out.
    """
    ax = sheet(ax, "distance from the track centre line [mm]", "height [mm]",
               f"Cross-section at {station * 1e3:.1f} mm")  # fmt: skip
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
    return legend(ax)


def receptance(
    track: ModalTrack | Assembly, stations: Sequence[float], frequency: ArrayLike | None = None, ax: Axes | None = None
) -> Axes:
    """Magnitude of the point receptance of the rail at some stations.

    `track`: the track; `stations`: m, points of force and answer; `frequency`: Hz, 20 to 3000 Hz when left out.
    """
    hertz = np.geomspace(20.0, 3000.0, 240) if frequency is None else np.asarray(frequency, dtype=np.float64)
    assembly = track.assembly if isinstance(track, ModalTrack) else track
    ax = sheet(ax, "frequency [Hz]", "receptance [m/N]", "Point receptance of the rail")
    for shade, station in zip(cycle(("nose", "wing", "low-passed", "wheel")), stations, strict=False):
        answer = np.abs(point_receptance(assembly, station, hertz))
        ax.loglog(hertz, answer, color=colour(shade), linewidth=1.3, label=f"at {station:.2f} m")
    return legend(ax)
