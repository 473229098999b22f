"""Sheets of a vehicle in space through a turnout: in plan, guiding forces, where wheels touch, sections across."""

from __future__ import annotations

from typing import Literal

import numpy as np
from matplotlib.axes import Axes

from .._house import INK, RULE, colour, crossing_line, legend, sheet
from .._reading import Source, has, node, number, read, taken, texts

_KIND = "turnout_ride"
_SHADES = {"stock": "low-passed", "run_in": "low-passed", "check": "limit"}


def ride_plan(source: Source, ax: Axes | None = None, *, wheelset: int = 1) -> Axes:
    """Plan of one wheelset on its way: running edges of the bodies, face of the check rail, fronts and back of its
    flanges, and where its wheels touch.

    Across the track each side is drawn about its own gauge line, so that millimetres are seen.
    """
    found = taken(source, _KIND)
    ax = sheet(ax, "station [m]", "outward of the gauge line [mm]",
               f"Wheelset {wheelset} in plan, above: crossing, below: other rail", found)  # fmt: skip
    half, gap = 717.5, 140.0  # mm: gauge line from the middle, distance the two sides are drawn apart
    for body, line in node(found, "plan").children.items():
        y = read(line, "y_mm")  # empty where the vehicle did not run
        beside = np.where(y > 0, y - half, y + half - gap)
        ax.plot(read(line, "station_m"), beside, color=colour(_SHADES.get(body, body)), linewidth=1.8,
                label=body.replace("_", " "))  # fmt: skip
    here = wheelset - 1
    axle = read(found, "history/station_m") + read(found, "history/ahead_m")[here]
    shift = read(found, "history/shift_mm")[:, here]
    taping = number(found, "wheel_profile/half_spacing_mm")
    y, height = read(found, "wheel_profile/y_mm"), read(found, "wheel_profile/height_mm")
    front = taping + float(np.max(y[height >= 10.0])) if np.any(height >= 10.0) else taping
    ax.plot(axle, front - half + shift, color=INK, linewidth=1.0, label="flange fronts")
    ax.plot(axle, half - front - gap + shift, color=INK, linewidth=1.0)
    ax.plot(axle, half - (taping + float(y[0])) - gap + shift, color=INK, linewidth=1.0, linestyle=(0, (4, 2)),
            label="back of its other wheel")  # fmt: skip
    mine = read(found, "contacts/wheelset") == wheelset
    at, across = read(found, "contacts/station_m")[mine], read(found, "contacts/y_mm")[mine]
    ax.scatter(at, np.where(across > 0, across - half, across + half - gap), s=2.0, color=colour("wheel"),
               label="contacts", zorder=3, rasterized=True)  # fmt: skip
    ax.axhline(-0.5 * gap, color=RULE, linewidth=5.0)
    ax.set_ylim(-gap - 80.0, 80.0)
    ax.set_xlim(-4.0, 3.0)
    # Between the two sides nothing lies.
    return legend(ax, ncols=4, loc="center", bbox_to_anchor=(0.5, 0.6))


def guiding_forces(
    source: Source, ax: Axes | None = None, *, force: Literal["Y", "Q"] = "Y", mean: float = 0.0
) -> Axes:
    """Y (outward) or Q of every wheel against the station of its own axle; crossing side full, other side dashed.

    `mean`: m, length of a sliding mean; 0 shows every instant.
    """
    found = taken(source, _KIND)
    kept = f"{mean:g} m mean" if mean else "every instant"
    title = "Y outward" if force == "Y" else "Q"
    ax = sheet(ax, "station of the axle [m]", f"{title} of a wheel [kN]", f"{title} of every wheel, {kept}", found)
    station, ahead = read(found, "history/station_m"), read(found, "history/ahead_m")
    values = read(found, f"history/{force}_kN")
    for wheel in range(values.shape[1]):
        of = values[:, wheel] * (-1.0 if force == "Y" and wheel % 2 else 1.0)
        if mean:
            width = max(1, round(mean / float(station[1] - station[0])))
            of = np.convolve(of, np.ones(width) / width)[: of.size] * width / np.minimum(np.arange(of.size) + 1, width)
        style = crossing_line(wheel // 2)["color"]
        some = slice(None, None, max(1, of.size // 3000) if mean else 1)  # a mean needs no more
        ax.plot((station + ahead[wheel // 2])[some], of[some], color=style, linewidth=1.0, linestyle=(0, (3, 2)) if wheel % 2 else "-",
                label=None if wheel % 2 else f"wheelset {wheel // 2 + 1}")  # fmt: skip
    return legend(ax)


def contacts_on_wheel(source: Source, ax: Axes | None = None, *, wheelset: int = 1) -> Axes:
    """Where the two wheels of a wheelset are touched: the profile, and along the way the place of every contact on it,
    as large as its force."""
    found = taken(source, _KIND)
    ax = sheet(ax, "on the wheel, from its taping line [mm]", "station of the contact [m]",
               f"Contacts of wheelset {wheelset}; flange to the left", found)  # fmt: skip
    all_of = {key: read(found, f"contacts/{key}") for key in ("wheelset", "wheel", "body", "station_m", "on_wheel_mm",
                                                              "normal_kN")}  # fmt: skip
    for wheel, shade, name in ((1, "nose", "crossing side"), (2, "wing", "other side")):
        mine = (all_of["wheelset"] == wheelset) & (all_of["wheel"] == wheel) & (all_of["body"] > 0)
        ax.scatter(all_of["on_wheel_mm"][mine], all_of["station_m"][mine], s=all_of["normal_kN"][mine] / 12.0,
                   color=colour(shade), alpha=0.5, linewidths=0, label=name, rasterized=True)  # fmt: skip
    low, high = ax.get_ylim()
    y, height = read(found, "wheel_profile/y_mm"), read(found, "wheel_profile/height_mm")
    scale = 0.18 * (high - low) / 30.0
    ax.plot(y, low - 0.02 * (high - low) - scale * (height - height.min()), color=INK, linewidth=1.4, label="profile")
    ax.set_xlim(float(y[0]) - 3.0, float(y[-1]) + 3.0)
    return legend(ax)


def ride_section(source: Source, ax: Axes | None = None, *, section: int = 0, crossing: bool = True) -> Axes:
    """Cross-section of the ground with the leading wheelset in it as it stands there, at one of the stations looked at
    (``sections/station_m``); `crossing`: the crossing's side, or the other one."""
    found = taken(source, _KIND)
    station = read(found, "sections/station_m")[section]
    side = 1.0 if crossing else -1.0
    ax = sheet(ax, "from the middle of the track [mm]", "height [mm]",
               f"Leading wheelset at station {station:.3f} m, {'crossing' if crossing else 'other'} side", found)  # fmt: skip
    for body in texts(found, "ground/body"):
        y, z = (read(found, f"sections/{body}/{axis}_mm")[section] for axis in "yz")
        if np.any(np.isfinite(y)) and np.nanmean(y) * side > 0:
            shade = colour(_SHADES.get(body, body))
            ax.fill_between(y, z, -60.0, color=shade, alpha=0.16, linewidth=0)
            ax.plot(y, z, color=shade, linewidth=1.6, label=body.replace("_", " "))
    shift, roll, lift = (read(found, f"sections/{key}")[section] for key in ("axle_shift_mm", "roll_mrad", "lift_mm"))
    radius = number(found, "wheel_profile/radius_mm")
    y = side * (number(found, "wheel_profile/half_spacing_mm") + read(found, "wheel_profile/y_mm"))
    z = -radius - read(found, "wheel_profile/height_mm")
    turned = roll * 1e-3
    ax.plot(y - turned * z + shift, radius + z + turned * y + lift, color=colour("wheel"), linewidth=1.6, label="wheel")
    if not crossing and has(found, "plan/check"):
        face, along = read(found, "plan/check/y_mm"), read(found, "plan/check/station_m")
        if along[0] <= station <= along[-1]:
            edge, top = float(np.interp(station, along, face)), number(found, "plan/check/top_mm")
            ax.fill_between([edge, edge + 40.0], [top, top], -60.0, color=colour("limit"), alpha=0.2, linewidth=0,
                            label="check rail")  # fmt: skip
    ax.set_aspect("equal", adjustable="box")
    middle = side * 750.0
    ax.set_xlim(middle - 90.0, middle + 90.0)
    ax.set_ylim(-50.0, 30.0)
    return legend(ax)
