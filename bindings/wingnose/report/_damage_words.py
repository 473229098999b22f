"""What a damage says, in plain words: where along a crossing its values lie, its limits, and the answer."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
import xarray as xr

from .. import quantities
from .._core.assess import CrackFunction
from .._reading import bodies_of, contacts_of, has, keys_of, maps_of, number as single, read, rows, texts, title
from ._page import Answer, fine_decimals, number


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


class Passed(NamedTuple):
    """A limit, and how the case's own wheel stands to it."""

    label: str
    measure: str
    value: float
    limit: float
    times: float  # how many times the limit; NaN where that says nothing
    place: Place | None
    stretches: dict[str, list[Stretch]]  # by body, where it is passed

    @property
    def broken(self) -> bool:
        """Whether it is passed anywhere."""
        return any(self.stretches.values())


def limits(found: xr.DataTree) -> list[Passed]:
    """The limits of the steel, the one passed by most first, and those of the crack function after them."""

    def passed(label: str, key: str, limit: float | None, times: float = math.nan) -> Passed:
        above = float(limit if limit is not None else quantities[key].mark or 0.0)
        where = {body: stretches_above(found, body, key, above) for body in bodies_of(found)}
        value = single(found, f"measures/{key}")
        return Passed(label, quantities[key].label, value, above, times, place_of(found, key), where)

    exceedance = single(found, "measures/shakedown_exceedance")
    traction, load = contacts_of(found, None, "traction_coefficient", "load_factor")
    # Surface flow: f - k/p0 = 0, that is f p0/k = 1.
    flow = float(np.max(traction * load)) if traction.size else math.nan
    of_steel = [passed("elastic shakedown", "shakedown_exceedance", None, exceedance),
                passed("surface flow", "surface_fatigue_index", None, flow)]  # fmt: skip
    function = CrackFunction()
    of_cracks = [passed("cracks start", "t_gamma_N", function.threshold),
                 passed("wear outruns cracks", "t_gamma_N", function.balance)]  # fmt: skip
    return [*sorted(of_steel, key=lambda one: -one.times), *of_cracks]


def answer(found: xr.DataTree) -> Answer:
    """Answer of a damage in words, for who keeps the track."""
    passed = {one.label: one for one in limits(found)}
    worst = passed["elastic shakedown"]
    place = f", worst {at(found, worst.place)}" if worst.place is not None else ""
    traffic = has(found, "traffic")
    beyond, rolled = (single(found, f"traffic/{key}") for key in ("wheels_beyond_shakedown", "wheels"))
    yields = beyond > 0.0 or (not traffic and worst.broken)
    if traffic:
        own = f" The case's own wheel does most {at(found, worst.place)}." if worst.broken and worst.place else ""
        headline = (
            f"The steel yields: {percent(beyond / rolled)} of the wheels leave plastic strain.{own}"
            if yields
            else "The steel carries this traffic: no wheel goes beyond elastic shakedown."
        )
    elif yields:
        headline = f"The steel yields: every such wheel leaves plastic strain{place}."
    else:
        headline = "The steel carries this wheel: no contact goes beyond elastic shakedown."
    sentences = [*_of_steel(found, passed), _sliding(found, passed), *_wear(found)]
    if traffic:
        sentences += [*_traffic(found), _hardening(found)]
    return Answer("broken" if yields or worst.broken else "kept", headline, [title(one) for one in sentences])


def percent(share: float) -> str:
    """A share in print: never rounded to all or none when it is not."""
    if not math.isfinite(share):
        return "–"
    value = 100.0 * share
    if 0.0 < value < 0.1:
        return "less than 0.1 %"
    if 99.9 < value < 100.0 - 1e-9:
        return "more than 99.9 %"
    return f"{value:.1f} %".replace(".0 %", " %")


def count(wheels: float) -> str:
    """A count of wheels in print, in groups of three."""
    return "–" if not math.isfinite(wheels) else f"{wheels:,.0f}".replace(",", "\N{NARROW NO-BREAK SPACE}")


def _of_steel(found: xr.DataTree, passed: dict[str, Passed]) -> list[str]:
    shakedown, flow = passed["elastic shakedown"], passed["surface flow"]
    if shakedown.place is None or flow.place is None:
        return []
    k = number(single(found, "steel/shear_yield_MPa"), 0)
    steel = f"new {texts(found, 'steel/name')[0]} (yield in shear {k} MPa)"
    governs = max(shakedown, flow, key=lambda one: one.times)
    own = "under the case's own wheel " if has(found, 'traffic') else ""
    said = [
        f"There the load factor reaches {number(shakedown.value, 2)} times what {steel} carries elastically at the traction "
        f"used; of the limits {governs.label} governs."
    ] if shakedown.broken else [
        f"{own}{governs.label} comes closest: {number(shakedown.value, 2)} times what {steel} carries elastically at "
        f"the traction used, {at(found, shakedown.place)}."
    ]  # fmt: skip
    index = f"fatigue index up to {number(flow.value, 3)}, {at(found, flow.place)}"
    said.append(f"The surface flows too, so that surface cracks are to be expected: {index}." if flow.broken
                else f"The surface does not flow: {index}.")  # fmt: skip
    return said


def _sliding(found: xr.DataTree, passed: dict[str, Passed]) -> str:
    start, outrun = passed["cracks start"], passed["wear outruns cracks"]
    if start.place is None:
        return "The wheel rolls without sliding but for spin: T-gamma is 0 throughout."
    said = f"It slides most {at(found, start.place)}: T-gamma {number(start.value, fine_decimals(start.value))} N, "
    if outrun.broken:
        return said + "so much that wear takes cracks away there; beside it cracks start, by the crack function for R260."
    if start.broken:
        return said + "enough to start cracks, by the crack function for R260."
    return said + "too little to start cracks, by the crack function for R260."


def _wear(found: xr.DataTree) -> list[str]:
    place = place_of(found, "wear_depth_nm")
    if place is None:
        return []
    depth = single(found, "measures/wear_depth_nm")
    return [f"Wear is deepest {at(found, place)}: {number(depth, fine_decimals(depth))} nm per wheel, a rate for the shape as "
            "given and no forecast."]  # fmt: skip


def _traffic(found: xr.DataTree) -> list[str]:
    said = []
    rolled, flowing, rate = (single(found, f"traffic/{key}")
                             for key in ("wheels", "wheels_beyond_surface_flow", "wear_depth_per_wheel_nm"))  # fmt: skip
    places = []
    for body in sorted(bodies_of(found)):
        most = most_wheels(found, body, "wheels_beyond_shakedown")
        if most is not None:
            on = f"on the {body} " if body in ("nose", "wing") else ""
            places.append(f"{on}{along(found, body, most[1])}, up to {percent(most[0] / rolled)} of them at one place")
    if places:
        said.append(f"The {count(rolled)} wheels go beyond shakedown most often {'; '.join(places)}.")
    share = f"{percent(flowing / rolled)} of the wheels somewhere" if flowing > 0.0 else "no wheel"
    text = f"The surface flows under {share}."
    deepest = place_on_map(found, "wear_depth_um", "traffic")
    if deepest is not None:
        text += (f" The mean wheel wears deepest {at(found, deepest)}: {number(rate, fine_decimals(rate))} nm, a rate for "
                 "the shape as given.")  # fmt: skip
    return [*said, text]


def _hardening(found: xr.DataTree) -> str:
    before, after = (single(found, f"traffic/shear_yield_{which}_MPa") for which in ("first", "last"))
    first, last = (single(found, f"traffic/shakedown_exceedance_{which}") for which in ("first", "last"))
    if after <= before * (1.0 + 1e-9):
        return f"This steel is taken not to harden: the largest exceedance of all wheels stays at {number(last, 2)}."
    still = "still beyond shakedown" if last > 1.0 else "within elastic shakedown"
    return (f"Rolling hardens it: at the place loaded most the yield in shear rises from {number(before, 0)} to "
            f"{number(after, 0)} MPa, and the largest exceedance of all wheels falls from {number(first, 2)} to "
            f"{number(last, 2)}, {still}.")  # fmt: skip
