"""The report of what a landing, or a traffic, does to the steel."""

from __future__ import annotations

import math
from functools import partial

import numpy as np
import xarray as xr

from .. import plot, quantities
from .._reading import Source, bodies_of, has, keys_of, node, number as single, read, rows, taken, texts, title, unit
from . import _damage_words as words
from ._inputs import as_asked_for, assumptions, key_inputs, provenance
from ._page import (
    Block, Cell, Entry, Figure, Figures, Groups, Head, Row, Section, Table, Words, column, figure, fine_decimals, left,
    number, printed_columns, render, side_by_side,
)  # fmt: skip

_READING = [
    "Shakedown exceedance above 1 and a surface fatigue index above 0 are conditions, met or not: the steel there"
    " yields with every such wheel until its shape has changed or it has hardened. Pressures are elastic: beyond "
    "the limit the real ones are lower.",
    "Wear and crack damage are rates of the shape as given. They rank shapes, steels and speeds; multiplied by a "
    "tonnage they forecast nothing.",
    "Not said: how long the crossing lasts, when it must be repaired, or how deep a crack grows; the shape after the "
    "steel has flowed or worn, and the lower pressures on that shape; residual stress, voids and defects of a casting "
    "or a weld, and cracks from below the surface; lateral motion, flange and check-rail contact, traction and braking.",
]
_LIMITS_FOOT = (
    "Of the limits of the steel the one passed by most governs. Times the limit: load factor over its elastic "
    "shakedown limit; for surface flow, traction coefficient times load factor. The limits of T-gamma are those "
    "of the crack function (Burstow 2004) for R260. Wear and friction energy have no limit: they are for "
    "comparison."
)
_RATES_FOOT = (
    "† Per wheel, a rate for a shape that does not change: good for comparison, no forecast. Nose thickness: "
    "between its gauge lines at that station, also for places on the wing."
)
_TRAFFIC_FOOT = (
    "† Added up over the wheels, or their mean, for a shape that does not change: a rate at which that shape "
    "begins to wear or crack, no forecast of what is found after this tonnage."
)


def damage(source: Source) -> str:
    """Report of :func:`wingnose.study.damage` or the file ``wingnose damage`` stored, with or without a traffic; see
    :mod:`wingnose.report`."""
    found = taken(source, "damage")
    load, speed = (single(found, f"measures/{key}") for key in ("static_load_kN", "speed_km_h"))
    inputs = [("Steel and rolling", _steel(found)), *_rolled(found), *key_inputs(found, load, f"{number(speed)} km/h")]
    sections = [
        Section("limits", "Against the limits: the case's own wheel over new steel", [_limits(found)], together=True),
        Section("figures", "Where the steel suffers", [Figures(_figures(found))]),
        Section("measures", "All measures of the case's own wheel", [_measures(found)]),
        Section("traffic", "What the traffic does", _traffic(found) if has(found, "traffic") else []),
        Section("reading", "How to read this, and what is not said", [Words(_READING)], small=True, together=True),
        Section("inputs", "What was computed", [Groups(inputs)]),
        assumptions(found),
        provenance(found),
        as_asked_for(found, "traffic/text", "The traffic as asked for"),
    ]
    heading = f"What the landing does to the steel: {found.attrs['name']}"
    return render(heading, [_asked(found)], words.answer(found), found, sections)


def _asked(found: xr.DataTree) -> str:
    keys = keys_of(found)
    wheel, speed = keys.get("wheel.profile", ""), keys.get("passage.speed_km_h", "")
    parts = [f"One wheel{f' {wheel}' if wheel else ''}{f' at {speed} km/h' if speed else ''}"]
    if has(found, "traffic"):
        parts.append(f"and {_plain(single(found, 'traffic/tonnage_MGT'))} MGT of {_kinds(found) or 'such wheels'}")
    friction = _plain(single(found, "steel/friction"))
    return f"{' '.join(parts)} over steel {texts(found, 'steel/name')[0]}, friction {friction}"


def _kinds(found: xr.DataTree) -> str:
    return f"{len(texts(found, 'traffic/population/name'))} kinds of wheels" if has(found, "traffic/classes") else ""


def _limits(found: xr.DataTree) -> Table:
    told = []
    for place, one in enumerate(words.limits(found)):
        of = " N" if one.measure == quantities["t_gamma_N"].label else ""
        largest = f"{number(one.value, fine_decimals(one.value))}{of}"
        told.append(Row([f"{title(one.label)}{'' if place else ' (governs)'}", one.measure,
                         Cell(largest, "broken" if one.broken else ""), f"{number(one.limit, 0)}{of}",
                         number(one.times, 2), title(words.spread(found, one.stretches)) or "nowhere"]))  # fmt: skip
    numbers = map(Head, ("Largest", "Limit", "Times the limit"))
    heads = [*left("Limit", "Measure"), *numbers, *left("Where it is passed")]
    return Table("limits", heads, told, _LIMITS_FOOT)


def _measures(found: xr.DataTree) -> Table:
    told = []
    for key, body, x, y in rows(found, "places", "key", "body", "station_mm", "y_mm"):
        one = quantities[key]
        where = [body, number(x, 0), number(y), number(words.nose_thickness(found, x))] if body else [""] * 4
        rate = " †" if key.startswith(("wear", "crack")) else ""
        told.append(Row([f"{title(one.label)}{rate}", _value(found, key), unit(one.unit), *where, one.meaning]))
    mm = [Head(text, "mm") for text in ("Station", "From track centre", "Nose thickness")]
    heads = [*left("Measure"), Head("Largest"), *left("Unit", "On"), *mm, *left("Meaning")]
    return Table("measures", heads, told, _RATES_FOOT)


def _value(found: xr.DataTree, key: str) -> str:
    value = single(found, f"measures/{key}")
    return number(value, fine_decimals(value))


def _traffic(found: xr.DataTree) -> list[Block]:
    told = []
    for name, one in node(found, "traffic").data_vars.items():
        if one.attrs.get("detail") != "printed":
            continue
        value, rate = float(one), " †" if str(name).startswith(("wear", "crack")) else ""
        text = words.count(value) if str(name).startswith("wheels") else number(value, fine_decimals(value))
        told.append(Row([f"{title(one.long_name)}{rate}", text, unit(one.attrs["units"]), one.description]))
    heads = [*left("Measure"), Head("Value"), *left("Unit", "Meaning")]
    blocks: list[Block] = [Table("traffic", heads, told, _TRAFFIC_FOOT), Figures(_traffic_figures(found))]
    if has(found, "traffic/classes"):
        classes = node(found, "traffic/classes")
        table = side_by_side("classes", [*printed_columns(classes), *_of_classes(found)])
        table.rows[-1] = table.rows[-1]._replace(marked=True)
        blocks += [Words([classes.attrs["title"]], "h3"), table]
    stages = node(found, "traffic/stages")
    yields = read(stages, "shear_yield_MPa")
    if yields.size and yields.min() < yields.max():  # a steel that does not harden is the same in every stage
        columns = [column(one) for one in stages.data_vars.values()]
        columns[0] = (Head("wheels so far"), [words.count(float(one)) for one in read(stages, "wheels")])
        foot = "Yield and hardness of the place loaded most; exceedance and index: largest of all wheels in the stage."
        blocks += [Words(["How the steel hardens under it"], "h3"), side_by_side("stages", columns, foot)]
    return blocks


def _of_classes(found: xr.DataTree) -> list[tuple[Head, list[str]]]:
    """Of each class of wheels and of all: share of the friction energy, and largest pressure of one wheel."""
    keys = ("class", "wheels", "friction_energy_J", "peak_pressure_MPa")
    of, wheels, energy, pressure = (read(found, f"traffic/population/{key}") for key in keys)
    every = np.nan_to_num(energy) * wheels
    groups = [*(of == name for name in texts(found, "traffic/classes/name")[:-1]), np.full(of.size, True)]
    largest = [float(np.nanmax(pressure[one & (wheels > 0.0)], initial=0.0)) for one in groups]
    shares = [words.percent(float(every[one].sum() / every.sum())) if every.sum() > 0.0 else "–" for one in groups]
    told = [number(one, 0) if one > 0.0 else "–" for one in largest]
    return [(Head("friction energy, share"), shares), (Head(quantities["peak_pressure_MPa"].label, "MPa"), told)]


def _figures(found: xr.DataTree) -> list[Figure]:
    bodies = bodies_of(found)
    body = "nose" if "nose" in bodies else bodies[-1]
    on = f"along the {body}" if body in ("nose", "wing") else "along the rail"
    told = {key: f"{one.label} up to {_value(found, key)} {unit(one.unit)}".strip()
            for key, one in quantities.items() if one.of_steel}  # fmt: skip
    steel = texts(found, "steel/name")[0]

    def map_of(quantity: str, key: str, caption: str) -> Figure:
        place = words.place_of(found, key)
        where = f", largest {words.at(found, place)}" if place is not None else ""
        return figure(partial(plot.damage_map, found, quantity, part="passage"), f"fig-map-{key}",
                      f"Map of the running surfaces in plan under one wheel: {told[key]}{where}.", caption, "wide",
                      2.8)  # fmt: skip

    def course(quantity: str, caption: str) -> Figure:
        return figure(partial(plot.along, found, quantity, body=body), f"fig-along-{quantity}",
                      f"Line chart along the {body} under one wheel: {told[quantity]}.", caption)  # fmt: skip

    return [
        map_of("peak_pressure_MPa", "peak_pressure_MPa",
               "Largest elastic pressure of the case's own wheel in plan. Length and width are not to one scale."),
        figure(partial(plot.shakedown, found), "fig-shakedown",
               f"Shakedown diagram with the path of the wheel through it: {told['shakedown_exceedance']}, "
               f"{told['load_factor']}.",
               f"The wheel's path through the shakedown diagram of new {steel}: above the red line every wheel leaves "
               "plastic strain", "wide", 3.6),
        course("shakedown_exceedance", f"Shakedown exceedance {on}: above 1 every wheel leaves plastic strain"),
        course("surface_fatigue_index", f"Surface fatigue index {on}: above 0 the surface yields"),
        course("t_gamma_N", f"T-gamma, creep force times creepage, {on}"),
        course("crack_damage_1e_6", f"Crack damage per wheel {on}; below 0 wear outruns cracks: a rate"),
        map_of("wear_depth_um", "wear_depth_nm",
               "Wear of one wheel on the shape as given: a rate, and where it is. The scale is logarithmic."),
    ]  # fmt: skip


def _traffic_figures(found: xr.DataTree) -> list[Figure]:
    wheels, rate = words.count(single(found, "traffic/wheels")), single(found, "traffic/wear_depth_per_wheel_nm")
    drawn = [
        figure(partial(plot.damage_map, found, "wheels_beyond_shakedown", part="traffic"), "fig-traffic-shakedown",
               f"Map of the running surfaces in plan: how many of {wheels} wheels were beyond elastic shakedown at each "
               "place.", f"Wheels beyond elastic shakedown at each place, of {wheels}", "wide", 2.8),
        figure(partial(plot.damage_map, found, "wear_depth_um", part="traffic"), "fig-traffic-wear",
               "Map of the running surfaces in plan: wear of the mean wheel, deepest "
               f"{number(rate, fine_decimals(rate))} nm per wheel.",
               "Wear per wheel, mean over the traffic, on the shape as given: a rate. The scale is logarithmic.", "wide", 2.8),
    ]  # fmt: skip
    for key in ("shakedown_exceedance", "t_gamma_N") if has(found, "traffic/classes") else ():
        caption = f"{title(quantities[key].label)} of one wheel over new steel"
        drawn.append(figure(partial(plot.traffic_shares, found, key), f"fig-shares-{key}",
                            f"Cumulative curves by class of wheels: {caption}.",
                            f"{caption}: share of the wheels of each class at or below"))  # fmt: skip
    return drawn


def _steel(found: xr.DataTree) -> list[Entry]:
    keys = keys_of(found)

    def told(key: str, words_of: str) -> Entry:
        return Entry(words_of, f"{number(single(found, f'steel/{key}'), 0)} MPa")

    entries = [Entry("wing and nose" if "nose" in bodies_of(found) else "rail", texts(found, "steel/name")[0]),
               told("shear_yield_MPa", "yield in shear, new"), told("hardness_MPa", "hardness, new")]  # fmt: skip
    if math.isfinite(single(found, "steel/hardening_wheels")):
        entries += [told("hardened_shear_yield_MPa", "yield in shear, hardened"),
                    told("hardened_hardness_MPa", "hardness, hardened"),
                    Entry("63 % of it after", f"{words.count(single(found, 'steel/hardening_wheels'))} wheels")]  # fmt: skip
    entries.append(Entry("friction", _plain(single(found, "steel/friction"))))
    for key, name in (("damage.friction_ratio", "at high slip, over that"), ("damage.creep_law", "creep law"),
                      ("contact.law", "contact law"), ("damage.shakedown_shape", "shakedown limits of")):  # fmt: skip
        if key in keys and (key != "damage.friction_ratio" or float(keys[key]) != 1.0):
            entries.append(Entry(name, f"a {keys[key]} contact" if key.endswith("shape") else keys[key]))
    return entries


def _rolled(found: xr.DataTree) -> list[tuple[str, list[Entry]]]:
    if not has(found, "traffic"):
        return []
    return [("Traffic", [
        Entry("tonnage", f"{_plain(single(found, 'traffic/tonnage_MGT'))} MGT"),
        Entry("wheels", words.count(single(found, "traffic/wheels"))),
        Entry("made of", _kinds(found) or "the case's own wheel"),
        Entry("stages of hardening", str(read(found, "traffic/stages/wheels").size)),
    ])]  # fmt: skip


def _plain(value: float) -> str:
    return f"{value:.6g}" if math.isfinite(value) else "–"
