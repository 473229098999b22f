"""What a speed study says, in plain words."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from ..stored import label_of
from ._page import km_h, number, sentence

if TYPE_CHECKING:
    from ..stored import LimitAnswer, SpeedsFile

# km/h: closed form and simulation are told apart from here on.
_SAME_SPEED = 0.5


class Answer(NamedTuple):
    """The answer at the top: a headline, sentences below it, and what must not be overlooked."""

    tone: str  # "kept", "broken" or "open"
    headline: str
    sentences: list[str]
    alarms: list[str]


def answer(study: SpeedsFile) -> Answer:
    """Answer of a study in words."""
    speed = study.column("speed_km_h")
    governing = study.governing
    sentences: list[str] = []
    if study.outcome == "no_limits" or not study.limits:
        tone, headline = "open", "No limit was given, so no highest speed is answered."
    elif study.outcome == "found":
        tone, headline = "kept", f"All limits are kept up to {km_h(study.permissible)} km/h."
        if governing is not None:
            sentences.append(f"{sentence(governing.text)} ({_source(governing)}) governs: it is broken above that speed.")
    elif study.outcome == "not_reached":
        tone = "open"
        headline = f"All limits are kept at every speed scanned, up to {number(float(speed[-1]), 0)} km/h."
        sentences.append("The limits are not reached in the range: how much more they would allow was not looked for.")
    else:
        tone, headline = "broken", f"A limit is broken at the lowest speed scanned, {number(float(speed[0]), 0)} km/h."
        if governing is not None:
            sentences.append(f"It is {governing.text} ({_source(governing)}). No highest speed can be answered.")
    sentences += _proposal(study)
    sentences += [
        f"{sentence(limit.text)} is not monotone in speed: broken at {number(limit.first_broken, 1)} km/h, "
        f"kept again at {limit.kept_again} km/h. Only the speed below the first break is answered."
        for limit in study.limits
        if limit.kept_again
    ]
    if study.limits and math.isfinite(study.proposed) and breaks(study, study.proposed):
        tone = "broken"
    return Answer(tone, headline, sentences, _alarms(study))


def breaks(study: SpeedsFile, speed: float) -> list[LimitAnswer]:
    """Limits that are broken at a scanned speed (km/h)."""
    scanned = study.column("speed_km_h")
    place = int(np.argmin(np.abs(scanned - speed)))
    return [limit for limit in study.limits if broken(limit, value_at(study, limit.key, place))]


def value_at(study: SpeedsFile, key: str, place: int) -> float:
    """A limited quantity at a scanned speed; the dip angle belongs to the wheel path and is the same at all."""
    values = study.column(key)
    return study.data.number(f"measures/{key}") if np.all(np.isnan(values)) else float(values[place])


def broken(limit: LimitAnswer, value: float) -> bool:
    """Whether a value breaks a limit; what a passage does not have keeps any limit."""
    if not math.isfinite(value):
        return False
    return value < limit.value if limit.kind == "at least" else value > limit.value


def outcome(limit: LimitAnswer) -> str:
    """What was found of a limit."""
    if limit.outcome == "found":
        return f"kept up to {km_h(limit.speed)} km/h"
    if limit.outcome == "not_reached":
        return "not reached in the range"
    return "broken at the lowest speed"


def exceeding(study: SpeedsFile) -> list[tuple[LimitAnswer, str, float]]:
    """Closed forms that would permit more than the simulated passages do: limit, track, speed in km/h."""
    lowest = float(study.column("speed_km_h")[0])
    return [
        (limit, track, permitted)
        for limit in study.limits
        if limit.outcome != "not_reached"
        for track, permitted in limit.closed_forms.items()
        if permitted > (limit.speed if math.isfinite(limit.speed) else lowest) + _SAME_SPEED
    ]


def _proposal(study: SpeedsFile) -> list[str]:
    if not math.isfinite(study.proposed):
        return []
    p2 = next((change for change in study.changes if change.key == "p2_kN"), None)
    change = ""
    if p2 is not None and math.isfinite(p2.today):
        change = (
            f" From {number(study.today, 0)} to {number(study.proposed, 0)} km/h P2 changes from {number(p2.today)} to "
            f"{number(p2.proposed)} kN ({p2.percent:+.0f}\N{NO-BREAK SPACE}%)."
        ).replace("-", "−")
    at = f"The proposed {number(study.proposed, 0)} km/h"
    found = breaks(study, study.proposed)
    if not study.limits:
        return [change.strip()] if change else []
    if found:
        return [f"{at} breaks " + " and ".join(limit.text for limit in found) + f".{change}"]
    if study.outcome == "found" and study.proposed > study.permissible:
        return [f"{at} itself keeps all limits, but a lower speed does not.{change}"]
    if study.outcome == "broken_at_lowest":
        return [f"{at} itself keeps all limits, but the lowest speed does not.{change}"]
    return [f"{at} keeps all limits.{change}"]


def _alarms(study: SpeedsFile) -> list[str]:
    alarms = []
    beyond = exceeding(study)
    for limit in study.limits:
        permitted = [f"{km_h(speed)} km/h ({track})" for of, track, speed in beyond if of is limit]
        if not permitted:
            continue
        simulated = (
            f"only up to {km_h(limit.speed)} km/h" if math.isfinite(limit.speed) else "not even at the lowest speed"
        )
        alarms.append(
            f"The closed form permits more than the simulation. For {limit.text} it would allow "
            f"{' and '.join(permitted)}; the simulated passages keep the limit {simulated}. Do not take the higher "
            "speed from the closed form: it knows the wheel path by its dip angle alone, and nothing of its shape "
            "before and after."
        )
    if not beyond:
        alarms += _below_at_proposed(study)
    alarms += [f"No passage at {number(speed, 1)} km/h: {reason}" for speed, reason in study.failures]
    # The two kinds above are told in the file as well, in other words.
    told = ("the closed form", "no passage at")
    alarms += [text[:1].upper() + text[1:] for text in study.warnings if not text.lower().startswith(told)]
    return alarms


def _below_at_proposed(study: SpeedsFile) -> list[str]:
    values = {change.key: change.proposed for change in study.changes}
    simulated = values.get("p2_kN", math.nan)
    below = [
        f"{label_of(key).removeprefix('P2, closed form ')} {number(value)} kN"
        for key, value in values.items()
        if key.startswith("closed_form/") and key.endswith("/p2_kN") and value < 0.97 * simulated
    ]
    if not below:
        return []
    return [
        f"At the proposed {number(study.proposed, 0)} km/h the closed forms lie below the simulated P2 of "
        f"{number(simulated)} kN: {', '.join(below)}."
    ]


def _source(limit: LimitAnswer) -> str:
    return limit.source or "source not named"
