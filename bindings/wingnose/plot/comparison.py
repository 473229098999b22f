"""Sheets of a comparison of crossings under a population of wheels; one colour per crossing on all of them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from .._house import INK, PAPER, STEEL_MARKS, colour, crossing_colour, crossing_dashes, legend, sheet
from ..stored import ComparisonFile, read_comparison
from ._places import freest, size_of

if TYPE_CHECKING:
    from os import PathLike

    from matplotlib.axes import Axes
    from numpy.typing import NDArray

    from ..stored import ComparedCrossing

__all__ = ["cumulative", "differences", "envelopes", "nose_load", "paths", "transfers"]


def paths(source: ComparisonFile | str | PathLike[str], ax: Axes | None = None, *, wheel: int = 0) -> Axes:
    """Paths of one typical wheel over every crossing, laid over each other.

    Parameters
    ----------
    source : ComparisonFile or path
        A comparison, read or as a file.
    ax : Axes, optional
        Where to draw; a new figure when left out.
    wheel : int
        Which of the stored wheels, from 0 on.

    Returns
    -------
    Axes
        Station in m, height in mm.
    """
    found = _comparison(source)
    reasons = found.data.texts.get("paths/reason", [])
    members = found.data.column("paths/member")
    title = "Path of the rigid wheel"
    if wheel < len(reasons):
        names = found.data.texts["members/name"]
        title += f": {names[int(members[wheel])]}, {reasons[wheel]}"
    ax = sheet(ax, "station of the axle [m]", "height of the wheel [mm]", title)
    lowest, highest = np.inf, -np.inf
    for crossing in found.crossings:
        station = crossing.column(f"path/{wheel}/station_mm") * 1e-3
        height = crossing.column(f"path/{wheel}/height_mm")
        if station.size == 0:
            continue
        ax.plot(station, height, **_line(crossing), linewidth=1.6, label=crossing.name)
        near = (station > -0.3) & (station < 1.2) & np.isfinite(height)
        if np.any(near):
            lowest, highest = min(lowest, float(height[near].min())), max(highest, float(height[near].max()))
    if np.isfinite(lowest):
        margin = max(0.12 * (highest - lowest), 0.05)
        ax.set_xlim(-0.3, 1.2)
        ax.set_ylim(lowest - margin, highest + margin)
    legend(ax)
    return ax


def envelopes(source: ComparisonFile | str | PathLike[str], ax: Axes | None = None) -> Axes:
    """Total force against station: median of the wheels as a line, 5 to 95 % as a band, per crossing.

    Parameters
    ----------
    source : ComparisonFile or path
        A comparison, read or as a file.
    ax : Axes, optional
        Where to draw; a new figure when left out.

    Returns
    -------
    Axes
        Station in m, force in kN.
    """
    found = _comparison(source)
    ax = sheet(ax, "station of the axle [m]", "total contact force [kN]",
               "Force over the wheels: median, and band from 5 to 95 %")  # fmt: skip
    for crossing in found.crossings:
        station = crossing.column("envelope/station_mm") * 1e-3
        shade = crossing_colour(crossing.number)
        ax.fill_between(station, crossing.column("envelope/q05_kN"), crossing.column("envelope/q95_kN"),
                        color=shade, alpha=0.1, linewidth=0)  # fmt: skip
        ax.plot(station, crossing.column("envelope/q95_kN"), color=shade, linewidth=0.8, alpha=0.7)
        ax.plot(station, crossing.column("envelope/q50_kN"), **_line(crossing), linewidth=1.6, label=crossing.name)
    ax.set_ylim(bottom=0.0)
    legend(ax)
    return ax


def transfers(source: ComparisonFile | str | PathLike[str], ax: Axes | None = None, *, bins: int = 30) -> Axes:
    """Where over the nose the wheels transfer: share of wheels by the nose's thickness there.

    Parameters
    ----------
    source : ComparisonFile or path
        A comparison, read or as a file.
    ax : Axes, optional
        Where to draw; a new figure when left out.
    bins : int
        Number of bins over all crossings.

    Returns
    -------
    Axes
        Nose thickness in mm, share of wheels in %.
    """
    found = _comparison(source)
    key = _thickness_key(found)
    ax = sheet(ax, "nose thickness at transfer [mm]", "share of wheels [%]", "Where the wheels transfer over the nose")
    weight = found.members("share")
    values = [crossing.column(f"members/{key}") for crossing in found.crossings]
    finite = np.concatenate([one[np.isfinite(one)] for one in values]) if values else np.empty(0)
    if finite.size:
        low, high = float(finite.min()), float(finite.max())
        edges = np.linspace(low, max(high, low + 1.0), bins + 1)
        for crossing, thickness in zip(found.crossings, values, strict=True):
            known = np.isfinite(thickness) & _compared(found)
            share, _ = np.histogram(thickness[known], edges, weights=weight[known])
            share = 100.0 * share / max(float(weight[known].sum()), 1e-300)
            shade = crossing_colour(crossing.number)
            ax.stairs(share, edges, fill=True, color=shade, alpha=0.18)
            ax.stairs(share, edges, color=shade, linewidth=1.5, linestyle=crossing_dashes(crossing.number),
                      label=crossing.name)  # fmt: skip
        thin = found.option("thin_nose_mm")
        if np.isfinite(thin):
            ax.axvline(thin, color=colour("limit"), linewidth=1.1)
            ax.annotate(f" thinner than {thin:.0f} mm: early ", (thin, 0.98), xycoords=("data", "axes fraction"),
                        ha="right", va="top", rotation=90, color=colour("limit"), fontsize=8)  # fmt: skip
    legend(ax)
    return ax


def cumulative(source: ComparisonFile | str | PathLike[str], quantity: str = "p2_kN", ax: Axes | None = None) -> Axes:
    """Share of wheels at or below each value of a quantity, per crossing.

    Where a few wheels lie far out, the axis ends before them and says how far they reach.

    Parameters
    ----------
    source : ComparisonFile or path
        A comparison, read or as a file.
    quantity : str
        Key of a quantity, such as "p2_kN".
    ax : Axes, optional
        Where to draw; a new figure when left out.

    Returns
    -------
    Axes
        The quantity in its unit, share of wheels in %.
    """
    found = _comparison(source)
    label = found.label(quantity).replace("mm3", "mm³")
    title = f"{label.rsplit(' [', 1)[0]}, cumulative over the wheels"
    ax = sheet(ax, label, "share of wheels at or below [%]", title[:1].upper() + title[1:])
    for crossing in found.crossings:
        value = crossing.column(f"cumulative/{quantity}")
        share = crossing.column(f"cumulative/{quantity}_share") * 100.0
        if value.size:
            value, share = np.append(value[:1], value), np.append(0.0, share)
        ax.step(value, share, where="post", **_line(crossing), linewidth=1.6, label=crossing.name)
    if quantity in STEEL_MARKS:
        mark, words = STEEL_MARKS[quantity]
        ax.axvline(mark, color=colour("limit"), linewidth=1.1)
        ax.annotate(f" beyond: {words} ", (mark, 0.98), xycoords=("data", "axes fraction"), ha="right", va="top", rotation=90,
                    color=colour("limit"), fontsize=8)  # fmt: skip
    ax.set_ylim(0.0, 100.0)
    _leave_out_far_ones(ax, found, quantity)
    legend(ax)
    return ax


def _leave_out_far_ones(ax: Axes, found: ComparisonFile, quantity: str) -> None:
    columns = [(crossing.column(f"cumulative/{quantity}"), crossing.column(f"cumulative/{quantity}_share"))
               for crossing in found.crossings]  # fmt: skip
    most = [float(value[np.searchsorted(share, 0.9)]) for value, share in columns if value.size]
    greatest = max((float(value[-1]) for value, _ in columns if value.size), default=0.0)
    if not most or greatest <= 2.0 * max(most) or max(most) <= 0.0:
        return
    ends = [float(value[0]) for value, _ in columns if value.size]
    ends += [STEEL_MARKS[quantity][0]] if quantity in STEEL_MARKS else []
    right = 1.3 * max(most)
    ax.set_xlim(min(ends) - 0.05 * (right - min(ends)), right)
    told = f"{greatest:.0f}" if greatest >= 100.0 else f"{greatest:.3g}"
    places = []
    for words in (f"a few wheels beyond, up to {told} ", f"a few wheels \nbeyond, up to {told} "):
        width, height = size_of(ax, words, 8.0)
        places += [(words, (1.0 - width, y, width, height)) for y in (0.03, 0.15, 0.3, 0.45, 0.6, 0.75)]
    words, box = places[freest(ax, [place[1] for place in places])]
    ax.annotate(words, (1.0, box[1]), xycoords="axes fraction", ha="right", va="bottom", multialignment="right",
                color=INK, fontsize=8)  # fmt: skip


def differences(
    source: ComparisonFile | str | PathLike[str], ax: Axes | None = None, *, crossing: int | None = None
) -> Axes:
    """Crossings less the reference, criterion by criterion, with bootstrap intervals, in % of the reference.

    Parameters
    ----------
    source : ComparisonFile or path
        A comparison, read or as a file.
    ax : Axes, optional
        Where to draw; a new figure when left out.
    crossing : int, optional
        Number of one crossing, from 1 on; all but the reference when left out.

    Returns
    -------
    Axes
        Difference in % of the reference's value; full circle: the interval leaves out 0. Shares are in percentage
        points, and say so; criteria whose reference is 0 are left out. An arrow ends intervals that reach beyond the
        axis.
    """
    found = _comparison(source)
    shown = [one for one in found.crossings[1:] if crossing in (None, one.number)]
    reference = dict(zip(found.criteria, (cell.value for cell in found.ranking(0)), strict=True))
    scales = {
        named: 1.0 if named.unit == "%" else 100.0 / abs(value)
        for named, value in reference.items()
        if named.unit == "%" or (np.isfinite(value) and value != 0.0)
    }
    ax = sheet(ax, "difference to the reference [%]", "", f"Differences to {found.crossings[0].name}, with "
               f"{100.0 * found.option('confidence'):.0f} % intervals (hollow circle: it holds 0)")  # fmt: skip
    rows_of = {one.number: {row.named: row for row in found.differences(one.number)} for one in shown}
    # A single wide interval must not press all others flat.
    sizes = [abs(row.value) * scales[named] for rows in rows_of.values() for named, row in rows.items() if named in scales]
    reach = 2.5 * max((size for size in sizes if np.isfinite(size)), default=0.0) or np.inf
    for lane, one in enumerate(shown):
        shift = 0.5 * (lane - 0.5 * (len(shown) - 1)) / max(len(shown), 1)
        shade = crossing_colour(one.number)
        rows = rows_of[one.number]
        ax.plot([], [], color=shade, marker="o", label=one.name)
        for place, (named, scale) in enumerate(scales.items()):
            row = rows.get(named)
            if row is None or not np.isfinite(row.value):
                continue
            ends = np.clip([row.low * scale, row.high * scale], -reach, reach)
            ax.plot(ends, [place + shift] * 2, color=shade, linewidth=2.0)
            for end, sign in zip((row.low * scale, row.high * scale), (-1.0, 1.0), strict=True):
                if sign * end > reach:
                    ax.plot(sign * reach, place + shift, marker=">" if sign > 0.0 else "<", markersize=7, color=shade)
            ax.plot(row.value * scale, place + shift, marker="o", markersize=6, color=shade,
                    markerfacecolor=shade if row.apart else PAPER)  # fmt: skip
    ax.axvline(0.0, color=INK, linewidth=0.9)
    labels = [named.label + ("\n[percentage points]" if named.unit == "%" else "") for named in scales]
    ax.set_yticks(range(len(scales)), labels)
    ax.set_ylim(len(scales) - 0.5, -0.5)
    legend(ax)
    return ax


def nose_load(source: ComparisonFile | str | PathLike[str], ax: Axes | None = None) -> Axes:
    """Load carried at each nose thickness: mean over the wheels as a line, 95 % of their largest as a thin one.

    Parameters
    ----------
    source : ComparisonFile or path
        A comparison, read or as a file.
    ax : Axes, optional
        Where to draw; a new figure when left out.

    Returns
    -------
    Axes
        Nose thickness in mm, force in kN.
    """
    found = _comparison(source)
    ax = sheet(ax, "nose thickness under the axle [mm]", "force on the nose [kN]",
               "Load at each nose thickness: mean over the wheels, thin line: 95 % of the largest")  # fmt: skip
    for crossing in found.crossings:
        low, high = crossing.column("nose_load/thickness_from_mm"), crossing.column("nose_load/thickness_to_mm")
        middle = 0.5 * (low + high)
        ax.plot(middle, crossing.column("nose_load/mean_kN"), **_line(crossing), linewidth=1.8, label=crossing.name)
        ax.plot(middle, crossing.column("nose_load/q95_kN"), **_line(crossing), linewidth=0.8)
    ax.set_ylim(bottom=0.0)
    legend(ax)
    return ax


def _comparison(source: ComparisonFile | str | PathLike[str]) -> ComparisonFile:
    return source if isinstance(source, ComparisonFile) else read_comparison(Path(source))


def _thickness_key(found: ComparisonFile) -> str:
    return next((one.key for one in found.quantities if "thickness" in one.key), "nose_thickness_at_transfer_mm")


def _compared(found: ComparisonFile) -> NDArray[np.bool_]:
    return found.members("compared") > 0.5


def _line(crossing: ComparedCrossing) -> dict[str, Any]:
    return {"color": crossing_colour(crossing.number), "linestyle": crossing_dashes(crossing.number)}
