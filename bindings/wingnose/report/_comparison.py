"""The report of a comparison of crossings."""

from __future__ import annotations

import math
from collections import Counter
from functools import partial

import numpy as np
import xarray as xr
from numpy.typing import NDArray

from .. import plot, quantities
from .._reading import Source, has, node, number as single, read, rows, taken, texts, title, unit, variable
from ._inputs import as_asked_for, assumptions, entry, provenance
from ._page import (
    Answer, Block, Cell, Entries, Entry, Figure, Figures, Head, Row, Section, Table, Words, figure, fine_decimals, left,
    number, printed, prose, render,
)  # fmt: skip

# Curves drawn of the steel.
_CURVES = ("shakedown_exceedance", "surface_fatigue_index", "t_gamma_N", "wear_volume_mm3")


def comparison(source: Source) -> str:
    """Report of :func:`wingnose.study.compare` or the file ``wingnose compare`` stored; see :mod:`wingnose.report`."""
    found = taken(source, "comparison")
    names = texts(found, "crossing")
    steel = [key for key in texts(found, "quantity") if quantities[key].of_steel]
    resamples, seed = (single(found, f"about/{key}") for key in ("resamples", "seed"))
    differences, of_steel = (_differences(found, names, steel=which) for which in (False, True))
    sections = [
        Section("ranking", "Ranking", [_ranking(found, names)], together=True),
        Section("figures", "Figures", [Figures(_figures(found, names))]),
        Section("differences", f"Differences to “{names[0]}”", differences, together=True),
        Section("steel", "What the landing does to the steel", [
            Words(["Each wheel over new steel, largest values and sums over wing and nose: the median of the wheels, "
                   "in brackets their 95 %."], "p"),
            _steel(found, names, steel),
            Figures([_curves(found, names, key, f"fig-{key}") for key in steel if key in _CURVES]),
            *of_steel,
        ] if steel else []),
        Section("groups", "What the ranking depends on: the best crossing for some of the wheels",
                _groups(found, names), together=True),
        Section("population", "Wheels", [Entries(_population(found))], small=True),
        *([assumptions(found)] if steel else []),
        provenance(found, Entry("Bootstrap", f"{resamples:.0f} resamples, seed {seed:.0f}"),
                   *map(Entry, names, texts(found, "case/of_crossing/name"))),
        as_asked_for(found, "case/text", "The comparison as asked for"),
    ]  # fmt: skip
    about = [f"Every wheel of one population over every crossing; the reference is “{names[0]}”"]
    return render(f"Comparison of crossings: {', '.join(names)}", about, _answer(found, names), found, sections)


def _answer(found: xr.DataTree, names: list[str]) -> Answer:
    places, apart = read(found, "ranking/place_of"), read(found, "ranking/apart_from_next")
    # A criterion by which all are alike, or the best lies within the spread of the next, tells no best.
    told = [row for row, clear in zip(places, apart, strict=True)
            if np.any(row != 1.0) and clear[np.sum(row == 1.0) - 1] == 1.0]  # fmt: skip
    best = Counter(names[i] for row in told for i in np.flatnonzero(row == 1.0))
    last = Counter(names[np.argmax(row)] for row in told if row.max() > 1.0 and np.sum(row == row.max()) == 1)
    sentences = [prose(text) for text in texts(found, "dependence/sentence")]
    dropped = single(found, "about/dropped_share")
    if dropped > 0.0:
        sentences.append(f"Not compared are {100.0 * dropped:.1f} % of the wheels, grave or without an answer; the "
                         "ranking tells beside each value the one with them as the worst.")  # fmt: skip
    if not best:
        return Answer("open", "By these criteria no crossing is better than the next beyond the spread.", sentences)
    leader, count = best.most_common(1)[0]
    parts = ", ".join(f"“{name}” by {number_of}" for name, number_of in best.most_common())
    headline = f"No crossing is best by every criterion: {parts} of the {len(told)} that tell a best."
    if count == len(told):
        headline = f"“{leader}” is best by all {count} criteria that tell a best."
    behind = [f"“{name}” is last by {number_of} of {len(told)}." for name, number_of in last.most_common(1)]
    return Answer("open", headline, [*behind, *sentences])


def _ranking(found: xr.DataTree, names: list[str]) -> Table:
    ranking = node(found, "ranking")
    values, worst = read(ranking, "value"), read(ranking, "worst_value")
    both = bool(np.any(np.isnan(worst) != np.isnan(values)) or np.any(np.abs(worst - values) > 1e-12 * np.abs(values)))
    told = []
    criteria = rows(found, "ranking", "criterion", "key", "value_unit", "better")
    for k, (words, key, of, better) in enumerate(criteria):
        places, apart = (read(ranking, name)[k] for name in ("place_of", "apart_from_next"))
        decimals = next((one.decimals for name, one in quantities.items() if key.startswith(name)), 1)
        alike = np.all(places == 1.0)  # then nothing is best, and no place is near the next
        in_list = np.argsort(np.argsort(places, kind="stable"))  # best first, as apart_from_next has them
        cells = []
        for i in range(len(names)):
            unsure = not alike and apart[in_list[i]] == 0.0
            text = f"{number(values[k, i], decimals)} ({number(places[i], 0)}{'≈' if unsure else ''})"
            with_them = f"{number(worst[k, i], decimals)} ({number(read(ranking, 'worst_place_of')[k, i], 0)})"
            below = with_them if math.isfinite(worst[k, i]) else "no bound"
            cells.append(Cell(text, "best" if places[i] == 1.0 and not alike else "", f"worst {below}" if both else ""))
        told.append(Row([words.removesuffix(f" ({of})"), unit(of), better, *cells]))
    heads = [*left("Criterion", "Unit", "Better"), *map(Head, names)]
    foot = (f"In brackets: the place. ≈: not apart from the next place, the {_confidence(found)} interval of the "
            "difference holds 0.")  # fmt: skip
    if both:
        foot += (" Worst: over all wheels, those with a grave finding and those without an answer counted as the worst; "
                 "no bound: they could make it as bad as one likes.")  # fmt: skip
    return Table("ranking", heads, [*told, *_shares(node(found, "crossings"), 2)], foot)


def _shares(node: xr.DataTree, empty: int) -> list[Row]:
    """Shares of the wheels, per crossing, with what they are shares of; so many cells are empty before them."""
    return [Row([str(one.description), *[""] * empty, *(f"{value:.1f} %" for value in one.values)])
            for name, one in node.data_vars.items() if str(name).endswith("_percent")]  # fmt: skip


def _differences(found: xr.DataTree, names: list[str], *, steel: bool) -> list[Block]:
    ofs = [one.key.removesuffix("_index") for one in quantities.values() if one.of_steel]
    told: dict[str, Row] = {}
    for i in range(1, len(names)):
        columns = ("key", "label", "value_unit", "difference_text", "low_text", "high_text", "low", "high")
        for key, words, of, value, low, high, least, most in rows(found, f"differences/crossing_{i}", *columns):
            if any(key.startswith(one) or key.startswith("beyond_") for one in ofs) != steel:
                continue
            interval = f"{printed(low)} to {printed(high)}" if math.isfinite(least) else "–"
            cell = Cell(printed(value), "best" if least > 0.0 or most < 0.0 else "", interval)
            told.setdefault(key, Row([words, unit(of)])).cells.append(cell)
    if not told:
        return []
    heads = [*left("Quantity", "Unit"), *(Head(name, f"{_confidence(found)} interval") for name in names[1:])]
    foot = "Wheel by wheel on the same wheels. Heavy: the interval leaves out 0."
    return [Table("steel-differences" if steel else "differences", heads, list(told.values()), foot)]


def _steel(found: xr.DataTree, names: list[str], keys: list[str]) -> Table:
    told = []
    for key in keys:
        middle, high = (_statistic(found, key, which) for which in ("q50", "q95"))
        digits = fine_decimals(max((abs(value) for value in [*middle, *high] if math.isfinite(value)), default=0.0))
        cells = [f"{number(m, digits)} ({number(h, digits)})" for m, h in zip(middle, high, strict=True)]
        told.append(Row([quantities[key].label, unit(quantities[key].unit), *cells]))
    of = node(found, "steel")
    grades = [f"{name}, {friction:.2f}" for name, friction in rows(found, "steel", "name", "friction")]
    told += [*_shares(of, 1), Row(["steel of wing and nose, friction", "", *grades])]
    return Table("steel", [*left("Under one wheel", "Unit"), *map(Head, names)], told)


def _groups(found: xr.DataTree, names: list[str]) -> list[Block]:
    told = rows(found, "groups", "name", "share") if has(found, "groups/name") else []
    if not told:
        return []
    lines = []
    for k, (words, of) in enumerate(rows(found, "ranking", "criterion", "value_unit")):
        cells = []
        for g in range(len(told)):
            leaders = np.flatnonzero(read(found, "ranking/groups/place_of")[g, k] == 1.0)
            cells.append("alike" if leaders.size == len(names) else ", ".join(names[i] for i in leaders))
        lines.append(Row([words.removesuffix(f" ({of})"), *cells]))
    heads = [Head(name, f"{100.0 * share:.0f} % of the wheels", left=True) for name, share in told]
    return [Table("groups", [*left("Criterion"), *heads], lines)]


def _population(found: xr.DataTree) -> list[Entry]:
    count, compared, effective = (single(found, f"about/{key}")
                                  for key in ("wheels", "wheels_compared", "effective_count"))  # fmt: skip
    entries = [Entry("wheels", f"{count:.0f}, of which {compared:.0f} could be compared on all crossings")]
    if math.isfinite(effective):
        entries.append(Entry("as good as", f"{effective:.0f} wheels of equal weight"))
    classes = rows(found, "classes", "name", "share_percent")
    entries.append(Entry("classes", ", ".join(f"{name} {share:.0f} %" for name, share in classes)))
    for key, one in node(found, "wheels").data_vars.items():
        if one.attrs.get("units", "-") != "-" and np.any(np.isfinite(one.values)):
            low, high = number(float(np.nanmin(one.values))), number(float(np.nanmax(one.values)))
            entries.append(entry(str(key), f"{low} to {high}", one.units))
    return [*entries, Entry("a thin nose", f"thinner than {number(single(found, 'about/thin_nose_mm'))} mm")]


def _statistic(found: xr.DataTree, key: str, which: str) -> list[float]:
    """A statistic of a quantity, crossing by crossing."""
    values: NDArray[np.float64] = variable(found, f"statistics/{key}").sel(statistic=which).values
    return [float(value) for value in values]


def _medians(found: xr.DataTree, names: list[str], key: str) -> str:
    one = quantities[key]
    medians = zip(names, _statistic(found, key, "q50"), strict=True)
    told = ", ".join(f"{name} {number(value, one.decimals)}" for name, value in medians)
    return f"medians {told} {unit(one.unit)}".rstrip()


def _figures(found: xr.DataTree, names: list[str]) -> list[Figure]:
    reasons, on = texts(found, "paths/reason"), ", ".join(names)
    typical = f" ({texts(found, 'wheels/name')[int(read(found, 'paths/wheel')[0])]}, {reasons[0]})" if reasons else ""
    drawn = [
        figure(partial(plot.paths, found), "fig-paths", f"Height of a wheel against station on {on}.",
               f"Path of one wheel{typical} over each crossing"),
        figure(partial(plot.envelopes, found), "fig-envelopes", f"Total force against station on {on}.",
               "Force against station: median of the wheels, band from 5 to 95 %"),
        figure(partial(plot.transfers, found), "fig-transfers",
               f"Histogram of nose thickness at transfer: {_medians(found, names, 'nose_thickness_at_transfer_mm')}.",
               "Where over the nose the wheels transfer"),
        figure(partial(plot.nose_load, found), "fig-nose-load", f"Force on the nose against its thickness on {on}.",
               "Load carried at each nose thickness: mean over the wheels; thin line: 95 % of the largest"),
        *(_curves(found, names, key, f"fig-{key}") for key in ("p2_kN", "peak_nose_kN")),
    ]  # fmt: skip
    if len(names) > 1:
        drawn.append(figure(
            partial(plot.differences, found), "fig-differences",
            f"Differences to {names[0]} with intervals, criterion by criterion; the table below has the numbers.",
            f"Differences to “{names[0]}” in per cent of it; full circle: the interval leaves out 0. Shares in percentage "
            "points", "wide", 0.6 + 0.34 * len(texts(found, "ranking/key"))))  # fmt: skip
    return drawn


def _curves(found: xr.DataTree, names: list[str], key: str, name: str) -> Figure:
    words = quantities[key].label
    return figure(partial(plot.cumulative, found, key), name,
                  f"Cumulative curves of {words}: {_medians(found, names, key)}.",
                  f"{title(words)}, share of wheels at or below")  # fmt: skip


def _confidence(found: xr.DataTree) -> str:
    return f"{100.0 * single(found, 'about/confidence'):.0f} %"
