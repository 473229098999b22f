"""The report of a comparison of crossings."""

from __future__ import annotations

import math
from collections import Counter
from functools import partial
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from .. import plot
from ..stored import ComparisonFile, read_comparison
from ._page import Figure, figure, fine_decimals, number, render, sentence, signed, unit

if TYPE_CHECKING:
    from collections.abc import Callable
    from os import PathLike

    from matplotlib.axes import Axes


class _Ranked(NamedTuple):
    text: str
    rank: int
    best: bool
    unsure: bool  # the next place is not apart


class _Differing(NamedTuple):
    label: str
    unit: str
    cells: list[tuple[str, str, bool]]  # difference, interval, whether it leaves out 0


def comparison(source: ComparisonFile | str | PathLike[str]) -> str:
    """One-page report of a comparison of crossings.

    Parameters
    ----------
    source : ComparisonFile or path
        What ``wingnose compare ... -o FILE`` stored.

    Returns
    -------
    str
        HTML in one piece: nothing is loaded from elsewhere.

    Raises
    ------
    InputError
        The file holds something else.
    """
    found = source if isinstance(source, ComparisonFile) else read_comparison(source)
    headline, sentences = _answer(found)
    return render(
        "comparison.html.j2",
        found=found,
        names=[one.name for one in found.crossings],
        headline=headline,
        sentences=sentences,
        alarms=found.texts("warnings"),
        ranking=_ranking(found),
        differences=_differences(found),
        groups=_groups(found),
        shares=_shares(found),
        population=_population(found),
        figures=_figures(found),
        steel=_steel(found),
        steel_shares=_steel_shares(found),
        steel_differences=_differences(found, of_steel=True),
        steel_figures=_steel_figures(found),
        confidence=f"{100.0 * found.option('confidence'):.0f} %",
    )


def _answer(found: ComparisonFile) -> tuple[str, list[str]]:
    names = [one.name for one in found.crossings]
    rankings = [found.ranking(i) for i in range(len(names))]
    best: Counter[str] = Counter()
    for k in range(len(found.criteria)):
        first = [names[i] for i in range(len(names)) if rankings[i][k].rank == 1]
        if len(first) < len(names):  # a criterion all share says nothing
            best.update(first)
    told = sum(
        1 for k in range(len(found.criteria)) if any(rankings[i][k].rank != 1 for i in range(len(names)))
    )
    if not best:
        return "By these criteria the crossings are alike.", found.texts("dependence")
    leader, count = best.most_common(1)[0]
    if count == told:
        headline = f"“{leader}” is best by all {told} criteria that tell the crossings apart."
    else:
        parts = ", ".join(f"“{name}” by {number_of}" for name, number_of in best.most_common())
        headline = f"No crossing is best by every criterion: {parts} of {told}."
    last: Counter[str] = Counter()
    for k in range(len(found.criteria)):
        ranks = [rankings[i][k].rank for i in range(len(names))]
        behind = [name for name, rank in zip(names, ranks, strict=True) if rank == max(ranks)]
        if max(ranks) > 1 and len(behind) == 1:
            last.update(behind)
    sentences = [f"“{name}” is last by {number_of} of {told}." for name, number_of in last.most_common(1)]
    return headline, [*sentences, *found.texts("dependence")]


def _ranking(found: ComparisonFile) -> list[tuple[str, str, str, list[_Ranked]]]:
    rows = []
    rankings = [found.ranking(i) for i in range(len(found.crossings))]
    for k, criterion in enumerate(found.criteria):
        row = [ranked[k] for ranked in rankings]
        size = max((abs(cell.value) for cell in row if math.isfinite(cell.value)), default=0.0)
        decimals = fine_decimals(size) if _is_steel(found, criterion.key) else _decimals(size)
        alike = all(cell.rank == 1 for cell in row)  # then nothing is best, and no place is near the next
        cells = [
            _Ranked(number(cell.value, decimals), cell.rank, not alike and cell.rank == 1, not alike and cell.apart is False)
            for cell in row
        ]
        rows.append((criterion.label, unit(criterion.unit), found.better[k], cells))
    return rows


def _is_steel(found: ComparisonFile, key: str) -> bool:
    """Whether a criterion or difference is of the steel: its key begins with that of its quantity, unit left out."""
    return any(key.startswith(one.key.removesuffix("_index")) for one in found.steel_quantities)


def _differences(found: ComparisonFile, *, of_steel: bool = False) -> list[_Differing]:
    others = [found.differences(i) for i in range(1, len(found.crossings))]
    rows = []
    for k, first in enumerate(others[0] if others else []):
        if _is_steel(found, first.named.key) != of_steel:
            continue
        cells = []
        for other in others:
            row = other[k]
            size = max(abs(row.low), abs(row.high), abs(row.value))
            decimals = fine_decimals(size) if of_steel else _decimals(size)
            interval = f"{signed(row.low, decimals)} to {signed(row.high, decimals)}"
            cells.append((signed(row.value, decimals), interval if math.isfinite(row.low) else "–", row.apart))
        rows.append(_Differing(first.named.label, unit(first.named.unit), cells))
    return rows


def _groups(found: ComparisonFile) -> list[tuple[str, str, list[str]]]:
    names = [one.name for one in found.crossings]
    rows = []
    for g, (_, name, share) in enumerate(found.groups):
        rankings = [found.group_ranking(g, i) for i in range(len(names))]
        first = []
        for k in range(len(found.criteria)):
            leaders = [names[i] for i in range(len(names)) if rankings[i][k].rank == 1]
            first.append("alike" if len(leaders) == len(names) else ", ".join(leaders))
        rows.append((name, f"{100.0 * share:.0f} %", first))
    return rows


def _shares(found: ComparisonFile) -> list[tuple[str, list[str]]]:
    told = {
        "early": f"transfer early, where the nose is thinner than {found.option('thin_nose_mm'):.0f} mm",
        "lost_contact": "lose contact",
        "no_transfer": "never change over between wing and nose (of all wheels)",
        "failed": "could not be computed (of all wheels)",
    }
    return [
        (text, [f"{100.0 * one.share(name):.1f} %" for one in found.crossings]) for name, text in told.items()
    ]


class _Steel(NamedTuple):
    label: str
    unit: str
    cells: list[tuple[str, str]]  # median and 95 % of the wheels, per crossing


def _steel(found: ComparisonFile) -> list[_Steel]:
    rows = []
    for place, named in enumerate(found.quantities):
        if named not in found.steel_quantities:
            continue
        middle = [float(one.column("statistics/q50")[place]) for one in found.crossings]
        high = [float(one.column("statistics/q95")[place]) for one in found.crossings]
        decimals = fine_decimals(max((abs(value) for value in [*middle, *high] if math.isfinite(value)), default=0.0))
        cells = [(number(m, decimals), number(h, decimals)) for m, h in zip(middle, high, strict=True)]
        rows.append(_Steel(named.label, unit(named.unit), cells))
    return rows


def _steel_shares(found: ComparisonFile) -> list[tuple[str, list[str]]]:
    if not found.steels:
        return []
    told = {
        "beyond_shakedown": "beyond elastic shakedown",
        "beyond_surface_flow": "with a surface fatigue index above 0",
    }
    return [
        (text, [f"{100.0 * one.share(name):.1f} %" for one in found.crossings]) for name, text in told.items()
    ]


def _population(found: ComparisonFile) -> list[tuple[str, str]]:
    count = found.members("share").size
    compared = int(np.sum(found.members("compared") > 0.5))
    effective = found.option("effective_count")
    rows = [("wheels", f"{count}, of which {compared} could be compared on all crossings")]
    if math.isfinite(effective):
        rows.append(("as good as", f"{effective:.0f} wheels of equal weight"))
    classes = found.data.texts.get("classes/name", [])
    shares = found.data.column("classes/share", len(classes))
    rows.append(("classes", ", ".join(f"{name} {100.0 * share:.0f} %"
                                      for name, share in zip(classes, shares, strict=True))))  # fmt: skip
    for key, label, of in (("speed_km_h", "speed", "km/h"), ("static_load_kN", "static wheel load", "kN"),
                           ("lateral_offset_mm", "lateral offset", "mm")):  # fmt: skip
        values = found.members(key)
        values = values[np.isfinite(values)]
        if values.size:
            rows.append((label, f"{number(float(values.min()))} to {number(float(values.max()))} {of}"))
    return rows


def _figures(found: ComparisonFile) -> list[Figure]:
    names = ", ".join(one.name for one in found.crossings)

    def half(name: str, draw: Callable[[Axes], Axes], alternative: str, caption: str) -> Figure:
        return figure(draw, name, alternative, caption, (4.9, 3.1), wide=False)

    def medians(key: str) -> str:
        place = next((i for i, one in enumerate(found.quantities) if one.key == key), None)
        if place is None:
            return names
        told = [f"{one.name} {number(float(one.column('statistics/q50')[place]))}" for one in found.crossings]
        return f"medians {', '.join(told)} {found.quantities[place].unit}"

    drawn = [
        half("fig-paths", partial(plot.paths, found), f"Height of a wheel against station on {names}.",
             f"Path of one wheel{_typical(found)} over each crossing"),
        half("fig-envelopes", partial(plot.envelopes, found), f"Total force against station on {names}.",
             "Force against station: median of the wheels, band from 5 to 95 %"),
        half("fig-transfers", partial(plot.transfers, found),
             f"Histogram of nose thickness at transfer: {medians('nose_thickness_at_transfer_mm')}.",
             "Where over the nose the wheels transfer"),
        half("fig-nose-load", partial(plot.nose_load, found), f"Force on the nose against its thickness on {names}.",
             "Load carried at each nose thickness: mean over the wheels; thin line: 95 % of the largest"),
        half("fig-p2", partial(plot.cumulative, found, "p2_kN"), f"Cumulative curves of P2: {medians('p2_kN')}.",
             "P2, share of wheels at or below"),
        half("fig-peak", partial(plot.cumulative, found, "peak_nose_kN"),
             f"Cumulative curves of the largest force on the nose: {medians('peak_nose_kN')}.",
             "Largest force on the nose, share of wheels at or below"),
    ]  # fmt: skip
    if len(found.crossings) > 1:
        drawn.append(
            figure(partial(plot.differences, found), "fig-differences",
                   f"Differences to {found.crossings[0].name} with intervals, criterion by criterion; the table below "
                   "has the numbers.",
                   f"Differences to “{found.crossings[0].name}” in per cent of it; full circle: the interval leaves "
                   "out 0. Shares in percentage points", (7.6, 0.6 + 0.34 * len(found.criteria)), wide=True)
        )  # fmt: skip
    return drawn


def _steel_figures(found: ComparisonFile) -> list[Figure]:
    shown = {"shakedown_exceedance", "surface_fatigue_index", "t_gamma_N", "wear_volume_mm3"}
    names = ", ".join(one.name for one in found.crossings)
    return [
        figure(partial(plot.cumulative, found, named.key), f"fig-steel-{place}",
               f"Cumulative curves of {named.label} over the wheels on {names}.",
               f"{sentence(named.label)}, share of wheels at or below", (4.9, 3.1), wide=False)
        for place, named in enumerate(found.steel_quantities) if named.key in shown
    ]  # fmt: skip


def _typical(found: ComparisonFile) -> str:
    members, reasons = found.data.column("paths/member"), found.data.texts.get("paths/reason", [])
    if not reasons:
        return ""
    return f" ({found.data.texts['members/name'][int(members[0])]}, {reasons[0]})"


def _decimals(value: float) -> int:
    size = abs(value)
    return 1 if not math.isfinite(size) or size >= 20.0 else 2 if size >= 1.0 else 3
