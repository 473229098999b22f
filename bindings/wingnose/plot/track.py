"""Sheets of a track at rest: stiffness along it, its rails under all wheels, receptances, voids that close."""

from __future__ import annotations

import numpy as np
from matplotlib.axes import Axes
from numpy.typing import NDArray

from .._house import INK, colour, legend, sheet, upright
from .._reading import Source, has, number, read, taken

_SHADES = ("nose", "wing", "low-passed", "wheel")


def stiffness_along(source: Source, ax: Axes | None = None) -> Axes:
    """Static stiffness under the wheel load from place to place, with the bearers (of a track that is a chain)."""
    found = taken(source, "track")
    ax = sheet(ax, "station of the load [m]", "point stiffness [MN/m]",
               f"Track stiffness under {number(found, 'track/static_load_kN'):.1f} kN on every rail", found)  # fmt: skip
    along, stiffness = read(found, "stiffness/station_mm") / 1e3, read(found, "stiffness/point_stiffness_MN_m")
    ax.plot(along, stiffness, color=colour("nose"), linewidth=1.4)
    _bearers(ax, read(found, "bearers/station_mm") / 1e3)
    if has(found, "voids/void_station_mm"):
        for station in read(found, "voids/void_station_mm") / 1e3:
            upright(ax, float(station), " void ")
    ax.set_ylim(0.0, 1.12 * float(np.nanmax(stiffness)))
    return ax


def rails_at_rest(source: Source, ax: Axes | None = None) -> Axes:
    """Deflection of the rails under all wheels of the vehicle, the reported one over the middle of the stretch."""
    found = taken(source, "track")
    ax = sheet(ax, "station [m]", "deflection [mm]", "Rails under the wheels at rest", found)
    station = read(found, "shape/shape_station_mm") / 1e3
    ax.plot(station, read(found, "shape/deflection_mm"), color=colour("nose"), label="rail with the crossing")
    if has(found, "shape/other_deflection_mm"):
        ax.plot(station, read(found, "shape/other_deflection_mm"), color=colour("wing"), linestyle="--",
                label="other rail")  # fmt: skip
    ax.invert_yaxis()  # down is down
    return legend(ax)


def track_receptance(source: Source, ax: Axes | None = None) -> Axes:
    """Magnitudes of the receptances of the rail over a bearer and between two, and of the bearer below."""
    found = taken(source, "track")
    ax = sheet(ax, "frequency [Hz]", "receptance [nm/N]", "Receptance, downward deflection per force", found)
    group = "curve" if has(found, "curve/curve_frequency_hz") else "receptance"
    hertz = read(found, "curve/curve_frequency_hz" if group == "curve" else "receptance/frequency_hz")
    names = {"bearer": "rail over a bearer", "mid_span": "rail at mid-span", "of_bearer": "bearer below a load"}
    for shade, (key, label) in zip(_SHADES, names.items(), strict=False):
        if has(found, f"{group}/{key}_nm_N"):
            ax.loglog(hertz, read(found, f"{group}/{key}_nm_N"), color=colour(shade), linewidth=1.3, label=label)
    return legend(ax)


def voids_closing(source: Source, ax: Axes | None = None) -> Axes:
    """Force on the ballast under each hanging bearer as the load over it grows: nothing until its void has closed."""
    found = taken(source, "track")
    ax = sheet(ax, "load on every rail over the void [kN]", "force on the ballast [kN]", "Voids closing", found)
    load, force = read(found, "voids/load_kN"), read(found, "voids/void_ballast_force_kN")
    for i, station in enumerate(read(found, "voids/void_station_mm") / 1e3):
        gap = read(found, "voids/gap_mm")[i]
        ax.plot(np.insert(load, 0, 0.0), np.insert(force[i], 0, 0.0), color=colour(_SHADES[i % len(_SHADES)]),
                label=f"gap {gap:.2f} mm at {station:.2f} m")  # fmt: skip
    ax.axvline(number(found, "track/static_load_kN"), color=INK, linewidth=0.8, linestyle=(0, (1, 3)),
               label="static load")  # fmt: skip
    return legend(ax)


def _bearers(ax: Axes, stations: NDArray[np.float64]) -> None:
    ax.plot(stations, np.zeros_like(stations), color=INK, marker="s", markersize=4, linestyle="", clip_on=False)
