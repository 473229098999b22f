"""What a damage says, in plain words."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from .._core.assess import CrackFunction
from ..stored import most_wheels, place_of, place_on_map, stretches_above
from ._page import fine_decimals, number
from ._words import Answer

if TYPE_CHECKING:
    from ..stored import DamageFile, Place, Stretch

# Notes a reader must not overlook, by how they begin.
_ALARMS = ("Half-space stretched", "Wear of ")


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


def limits(found: DamageFile) -> list[Passed]:
    """The limits of the steel, the one passed by most first, and those of the crack function after them."""
    exceedance = found.data.number("measures/shakedown_exceedance")
    traction, load = found.contacts(None, "traction_coefficient", "load_factor")
    # Surface flow: f - k/p0 = 0, that is f p0/k = 1.
    flow = float(np.max(traction * load)) if traction.size else math.nan
    of_steel = [
        Passed("elastic shakedown", "shakedown exceedance", exceedance, 1.0, exceedance,
               place_of(found, "shakedown_exceedance"), _along(found, "shakedown_exceedance", 1.0)),
        Passed("surface flow", "surface fatigue index", found.data.number("measures/surface_fatigue_index"), 0.0, flow,
               place_of(found, "surface_fatigue_index"), _along(found, "surface_fatigue_index", 0.0)),
    ]  # fmt: skip
    sliding = place_of(found, "t_gamma_N")
    value = sliding.value if sliding is not None else 0.0
    function = CrackFunction()
    of_cracks = [
        Passed(label, "T-gamma", value, limit, math.nan, sliding, _along(found, "t_gamma_N", limit))
        for label, limit in (("cracks start", function.threshold), ("wear outruns cracks", function.balance))
    ]
    return [*sorted(of_steel, key=lambda one: -one.times), *of_cracks]


def answer(found: DamageFile) -> Answer:
    """Answer of a damage in words, for who keeps the track."""
    passed = {one.label: one for one in limits(found)}
    worst = passed["elastic shakedown"]
    place = f", worst {at(found, worst.place)}" if worst.place is not None else ""
    beyond, rolled = (found.data.number(f"traffic/measures/{key}") for key in ("wheels_beyond_shakedown", "wheels"))
    yields = beyond > 0.0 or (not found.has_traffic and worst.broken)
    if found.has_traffic:
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
    if found.has_traffic:
        sentences += [*_traffic(found), _hardening(found)]
    failed = sum(one.failed for one in found.classes()[:-1])
    alarms = [note for note in found.notes if note.startswith(_ALARMS)]
    if failed:
        alarms += [note for note in found.notes if "could not be computed" in note] or [
            f"{failed} kinds of wheels of the traffic could not be computed."
        ]
    return Answer("broken" if yields or worst.broken else "kept", headline, sentences, alarms)


def at(found: DamageFile, place: Place) -> str:
    """A place in words, with the thickness of the nose there."""
    thickness = found.nose_thickness(place.x)
    station = f"station {number(place.x, 0)} mm"
    if place.body == "nose" and math.isfinite(thickness):
        return f"on the nose at {station}, where it is {number(thickness)} mm thick"
    if place.body == "wing":
        beside = f" (nose {number(thickness)} mm thick)" if math.isfinite(thickness) else ""
        return f"on the wing at {station}{beside}"
    return f"at {station}"


def spread(found: DamageFile, stretches: dict[str, list[Stretch]]) -> str:
    """Stretches of the bodies in words, with the thickness of the nose at their ends; empty without any."""
    parts = []
    for body, several in sorted(stretches.items()):  # the nose before the wing
        if not several:
            continue
        told = " and ".join(_stretch(found, body, one) for one in several)
        parts.append(told if body not in ("nose", "wing") else f"on the {body} {told}")
    return "; ".join(parts)


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


def _along(found: DamageFile, key: str, above: float) -> dict[str, list[Stretch]]:
    return {body: stretches_above(found, body, key, above) for body in found.bodies}


def _stretch(found: DamageFile, body: str, one: Stretch) -> str:
    if one.last - one.first < 2.0:
        return f"at station {number(one.first, 0)} mm"
    words = f"from station {number(one.first, 0)} to {number(one.last, 0)} mm"
    thin, thick = found.nose_thickness(one.first), found.nose_thickness(one.last)
    if body != "nose" or not math.isfinite(thin):
        return words
    return f"{words} ({number(thin)} to {number(thick)} mm thick)"


def _of_steel(found: DamageFile, passed: dict[str, Passed]) -> list[str]:
    shakedown, flow = passed["elastic shakedown"], passed["surface flow"]
    if shakedown.place is None or flow.place is None:
        return []
    steel = f"new {found.steel} (yield in shear {number(found.shear_yield, 0)} MPa)"
    governs = max(shakedown, flow, key=lambda one: one.times)
    own = "under the case's own wheel " if found.has_traffic else ""
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


def _sliding(found: DamageFile, passed: dict[str, Passed]) -> str:
    start, outrun = passed["cracks start"], passed["wear outruns cracks"]
    if start.place is None:
        return "The wheel rolls without sliding but for spin: T-gamma is 0 throughout."
    said = f"It slides most {at(found, start.place)}: T-gamma {number(start.value, fine_decimals(start.value))} N, "
    if outrun.broken:
        return said + "so much that wear takes cracks away there; beside it cracks start, by the crack function for R260."
    if start.broken:
        return said + "enough to start cracks, by the crack function for R260."
    return said + "too little to start cracks, by the crack function for R260."


def _wear(found: DamageFile) -> list[str]:
    place = place_of(found, "wear_depth_nm")
    if place is None:
        return []
    depth = found.data.number("measures/wear_depth_nm")
    return [f"Wear is deepest {at(found, place)}: {number(depth, fine_decimals(depth))} nm per wheel, a rate for the shape as "
            "given and no forecast."]  # fmt: skip


def _traffic(found: DamageFile) -> list[str]:
    measures = {one.key: one.value for one in found.measures("traffic")}
    said = []
    rolled = measures["wheels"]
    places = []
    for body in sorted(found.bodies):
        most = most_wheels(found, body, "wheels_beyond_shakedown")
        if most is not None:
            on = f"on the {body} " if body in ("nose", "wing") else ""
            share = percent(most[0] / rolled)
            places.append(f"{on}{_stretch(found, body, most[1])}, up to {share} of them at one place")
    if places:
        said.append(f"The {count(rolled)} wheels go beyond shakedown most often {'; '.join(places)}.")
    flowing = measures["wheels_beyond_surface_flow"]
    deepest = place_on_map(found, "wear_depth_um", part="traffic")
    share = f"{percent(flowing / rolled)} of the wheels somewhere" if flowing > 0.0 else "no wheel"
    text = f"The surface flows under {share}."
    if deepest is not None:
        rate = measures["wear_depth_per_wheel_nm"]
        text += (f" The mean wheel wears deepest {at(found, deepest)}: {number(rate, fine_decimals(rate))} nm, a rate for "
                 "the shape as given.")  # fmt: skip
    return [*said, text]


def _hardening(found: DamageFile) -> str:
    measures = {one.key: one.value for one in found.measures("traffic")}
    before, after = measures["shear_yield_first_MPa"], measures["shear_yield_last_MPa"]
    first, last = measures["shakedown_exceedance_first"], measures["shakedown_exceedance_last"]
    if after <= before * (1.0 + 1e-9):
        return f"This steel is taken not to harden: the largest exceedance of all wheels stays at {number(last, 2)}."
    still = "still beyond shakedown" if last > 1.0 else "within elastic shakedown"
    return (f"Rolling hardens it: at the place loaded most the yield in shear rises from {number(before, 0)} to "
            f"{number(after, 0)} MPa, and the largest exceedance of all wheels falls from {number(first, 2)} to "
            f"{number(last, 2)}, {still}.")  # fmt: skip
