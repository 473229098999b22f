"""Where along a crossing the values of a damage lie, and these places in words."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
import xarray as xr

from .._reading import contacts_of, has, keys_of, maps_of, read, rows
from ._page import number


class Place(NamedTuple):
    """Where the largest value of something lies."""

    body: str
    x: float  # mm, station
    y: float  # mm, from the track centre line


class Stretch(NamedTuple):
    """Stations from and to, mm."""

    first: float
    last: float


def place_of(found: xr.DataTree, key: str) -> Place | None:
    """Where a measure of the case's own wheel is largest; None where it is a sum or 0 everywhere."""
    told = rows(found, "places", "key", "body", "station_mm", "y_mm")
    return next((Place(body, x, y) for name, body, x, y in told if name == key and body and math.isfinite(x)), None)


def place_on_map(found: xr.DataTree, quantity: str, part: str) -> Place | None:
    """Node of the maps with the largest value of a quantity; None when it is 0 everywhere."""
    best, most = None, 0.0
    for body, one in maps_of(found, quantity, part).items():
        if one.size and float(one.max()) > most:
            i, j = np.unravel_index(int(np.argmax(one.values)), one.shape)
            best, most = Place(body, float(one["x_mm"][i]), float(one["y_mm"][j])), float(one.max())
    return best


def stretches_above(found: xr.DataTree, body: str, key: str, above: float) -> list[Stretch]:
    """Stations along a body where a column of the contacts lies above a value, in order. Interruptions shorter than a
    centimetre do not part them."""
    x, values = contacts_of(found, body, "x_mm", key)
    held = np.sort(x[values > above])
    if held.size == 0:
        return []
    steps = np.diff(np.unique(x))
    gap = max(10.0, 3.0 * float(np.median(steps))) if steps.size else 10.0  # mm
    breaks = np.flatnonzero(np.diff(held) > gap)
    return [
        Stretch(float(held[first]), float(held[last]))
        for first, last in zip([0, *(breaks + 1)], [*breaks, held.size - 1], strict=True)
    ]


def most_wheels(found: xr.DataTree, body: str, quantity: str) -> tuple[float, Stretch] | None:
    """Most wheels of the traffic at one place of a body, and from the first station with nine tenths of it to the last.
    None when no wheel did."""
    one = maps_of(found, quantity, "traffic").get(body)
    if one is None or not np.any(one.values > 0.0):
        return None
    along = one.values.max(axis=1)
    most = float(along.max())
    held = read(one, "x_mm")[along >= 0.9 * most]
    return most, Stretch(float(held[0]), float(held[-1]))


def nose_thickness(found: xr.DataTree, x: float) -> float:
    """Thickness of the nose between its gauge lines at a station, both in mm; NaN where there is no nose."""
    return max(x, 0.0) / float(keys_of(found).get("crossing.rate", "nan")) if has(found, "case/keys") else math.nan


def at(found: xr.DataTree, place: Place) -> str:
    """A place in words, with the thickness of the nose there."""
    thickness = nose_thickness(found, place.x)
    station = f"station {number(place.x, 0)} mm"
    if place.body == "nose" and math.isfinite(thickness):
        return f"on the nose at {station}, where it is {number(thickness)} mm thick"
    if place.body == "wing":
        beside = f" (nose {number(thickness)} mm thick)" if math.isfinite(thickness) else ""
        return f"on the wing at {station}{beside}"
    return f"at {station}"


def along(found: xr.DataTree, body: str, one: Stretch) -> str:
    """A stretch in words, with the thickness of the nose at its ends."""
    if one.last - one.first < 2.0:
        return f"at station {number(one.first, 0)} mm"
    words = f"from station {number(one.first, 0)} to {number(one.last, 0)} mm"
    thin, thick = nose_thickness(found, one.first), nose_thickness(found, one.last)
    if body != "nose" or not math.isfinite(thin):
        return words
    return f"{words} ({number(thin)} to {number(thick)} mm thick)"


def spread(found: xr.DataTree, stretches: dict[str, list[Stretch]]) -> str:
    """Stretches of the bodies in words; empty without any."""
    parts = []
    for body, several in sorted(stretches.items()):  # the nose before the wing
        if several:
            told = " and ".join(along(found, body, one) for one in several)
            parts.append(told if body not in ("nose", "wing") else f"on the {body} {told}")
    return "; ".join(parts)
