"""The report of a vehicle in space through a turnout."""

from __future__ import annotations

import math
from functools import partial

import xarray as xr

from .. import plot, quantities
from .._reading import Source, has, node, number as single, read, taken, texts, title, unit
from ._inputs import assumptions, provenance
from ._page import (
    Answer, Figure, Figures, Head, Row, Section, Table, Words, figure, left, number, printed_columns, render,
    side_by_side,
)  # fmt: skip

_READING = [
    "Means over 2 m (EN 14363) are named so. Y/Q beside Nadal and the sum of Y beside Prud'homme are indices; neither is "
    "a verdict on derailment or on the track.",
    "Rails are masses that run along under the wheels: P1, P2 and peaks at the crossing are not available on this rung.",
    "Forces on the check rail go about with the root of its stiffness: read them as a band.",
]


def ride(source: Source) -> str:
    """Report of :func:`wingnose.run` for a case with ``case.rung = "spatial"``, or its file; see
    :mod:`wingnose.report`."""
    found = taken(source, "turnout_ride")
    vehicle, way = (texts(found, f"ride/{key}")[0] for key in ("vehicle", "way"))
    about = f"{vehicle} on the {way} route at {number(single(found, 'ride/speed_km_h'))} km/h"
    sections = [
        Section("figures", "Through the crossing", [Figures(_figures(found))]),
        Section("wheelsets", "Wheelset by wheelset",
                [side_by_side(path, printed_columns(node(found, path)), str(node(found, path).attrs["title"]) + ".")
                 for path in ("wheelset", "check_rail") if has(found, path)]),
        Section("measures", "All numbers, of the worst wheelset", [_measures(found)]),
        Section("reading", "How to read this, and what is not said", [Words(_READING)], small=True, together=True),
        assumptions(found),
        provenance(found),
    ]  # fmt: skip
    return render(f"A vehicle through a turnout: {found.attrs['name']}", [about], _answer(found), found, sections)


def _answer(found: xr.DataTree) -> Answer:
    margin, peak = single(found, "measures/nose_margin_mm"), single(found, "measures/check_peak_kN")
    least, most = (single(found, f"measures/check_peak_{end}_kN") for end in ("least", "most"))
    check = (f"The check rail takes up to {number(peak)} kN, {number(least)} to {number(most)} kN over its stiffness."
             if math.isfinite(peak) else "Nothing touches the check rail.")  # fmt: skip
    y = (f"Y/Q {number(single(found, 'measures/Y_over_Q_2m'), 2)} (2 m means), Nadal "
         f"{number(single(found, 'measures/nadal_Y_over_Q'), 2)}; sum of Y "
         f"{number(single(found, 'measures/sum_of_Y_2m_kN'))} kN (2 m mean), "
         f"{number(single(found, 'measures/sum_of_Y_over_prudhomme_2m'), 2)} of Prud'homme.")  # fmt: skip
    clear = f"Flanges stay {number(margin)} mm off the nose" if margin >= 0 else "A flange reaches the nose"
    return Answer("open" if not margin < 0 else "broken", clear if math.isfinite(margin) else "No margin at the nose is known",
                  [check, y])  # fmt: skip


def _figures(found: xr.DataTree) -> list[Figure]:
    shown = [
        figure(partial(plot.ride_plan, found), "fig-plan", "Plan: running edges, check rail, flanges of the leading wheelset.",
               "The leading wheelset in plan, each side about its own gauge line", "wide"),
        figure(partial(plot.guiding_forces, found, force="Y", mean=2.0), "fig-y", "Y of every wheel against the station.",
               "Y outward, 2 m means; other side dashed", "half"),
        figure(partial(plot.guiding_forces, found, force="Q", mean=2.0), "fig-q", "Q of every wheel against the station.",
               "Q, 2 m means; other side dashed", "half"),
        figure(partial(plot.contacts_on_wheel, found), "fig-contacts", "Places of contacts on the wheels of the leading wheelset.",
               "Where the leading wheels are touched", "half", 4.2),
    ]  # fmt: skip
    stations: list[float] = list(read(found, "sections/station_m")) if has(found, "sections/station_m") else []
    for place in range(max(0, len(stations) - 3), len(stations)):
        at = f"{1e3 * stations[place]:.0f} mm"
        shown.append(figure(partial(plot.ride_section, found, section=place), f"fig-section-{place}",
                            f"Cross-section at {at}: bodies and the leading wheel on the crossing's side.", f"Crossing side at {at}", "half"))  # fmt: skip
    return shown


def _measures(found: xr.DataTree) -> Table:
    told = []
    for key, one in quantities.items():
        if has(found, f"measures/{key}") and math.isfinite(single(found, f"measures/{key}")):
            told.append(Row([title(one.label), number(single(found, f"measures/{key}"), one.decimals),
                             unit(one.unit), one.meaning]))  # fmt: skip
    return Table("measures", [*left("Measure"), Head("Value"), *left("Unit", "Meaning")], told)
