"""Inputs of a case in words: the few that matter most, and all of them for the appendix."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from ._page import Entry, entry

if TYPE_CHECKING:
    from collections.abc import Mapping

_CROSSING = (
    "crossing.name",
    "crossing.kind",
    "crossing.shape",
    "crossing.rate",
    "crossing.flangeway_mm",
    "crossing.wing_lift_mm",
    "crossing.nose_point_thickness_mm",
    "crossing.nose_start_depth_mm",
    "crossing.nose_ramp_end_thickness_mm",
    "crossing.nose_ramp_end_depth_mm",
    "crossing.nose_full_thickness_mm",
)
_TRACK = (
    "track.preset",
    "track.rail",
    "track.rho_A_kg_m",
    "track.pad_stiffness_MN_m",
    "track.pad_damping_kNs_m",
    "track.spacing_mm",
    "track.bearer_mass_kg",
    "track.ballast_stiffness_MN_m",
    "track.ballast_damping_kNs_m",
)
_VEHICLE = (
    "vehicle.wheel[1].unsprung_mass_kg",
    "vehicle.wheel[1].radius_mm",
    "vehicle.suspension[1].stiffness_MN_m",
    "vehicle.suspension[1].damping_kNs_m",
)
_LABELS = {
    "crossing.name": "name",
    "crossing.kind": "given as",
    "crossing.rate": "rate",
    "track.rho_A_kg_m": "rail",
    "vehicle.name": "vehicle",
    "vehicle.body[1].mass_kg": "mass of its body",
    "passage.direction": "direction",
    "measures.p2_cut_off_Hz": "P2 below",
    "measures.p2_order": "filter order",
}


class Group(NamedTuple):
    """Inputs that belong together."""

    name: str
    entries: list[Entry]


def key_inputs(keys: Mapping[str, str], static_load: str | None, inputs: Mapping[str, str]) -> list[Group]:
    """The inputs a reader asks for first.

    `static_load`: None where the file does not tell it; `inputs`: what only the files say, such as the wheel's name.
    """
    crossing = [key for key in _CROSSING if key in keys]
    if len(crossing) < 5:  # not a generated crossing: whatever describes it
        crossing = [key for key in keys if key.startswith("crossing.")][:10]
    wheel = [key for key in keys if key.startswith("wheel.")][:6]
    groups = [
        Group("Crossing", [*_entries(crossing, keys), *_modifiers(keys)]),
        Group("Wheel", _entries(wheel, keys)),
        Group(
            "Vehicle",
            [
                *_entries(("vehicle.name",), keys),
                *(
                    [Entry("static wheel load", static_load)]
                    if static_load is not None
                    else _entries(("vehicle.body[1].mass_kg",), keys)
                ),
                *_entries(_VEHICLE, keys),
            ],
        ),
        Group("Track", _entries(_TRACK, keys)),
        Group(
            "Passage",
            [
                *(Entry(label, value) for label, value in inputs.items()),
                *_entries(("passage.direction", "measures.p2_cut_off_Hz", "measures.p2_order"), keys),
            ],
        ),
    ]
    return [group for group in groups if group.entries]


def all_keys(keys: Mapping[str, str]) -> list[tuple[str, str]]:
    """All keys in short, by the part of the case they belong to."""
    parts: dict[str, list[str]] = {}
    for key, value in keys.items():
        part, _, name = key.partition(".")
        parts.setdefault(part, []).append(f"{name} = {value}")
    return [(part, " · ".join(entries)) for part, entries in parts.items()]


def _modifiers(keys: Mapping[str, str]) -> list[Entry]:
    """Wear, repairs and the like, each in one line."""
    found: dict[str, list[str]] = {}
    for key, value in keys.items():
        place = re.fullmatch(r"crossing\.modifier\[(\d+)\]\.(\w+)", key)
        if place and value not in ("0", ""):
            one = entry(key, value)
            found.setdefault(place[1], []).append(value if one.label == "body" else f"{one.label} {one.value}")
    return [Entry(f"modifier {number}", ", ".join(told)) for number, told in found.items()]


def _entries(names: tuple[str, ...] | list[str], keys: Mapping[str, str]) -> list[Entry]:
    found = []
    for name in names:
        if name not in keys:
            continue
        one = entry(name, keys[name])
        value = f"1 : {one.value}" if name == "crossing.rate" else one.value
        found.append(Entry(_LABELS.get(name, one.label.replace(" ramp ", " ramp, ")), value))
    return found
