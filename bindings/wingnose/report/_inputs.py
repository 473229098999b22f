"""Inputs of a case in words: the few that matter most, all of them, and what the answer rests on."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import TypeAlias

import xarray as xr

from .. import __commit__, __version__
from .._reading import has, keys_of, rows, texts, title, unit
from ._page import Block, Entries, Entry, Section, Words, number

Keys: TypeAlias = Mapping[str, tuple[str, str]]  # value and unit

_CROSSING = [f"crossing.{key}" for key in (
    "name", "kind", "shape", "rate", "flangeway_mm", "wing_lift_mm", "nose_point_thickness_mm", "nose_start_depth_mm",
    "nose_ramp_end_thickness_mm", "nose_ramp_end_depth_mm", "nose_full_thickness_mm")]  # fmt: skip
_TRACK = [f"track.{key}" for key in (
    "preset", "rail", "rho_A_kg_m", "pad_stiffness_MN_m", "pad_damping_kNs_m", "spacing_mm", "bearer_mass_kg",
    "ballast_stiffness_MN_m", "ballast_damping_kNs_m")]  # fmt: skip
_VEHICLE = (
    "vehicle.wheel[1].unsprung_mass_kg", "vehicle.wheel[1].radius_mm", "vehicle.suspension[1].stiffness_MN_m",
    "vehicle.suspension[1].damping_kNs_m",
)  # fmt: skip
_PASSAGE = ("passage.direction", "measures.p2_cut_off_Hz", "measures.p2_order")
_LABELS = {"crossing.kind": "given as", "track.rho_A_kg_m": "rail", "vehicle.name": "vehicle",
           "measures.p2_cut_off_Hz": "P2 below", "measures.p2_order": "filter order"}  # fmt: skip


def key_inputs(answer: xr.DataTree, static_load: float, speed: str) -> list[tuple[str, list[Entry]]]:
    """The inputs a reader asks for first; static load in kN, speed in words."""
    if not has(answer, "case/keys"):
        return []
    keys = {key: (value, of) for key, value, of in rows(answer, "case/keys", "key", "value", "key_unit")}
    crossing = [key for key in _CROSSING if key in keys]
    if len(crossing) < 5:  # not a generated crossing: whatever describes it
        crossing = [key for key in keys if key.startswith("crossing.")][:10]
    load = [Entry("static wheel load", f"{number(static_load)} kN")]
    groups = [
        ("Crossing", [*_entries(crossing, keys), *_modifiers(keys)]),
        ("Wheel", _entries([key for key in keys if key.startswith("wheel.")][:6], keys)),
        ("Vehicle", [*_entries(["vehicle.name"], keys), *load, *_entries(_VEHICLE, keys)]),
        ("Track", _entries(_TRACK, keys)),
        ("Passage", [Entry("speed", speed), *_entries(_PASSAGE, keys)]),
    ]
    return [(name, entries) for name, entries in groups if entries]


def assumptions(answer: xr.DataTree) -> Section:
    """What the numbers rest on."""
    source = keys_of(answer).get("vehicle.source", "")
    listed = [*([f"Vehicle: {source}"] if source else []), *texts(answer, "assumptions/closed_form/sentence"),
              *texts(answer, "assumptions/steel/sentence")]  # fmt: skip
    return Section("assumptions", "What these numbers rest on", [Words([title(one) for one in listed])], small=True)


def provenance(answer: xr.DataTree, *more: Entry) -> Section:
    """Program, files with their checksums, and every key."""
    version, commit = (answer.attrs.get(name, now) for name, now in (("version", __version__), ("commit", __commit__)))
    entries = [Entry("Program", f"wingnose {version}, commit {commit}"), *more]
    if has(answer, "case/inputs/role"):
        files = rows(answer, "case/inputs", "role", "file", "sha256")
        entries += [Entry(role, f"{file}, SHA-256 {sha}") for role, file, sha in files]
    parts: dict[str, list[str]] = {}
    for key, value in keys_of(answer).items():
        part, _, name = key.partition(".")
        parts.setdefault(part, []).append(f"{name} = {value}")
    blocks: list[Block] = [Entries(entries)]
    if parts:
        blocks += [Words(["Every key the case rests on, given or default"], "h3"),
                   Entries([Entry(part, " · ".join(told)) for part, told in parts.items()], fine=True)]  # fmt: skip
    return Section("provenance", "Provenance", blocks, small=True)


def as_asked_for(answer: xr.DataTree, path: str, heading: str) -> Section:
    """A file the answer was asked for with, as it was read."""
    text = texts(answer, path)
    return Section("asked-for", heading, [Words(text, "pre")] if text and text[0] else [], small=True)


def entry(key: str, value: str, of: str) -> Entry:
    """A case key in words; `of`: its unit.

    Examples
    --------
    >>> entry("track.pad_damping_kNs_m", "40", "kN s/m")
    Entry(label='pad damping', value='40 kN s/m')
    """
    name = key.rsplit(".", 1)[-1]
    for spelled in (re.sub(r"\W", "_", of), re.sub(r"\W", "_", of.replace(" ", ""))):
        name = name.removesuffix(f"_{spelled}")
    told = f"1 : {value}" if key == "crossing.rate" else f"{value} {unit(of)}".rstrip()
    return Entry(_LABELS.get(key, name.replace("_", " ").replace(" ramp ", " ramp, ")), told)


def _modifiers(keys: Keys) -> list[Entry]:
    """Wear, repairs and the like, each in one line."""
    found: dict[str, list[str]] = {}
    for key, (value, of) in keys.items():
        place = re.fullmatch(r"crossing\.modifier\[(\d+)\]\.(\w+)", key)
        if place and value not in ("0", ""):
            one = entry(key, value, of)
            found.setdefault(place[1], []).append(value if one.label == "body" else f"{one.label} {one.value}")
    return [Entry(f"modifier {count}", ", ".join(told)) for count, told in found.items()]


def _entries(names: Iterable[str], keys: Keys) -> list[Entry]:
    return [entry(name, *keys[name]) for name in names if name in keys]
