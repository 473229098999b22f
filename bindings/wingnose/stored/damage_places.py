"""Where along a crossing the values of a damage lie."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from .damage import DamageFile


class Place(NamedTuple):
    """Where the largest value of something lies."""

    body: str
    x: float  # mm, station
    y: float  # mm, from the track centre line
    value: float


class Stretch(NamedTuple):
    """Stations from and to, mm."""

    first: float
    last: float


def place_of(found: DamageFile, key: str) -> Place | None:
    """Where a measure of the case's own wheel is largest: the contact, or the node of the maps for wear.

    Parameters
    ----------
    found : DamageFile
        A damage as read.
    key : str
        A measure of the passage, such as "shakedown_exceedance".

    Returns
    -------
    Place or None
        The value in the unit of the contacts or the map; None where a measure is a sum or 0 everywhere.
    """
    if key == "wear_depth_nm":
        return place_on_map(found, "wear_depth_um")
    size = _size(found, key)
    if size is None or not np.any(size):
        return None
    at = int(np.argmax(size))
    x, y = found.contacts(None, "x_mm", "y_mm")
    return Place(found.data.texts["contacts/body"][at], float(x[at]), float(y[at]), float(size[at]))


def place_on_map(found: DamageFile, quantity: str, *, part: str = "passage") -> Place | None:
    """Node of the maps with the largest value of a quantity.

    Parameters
    ----------
    found : DamageFile
        A damage as read.
    quantity : str
        One of the maps, such as "wear_depth_um".
    part : str
        "passage", or "traffic" where the file has one.

    Returns
    -------
    Place or None
        The value in the unit of the map; None when it is 0 everywhere.
    """
    best: Place | None = None
    for body in found.bodies:
        one = found.map(body, quantity, part=part)
        if not np.any(one.values > 0.0):
            continue
        i, j = np.unravel_index(int(np.argmax(one.values)), one.values.shape)
        value = float(one.values[i, j])
        if best is None or value > best.value:
            best = Place(body, float(one.x[i]), float(one.y[j]), value)
    return best


def stretches_above(found: DamageFile, body: str, key: str, above: float) -> list[Stretch]:
    """Stations along a body where a column of the contacts of the case's own wheel lies above a value.

    Parameters
    ----------
    found : DamageFile
        A damage as read.
    body : str
        Contacts on this body only.
    key : str
        A column of the contacts, such as "shakedown_exceedance".
    above : float
        In the unit of the column.

    Returns
    -------
    list of Stretch
        In order; interruptions shorter than a centimetre do not part them.
    """
    x, values = found.contacts(body, "x_mm", key)
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


def most_wheels(
    found: DamageFile, body: str, quantity: str, *, part: str = "traffic"
) -> tuple[float, Stretch] | None:
    """Most wheels at one place of a body, and where along it: from the first station with nine tenths to the last.

    Parameters
    ----------
    found : DamageFile
        A damage as read.
    body : str
        "wing" or "nose".
    quantity : str
        A map that counts wheels, such as "wheels_beyond_shakedown".
    part : str
        "traffic" or "passage".

    Returns
    -------
    (float, Stretch) or None
        None when no wheel did.
    """
    one = found.map(body, quantity, part=part)
    if not np.any(one.values > 0.0):
        return None
    along = one.values.max(axis=1)
    most = float(along.max())
    held = one.x[along >= 0.9 * most]
    return most, Stretch(float(held[0]), float(held[-1]))


def _size(found: DamageFile, key: str) -> NDArray[np.float64] | None:
    # Of every contact, what the measure is the largest of.
    if key == "creep_force_kN":
        return np.hypot(*found.contacts(None, "longitudinal_force_kN", "lateral_force_kN"))
    column = found.data.numbers.get(f"contacts/{key}")
    if column is None:
        return None
    return np.abs(column) if key == "longitudinal_creepage_permil" else column
