"""The report of a speed study."""

from __future__ import annotations

import math
from functools import partial

import numpy as np
import xarray as xr

from .. import plot, quantities
from .._reading import (
    Limit, Source, has, limits_of, node, number as single, over_speeds, read, rows, taken, texts, title, unit, variable,
)  # fmt: skip
from ._inputs import assumptions, key_inputs, provenance
from ._page import (
    Answer, Block, Cell, Entry, Figure, Figures, Groups, Head, Row, Section, Table, Words, column, figure, km_h, left,
    number, printed_columns, prose, render, side_by_side, signed,
)  # fmt: skip

# Rows of the table of speeds; of a longer study every second, third, ... speed is shown.
_ROWS = 26
# P2 and the closed forms beside it come first.
_FORCES = ("p2_dynamic_factor", "peak_total_kN", "dynamic_factor", "peak_nose_kN", "peak_wing_kN", "first_peak_kN",
           "minimum_force_kN", "lost_contact_ms")  # fmt: skip


def speeds(source: Source) -> str:
    """Report of :func:`wingnose.study.speeds` or the file ``wingnose speeds`` stored; see :mod:`wingnose.report`."""
    study = taken(source, "speeds")
    speed = over_speeds(study, "p2_kN")["speed_km_h"].values
    static = over_speeds(study, "static_load_kN").values
    load = float(static[np.isfinite(static)][0]) if np.any(np.isfinite(static)) else math.nan
    today, proposed = (single(study, f"change/{name}_km_h") for name in ("today", "proposed"))
    span = f"{number(float(speed[0]), 0)} to {number(float(speed[-1]), 0)} km/h"
    asked = f", today {number(today, 0)} km/h, proposed {number(proposed, 0)} km/h" if math.isfinite(today) else ""
    steel = [key for key, one in quantities.items() if one.of_steel and one.compared]
    change: list[Block] = []
    if texts(study, "change/quantity"):
        change.append(side_by_side("change", printed_columns(node(study, "change"))))
    sections = [
        Section("limits", "Limits asked for", [_limits(study)], together=True),
        Section("figures", "Force against speed", [Figures(_figures(study, span))]),
        Section("change", node(study, "change").attrs["title"], change, together=True),
        Section("speeds", "Forces at each speed", [_table(study, "speeds", ("p2_kN", *_FORCES))]),
        Section("steel", node(study, "steel").attrs["title"] if has(study, "steel") else "", [
            Words(["One wheel over new steel, largest values over wing and nose."], "p"),
            Figures(_steel_figures(study, span, steel)),
            _table(study, "steel", steel),
        ] if has(study, "steel") else []),
        Section("inputs", "What was computed", [Groups([*key_inputs(study, load, span), *_geometry(study)])]),
        assumptions(study),
        provenance(study),
    ]  # fmt: skip
    heading = f"{'Speed increase' if asked else 'Speed study'}: {study.attrs['name']}"
    return render(heading, [f"Forces over {speed.size} speeds from {span}{asked}"], _answer(study), study, sections)


def _answer(study: xr.DataTree) -> Answer:
    limits, outcome = limits_of(study), texts(study, "permissible/outcome")[0]
    sentences, tone = [], {"found": "kept", "broken_at_lowest": "broken"}.get(outcome, "open")
    if not limits:
        return Answer("open", "No limit was given, so no highest speed is answered.", _proposal(study, limits))
    if outcome == "not_reached":
        sentences.append("The limits are not reached in the range: how much more they would allow was not looked for.")
    elif outcome == "unanswered":
        governing = limits[int(single(study, "permissible/governing_limit"))]
        sentences.append(f"{title(governing.text)} was held against nothing: it is neither kept nor broken.")
    else:
        place = int(single(study, "permissible/governing_limit"))
        governing = limits[place]
        why = "it is broken above that speed" if outcome == "found" else "no highest speed can be answered"
        if read(study, "limits/first_broken_computed")[place] == 0.0:
            why += "; where it is broken first a passage is grave or could not be computed"
        sentences.append(f"{title(governing.text)} ({governing.source or 'source not named'}) governs: {why}.")
    sentences += _proposal(study, limits)
    sentences += [
        f"{title(limit.text)} is not monotone in speed: broken at {number(limit.first_broken, 1)} km/h, "
        f"kept again at {limit.kept_again} km/h. Only the speed below the first break is answered."
        for limit in limits
        if limit.kept_again
    ]
    proposed = single(study, "change/proposed_km_h")
    if math.isfinite(proposed) and _broken_at(study, limits, proposed):
        tone = "broken"
    return Answer(tone, prose(texts(study, "permissible/answer")[0]), sentences)


def _proposal(study: xr.DataTree, limits: list[Limit]) -> list[str]:
    today, proposed = (single(study, f"change/{name}_km_h") for name in ("today", "proposed"))
    if not math.isfinite(proposed):
        return []
    changes = {key: (before, after, percent) for key, before, after, percent in
               rows(study, "change", "quantity", "today", "proposed", "difference_percent")}  # fmt: skip
    p2, change = changes.get("p2_kN"), ""
    if p2 is not None and math.isfinite(p2[0]):
        change = (f" From {number(today, 0)} to {number(proposed, 0)} km/h P2 changes from {number(p2[0])} to "
                  f"{number(p2[1])} kN ({signed(p2[2], 0)}\N{NO-BREAK SPACE}%).")  # fmt: skip
    at = f"The proposed {number(proposed, 0)} km/h"
    found = _broken_at(study, limits, proposed)
    first = min((limit.first_broken for limit in limits if math.isfinite(limit.first_broken)), default=math.inf)
    if not limits:
        said = [change.strip()] if change else []
    elif found:
        said = [f"{at} breaks " + " and ".join(limit.text for limit in found) + f".{change}"]
    elif proposed < first - 1e-6:
        answered = "all limits" if all(limit.outcome != "unanswered" for limit in limits) else "the limits answered"
        said = [f"{at} keeps {answered}.{change}"]
    elif has(study, "failures/reason") or "grave" in texts(study, "findings/gravity"):
        why = "a passage at it, or at a lower speed, is grave or could not be computed"
        said = [f"{at} is not permitted: {why}.{change}"]
    else:
        said = [f"{at} itself keeps all limits, but a lower speed does not.{change}"]
    below = [f"{key.split('/', 1)[1].removesuffix('/p2_kN')} {number(after)} kN" for key, (_, after, _) in changes.items()
             if key.startswith("closed_form/") and p2 is not None and after < 0.97 * p2[1]]  # fmt: skip
    if below and p2 is not None and "closed_form_allows_more" not in texts(study, "findings/kind"):
        said.append(f"At the proposed {number(proposed, 0)} km/h the closed forms lie below the simulated P2 of "
                    f"{number(p2[1])} kN: {', '.join(below)}.")  # fmt: skip
    return said


def _broken_at(study: xr.DataTree, limits: list[Limit], speed: float) -> list[Limit]:
    """Limits whose quantity is beyond them at a scanned speed (km/h)."""
    place = int(np.argmin(np.abs(over_speeds(study, "p2_kN")["speed_km_h"].values - speed)))
    return [limit for limit in limits if limit.broken_by(_limited(study, limit.key, place))]


def _limited(study: xr.DataTree, key: str, place: int) -> float:
    """A limited quantity at a scanned speed; the dip angle belongs to the wheel path and is the same at all."""
    if has(study, f"measures/{key}"):
        return single(study, f"measures/{key}")
    return float(over_speeds(study, key).values[place])


def _limits(study: xr.DataTree) -> Table | Words:
    outcomes = {"not_reached": "not reached in the range", "broken_at_lowest": "broken at the lowest speed",
                "unanswered": "unanswered: no passage has it"}  # fmt: skip
    told = [
        Row([title(limit.text), limit.source or "source not named",
             outcomes.get(limit.outcome, f"kept up to {km_h(limit.speed)} km/h"),
             "; ".join(f"{track}: {km_h(speed)} km/h" for track, speed in limit.closed_forms.items()) or "–"])
        for limit in limits_of(study)
    ]  # fmt: skip
    heads = left("Limit", "Source", "Simulated passages", "Closed forms")
    return Table("limits", heads, told) if told else Words(["None."], "p")


def _table(study: xr.DataTree, name: str, keys: tuple[str, ...] | list[str]) -> Table:
    """Measures over the speeds, those that exist, with a star where one breaks its limit."""
    limits = limits_of(study)
    shown = [over_speeds(study, key) for key in keys if np.any(np.isfinite(over_speeds(study, key).values))]
    columns = {str(one.name): column(one) for one in shown}
    tracks = texts(study, "lumped_track") if name == "speeds" else []
    p2 = variable(study, "closed_form/p2_kN")
    closed = {track: column(p2[:, i], f"P2 {track}") for i, track in enumerate(tracks)}
    columns = {**{key: columns[key] for key in list(columns)[:1]}, **closed, **columns}
    speed, marks = read(study, f"{name}/speed_km_h"), texts(study, "speeds/mark")
    stride = max(1, math.ceil(speed.size / _ROWS))
    told = []
    for i, (at, mark) in enumerate(zip(speed, marks, strict=True)):
        if i % stride and not mark and i != speed.size - 1:
            continue
        broken = {limit.key for limit in limits if limit.broken_by(_limited(study, limit.key, i))}
        cells = [Cell(f"{cells[i]} *", "broken") if key in broken else cells[i] for key, (_, cells) in columns.items()]
        told.append(Row([f"{at:.4g}\N{NO-BREAK SPACE}{mark}".strip(), *cells], bool(mark)))
    left_out = speed.size - len(told)
    foot = [f"P2 {', P2 '.join(tracks)}: closed forms by the track they rest on." if tracks else "",
            "* breaks a limit." if limits else "",
            f"{left_out} speeds in between are left out here; the file holds all." if left_out else ""]  # fmt: skip
    heads = [Head("speed", "km/h", left=True), *(head for head, _ in columns.values())]
    return Table(name, heads, told, " ".join(filter(None, foot)))


def _course(study: xr.DataTree, key: str, span: str) -> str:
    """A measure over the speeds in words."""
    one = over_speeds(study, key)
    if not np.any(np.isfinite(one.values)):
        return f"Line chart over {span}: no values of {one.long_name}."
    of, decimals = unit(one.attrs["units"]), int(one.attrs["decimals"])
    first, last, most = (f"{number(float(value), decimals)} {of}".strip()
                         for value in (one.values[0], one.values[-1], np.nanmax(one.values)))  # fmt: skip
    return f"Line chart over {span}: {one.long_name} from {first} to {last}, largest {most}."


def _figures(study: xr.DataTree, span: str) -> list[Figure]:
    forms = zip(texts(study, "lumped_track"), read(study, "closed_form/p2_kN").T, strict=True)
    closed = "; ".join(f"closed form {track} from {number(float(values[0]))} to {number(float(values[-1]))} kN"
                       for track, values in forms)  # fmt: skip
    nose = has(study, "speeds/peak_nose_kN") and np.any(np.isfinite(over_speeds(study, "peak_nose_kN").values))
    peaks = ["peak_nose_kN", "peak_wing_kN"] if nose else ["peak_total_kN"]
    gaps = "" if np.all(np.isfinite(over_speeds(study, "p2_kN").values)) else " Gaps are speeds without a value."
    return [
        figure(partial(plot.force_against_speed, study), "fig-p2", f"{_course(study, 'p2_kN', span)} {closed}.",
               "P2 of the simulated passages with the closed forms beside it. Limits as lines across; today's and the "
               f"proposed speed as lines upright.{gaps}", "wide"),
        figure(partial(plot.dynamic_factor_against_speed, study), "fig-factor", _course(study, "dynamic_factor", span),
               "Force over static load", ""),
        figure(partial(plot.against_speed, study, peaks), "fig-peaks", _course(study, peaks[0], span),
               "Largest force on " + ("nose and wing" if nose else "the rail"), ""),
        figure(partial(plot.lost_contact_against_speed, study), "fig-lost", _course(study, "lost_contact_ms", span),
               "Time without any contact", ""),
    ]  # fmt: skip


def _steel_figures(study: xr.DataTree, span: str, keys: list[str]) -> list[Figure]:
    # The largest crack damage is that of its function as soon as T-gamma passes it.
    return [
        figure(partial(plot.against_speed, study, [key]), f"fig-steel-{place}", _course(study, key, span),
               title(over_speeds(study, key).long_name), "")
        for place, key in enumerate(keys) if key != "crack_damage_1e_6"
    ]  # fmt: skip


def _geometry(study: xr.DataTree) -> list[tuple[str, list[Entry]]]:
    keys = ("transfer_station_mm", "nose_thickness_at_transfer_mm", "dip_depth_mm", "dip_angle_mrad")
    told = [study[f"measures/{key}"] for key in keys if math.isfinite(single(study, f"measures/{key}"))]
    entries = [Entry(one.long_name, f"{number(float(one), int(one.attrs['decimals']))} {one.attrs['units']}")
               for one in told]  # fmt: skip
    return [("Wheel path", entries)] if entries else []
