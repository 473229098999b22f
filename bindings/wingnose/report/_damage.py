"""The report of what a landing, or a traffic, does to the steel."""

from __future__ import annotations

import math
from functools import partial
from typing import TYPE_CHECKING, NamedTuple

from .. import plot
from ..stored import DamageFile, place_of, read_damage
from . import _damage_words as words
from ._inputs import Group, all_keys, key_inputs
from ._page import Entry, Figure, figure, fine_decimals, number, render, sentence, unit

if TYPE_CHECKING:
    from collections.abc import Callable
    from os import PathLike

    from matplotlib.axes import Axes

    from ..stored import Place
    from ..stored.damage import Measure

# Measures in the order they are read; others of a file come last.
_PASSAGE = (
    "peak_pressure_MPa",
    "load_factor",
    "shakedown_exceedance",
    "surface_fatigue_index",
    "traction_coefficient",
    "creep_force_kN",
    "longitudinal_creepage_permil",
    "t_gamma_N",
    "crack_damage_1e_6",
    "friction_power_kW",
    "friction_energy_J",
    "wear_depth_nm",
    "wear_volume_mm3",
    "change_of_contact_angle_rad",
)
_TRAFFIC = (
    "tonnage_MGT",
    "wheels",
    "wheels_beyond_shakedown",
    "wheels_beyond_surface_flow",
    "shakedown_exceedance_first",
    "shakedown_exceedance_last",
    "shear_yield_first_MPa",
    "shear_yield_last_MPa",
    "crack_damage",
    "wear_depth_per_wheel_nm",
    "wear_depth_mm",
    "wear_volume_mm3",
)
# Rates of a shape that does not change.
_RATES = {
    "crack_damage_1e_6",
    "crack_damage",
    "wear_depth_nm",
    "wear_depth_per_wheel_nm",
    "wear_depth_mm",
    "wear_volume_mm3",
}
_NOT_SAID = (
    "how long the crossing lasts, when it must be repaired, or how deep a crack grows",
    "the shape after the steel has flowed or worn, and the lower pressures on that shape",
    "residual stress, voids and defects of a casting or a weld, and cracks from below the surface",
    "lateral motion, flange and check-rail contact, traction and braking",
)


class _Row(NamedTuple):
    label: str
    meaning: str
    unit: str
    value: str
    place: Place | None
    thickness: str
    rate: bool


def damage(source: DamageFile | str | PathLike[str]) -> str:
    """One-page report of what a landing, or a traffic, does to the steel.

    Parameters
    ----------
    source : DamageFile or path
        What ``wingnose damage ... -o FILE`` stored, with or without a traffic.

    Returns
    -------
    str
        HTML in one piece: nothing is loaded from elsewhere.

    Raises
    ------
    InputError
        The file holds something else.
    """
    found = source if isinstance(source, DamageFile) else read_damage(source)
    answer = words.answer(found)
    return render(
        "damage.html.j2",
        study=found,
        asked=_asked(found),
        answer=answer,
        limits=[(one, words.spread(found, one.stretches)) for one in words.limits(found)],
        digits=fine_decimals,
        figures=_figures(found),
        measures=_rows(found, "passage"),
        traffic=_rows(found, "traffic") if found.has_traffic else [],
        classes=found.classes(),
        percent=words.percent,
        stages=_stages(found),
        traffic_figures=_traffic_figures(found) if found.has_traffic else [],
        not_said=_NOT_SAID,
        groups=_groups(found),
        notes=[note for note in found.notes if note not in answer.alarms],
        all_keys=all_keys(found.keys),
    )


def _asked(found: DamageFile) -> str:
    wheel = found.keys.get("wheel.profile", "")
    speed = found.keys.get("passage.speed_km_h", "")
    parts = [f"One wheel{f' {wheel}' if wheel else ''}{f' at {speed} km/h' if speed else ''}"]
    if found.has_traffic:
        kinds = len(found.data.texts.get("traffic/population/name", []))
        which = f"{kinds} kinds of wheels" if kinds else "such wheels"
        parts.append(f"and {_plain(found.data.number('traffic/measures/tonnage_MGT'))} MGT of {which}")
    return f"{' '.join(parts)} over steel {found.steel}, friction {_plain(found.friction)}"


def _rows(found: DamageFile, part: str) -> list[_Row]:
    order = _PASSAGE if part == "passage" else _TRAFFIC
    listed = sorted(found.measures(part), key=lambda one: order.index(one.key) if one.key in order else len(order))
    rows = []
    for one in listed:
        place = place_of(found, one.key) if part == "passage" else None
        thickness = number(found.nose_thickness(place.x)) if place is not None else ""
        rows.append(_Row(one.label, one.meaning.partition(": ")[2], unit(one.unit), _value(one), place, thickness,
                         one.key in _RATES))  # fmt: skip
    return rows


def _value(one: Measure) -> str:
    if one.key.startswith("wheels"):
        return words.count(one.value)
    return number(one.value, fine_decimals(one.value))


def _stages(found: DamageFile) -> list[list[str]]:
    columns = found.stages
    if not columns or columns["shear_yield_MPa"].min() == columns["shear_yield_MPa"].max():
        return []  # a steel that does not harden is the same in every stage
    keys = ("shear_yield_MPa", "hardness_MPa", "shakedown_exceedance", "surface_fatigue_index", "wear_depth_mm")
    decimals = (0, 0, 2, 3, fine_decimals(float(columns["wear_depth_mm"][0])))
    return [
        [
            words.count(float(wheels)),
            *(number(float(columns[key][i]), digits) for key, digits in zip(keys, decimals, strict=True)),
        ]
        for i, wheels in enumerate(columns["wheels"])
    ]


def _figures(found: DamageFile) -> list[Figure]:
    body = "nose" if "nose" in found.bodies else found.bodies[-1]
    told = {one.key: f"{one.label} up to {_value(one)} {unit(one.unit)}".strip() for one in found.measures()}

    def map_of(quantity: str, key: str, caption: str) -> Figure:
        place = place_of(found, key)
        where = f", largest {words.at(found, place)}" if place is not None else ""
        return figure(partial(plot.damage_map, found, quantity, part="passage"), f"fig-map-{key}",
                      f"Map of the running surfaces in plan under one wheel: {told[key]}{where}.", caption, (7.6, 2.8),
                      wide=True)  # fmt: skip

    def course(quantity: str, caption: str) -> Figure:
        return figure(partial(plot.along, found, quantity, body=body), f"fig-along-{quantity}",
                      f"Line chart along the {body} under one wheel: {told[quantity]}.", caption, (4.9, 3.1),
                      wide=False)  # fmt: skip

    on = f"along the {body}" if body in ("nose", "wing") else "along the rail"
    return [
        map_of("peak_pressure_MPa", "peak_pressure_MPa",
               "Largest elastic pressure of the case's own wheel in plan. Length and width are not to one scale."),
        figure(partial(plot.shakedown, found), "fig-shakedown",
               f"Shakedown diagram with the path of the wheel through it: {told['shakedown_exceedance']}, "
               f"{told['load_factor']}.",
               f"The wheel's path through the shakedown diagram of new {found.steel}: above the red line every wheel "
               "leaves plastic strain", (7.6, 3.6), wide=True),
        course("shakedown_exceedance", f"Shakedown exceedance {on}: above 1 every wheel leaves plastic strain"),
        course("surface_fatigue_index", f"Surface fatigue index {on}: above 0 the surface yields"),
        course("t_gamma_N", f"T-gamma, creep force times creepage, {on}"),
        course("crack_damage_1e_6", f"Crack damage per wheel {on}; below 0 wear outruns cracks: a rate"),
        map_of("wear_depth_um", "wear_depth_nm",
               "Wear of one wheel on the shape as given: a rate, and where it is. The scale is logarithmic."),
    ]  # fmt: skip


def _traffic_figures(found: DamageFile) -> list[Figure]:
    measures = {one.key: one for one in found.measures("traffic")}
    wheels = words.count(measures["wheels"].value)
    drawn = [
        figure(partial(plot.damage_map, found, "wheels_beyond_shakedown", part="traffic"), "fig-traffic-shakedown",
               f"Map of the running surfaces in plan: how many of {wheels} wheels were beyond elastic shakedown at each "
               "place.", f"Wheels beyond elastic shakedown at each place, of {wheels}", (7.6, 2.8), wide=True),
        figure(partial(plot.damage_map, found, "wear_depth_um", part="traffic"), "fig-traffic-wear",
               "Map of the running surfaces in plan: wear of the mean wheel, deepest "
               f"{_value(measures['wear_depth_per_wheel_nm'])} nm per wheel.",
               "Wear per wheel, mean over the traffic, on the shape as given: a rate. The scale is logarithmic.",
               (7.6, 2.8), wide=True),
    ]  # fmt: skip
    for key, caption in (("shakedown_exceedance", "Shakedown exceedance of one wheel over new steel"),
                         ("t_gamma_N", "T-gamma of one wheel")) if found.classes() else ():  # fmt: skip
        drawn.append(
            figure(partial(plot.traffic_shares, found, key), f"fig-shares-{key}",
                   f"Cumulative curves by class of wheels: {caption.lower()}.",
                   f"{caption}: share of the wheels of each class at or below", (4.9, 3.1), wide=False)
        )  # fmt: skip
    return drawn


def _groups(found: DamageFile) -> list[Group]:
    keys = found.keys
    speed = f"{keys['passage.speed_km_h']} km/h" if "passage.speed_km_h" in keys else "–"
    traffic = [_rolled(found)] if found.has_traffic else []
    return [Group("Steel and rolling", _steel(found)), *traffic, *key_inputs(keys, None, {"speed": speed})]


def _steel(found: DamageFile) -> list[Entry]:
    def told(key: str, decimals: int = 0) -> str:
        return number(found.data.number(f"steel/{key}"), decimals)

    entries = [Entry("wing and nose" if "nose" in found.bodies else "rail", found.steel),
               Entry("yield in shear, new", f"{told('shear_yield_MPa')} MPa"),
               Entry("hardness, new", f"{told('hardness_MPa')} MPa")]  # fmt: skip
    if math.isfinite(found.data.number("steel/hardening_wheels")):
        entries += [Entry("yield in shear, hardened", f"{told('hardened_shear_yield_MPa')} MPa"),
                    Entry("hardness, hardened", f"{told('hardened_hardness_MPa')} MPa"),
                    Entry("63 % of it after", f"{words.count(found.data.number('steel/hardening_wheels'))} wheels")]  # fmt: skip
    entries.append(Entry("friction", _plain(found.friction)))
    for key, label in (("damage.friction_ratio", "at high slip, over that"), ("damage.creep_law", "creep law"),
                       ("contact.law", "contact law"), ("damage.shakedown_shape", "shakedown limits of")):  # fmt: skip
        if key in found.keys and (key != "damage.friction_ratio" or float(found.keys[key]) != 1.0):
            entries.append(Entry(label, f"a {found.keys[key]} contact" if key.endswith("shape") else found.keys[key]))
    return entries


def _rolled(found: DamageFile) -> Group:
    measures = {one.key: one.value for one in found.measures("traffic")}
    kinds = len(found.data.texts.get("traffic/population/name", []))
    return Group("Traffic", [
        Entry("tonnage", f"{_plain(measures['tonnage_MGT'])} MGT"),
        Entry("wheels", words.count(measures["wheels"])),
        Entry("made of", f"{kinds} kinds of wheels" if kinds else "the case's own wheel"),
        Entry("stages of hardening", str(found.stages["wheels"].size)),
    ])  # fmt: skip


def _plain(value: float) -> str:
    return sentence(f"{value:.6g}") if math.isfinite(value) else "–"
