"""What plots and pages take out of an answer: the tree itself or its file, labels with units, sentences, limits."""

from __future__ import annotations

import contextlib
import math
import os
from collections.abc import Iterator
from typing import Any, NamedTuple, TypeAlias

import numpy as np
import xarray as xr
from numpy.typing import NDArray

from . import quantities
from ._core import ComputeError, Finding, InputError
from ._tree import findings, open as opened

Source: TypeAlias = xr.DataTree | str | os.PathLike[str]

# How units are printed where the key of a quantity spells them otherwise.
_UNITS = {"-": "", "mm2": "mm²", "mm3": "mm³", "m/s2": "m/s²", "J/mm2": "J/mm²", "1e-6": "10⁻⁶", "um": "µm",
          "permil": "‰", "MN m2": "MN·m²", "kg m2": "kg·m²"}  # fmt: skip


def taken(source: Source, *kinds: str) -> xr.DataTree:
    """The answer itself, of one of some kinds; a path is opened. Raises InputError for files that cannot be read and
    answers of another kind."""
    answer = source if isinstance(source, xr.DataTree) else opened(source)
    kind = answer.attrs.get("answer", "tree of something else")
    if kind not in kinds:
        which = "the answer" if answer is source else f'"{source}"'
        raise InputError(f"{which} holds a {kind}; allowed: {' or '.join(kinds)}.")
    return answer


@contextlib.contextmanager
def lacking(file: str | os.PathLike[str], kind: str) -> Iterator[None]:
    """Tells in one sentence that a file lacks what an answer of its kind holds."""
    try:
        yield
    except (KeyError, IndexError, AttributeError, TypeError, ValueError) as error:
        if isinstance(error, ComputeError) or str(file) in str(error):
            raise
        raise InputError(f'"{file}" lacks what a {kind} holds ({error}); take a sound copy, or compute it again.') from error


def unit(name: str) -> str:
    """A unit in print; nothing for quantities without one."""
    return _UNITS.get(name, name)


def label(variable: xr.DataArray, *, meaning: bool = False, of: str | None = None) -> str:
    """Name (or meaning) and unit of a variable on an axis; `of`: a unit other than its own."""
    words = str(variable.attrs["description" if meaning else "long_name"]).partition(";")[0]
    return f"{words} [{unit(of or variable.attrs.get('units', '-')) or '-'}]"


def title(words: str) -> str:
    """A text with a capital at its begin."""
    return words[:1].upper() + words[1:]


def has(answer: xr.DataTree, path: str) -> bool:
    """Whether an answer has a node or a variable, with something in it."""
    try:
        found = answer[path]
    except KeyError:
        return False
    return bool(found.size) if isinstance(found, xr.DataArray) else bool(found.variables or found.children)


def read(answer: xr.DataTree | xr.DataArray, path: str) -> NDArray[Any]:
    """The values of a variable."""
    return np.asarray(variable(answer, path).values)


def variable(answer: xr.DataTree | xr.DataArray, path: str) -> xr.DataArray:
    """A variable with its attributes."""
    found = answer[path]
    if not isinstance(found, xr.DataArray):
        raise KeyError(path)
    return found


def node(answer: xr.DataTree, path: str) -> xr.DataTree:
    """A node of an answer."""
    found = answer[path]
    if not isinstance(found, xr.DataTree):
        raise KeyError(path)
    return found


def bodies_of(damage: xr.DataTree) -> list[str]:
    """The bodies a damage has maps of, wing before nose."""
    return list(node(damage, "passage").children)


def texts(answer: xr.DataTree, path: str) -> list[str]:
    """One text or a list of them, such as "dependence/sentence"; empty when the answer has none."""
    return [str(one) for one in np.atleast_1d(read(answer, path))] if has(answer, path) else []


def number(answer: xr.DataTree, path: str) -> float:
    """A single number; NaN when the answer has none."""
    return float(read(answer, path)) if has(answer, path) else math.nan


def rows(answer: xr.DataTree, path: str, *names: str) -> list[tuple[Any, ...]]:
    """Some variables of a node side by side; text as text and numbers as floats."""
    columns = [read(answer, f"{path}/{name}") for name in names]
    return [tuple(float(one) if isinstance(one, (float, np.floating)) else one for one in row)
            for row in zip(*columns, strict=True)]  # fmt: skip


def keys_of(answer: xr.DataTree) -> dict[str, str]:
    """Every key the case rests on, with its value as a case file says it."""
    return dict(zip(texts(answer, "case/keys/key"), texts(answer, "case/keys/value"), strict=True))


def gravest_first(answer: xr.DataTree) -> dict[str, list[Finding]]:
    """The findings of an answer by their gravity, those that are there."""
    found = {gravity: findings(answer, gravity=gravity) for gravity in ("grave", "warning", "note")}
    return {gravity: several for gravity, several in found.items() if several}


def grave_words(answer: xr.DataTree) -> str:
    """One short line when an answer has a grave finding; otherwise nothing."""
    if answer.attrs.get("answer") == "sweep":  # it tells its findings case by case
        grave = grave_cases(answer)
        return f"Grave: {np.sum(grave)} of {grave.size} cases; see their findings first" if np.any(grave) else ""
    kinds = dict.fromkeys(one.kind.replace("_", " ") for one in findings(answer, gravity="grave"))
    return f"Grave: {', '.join(kinds)}; see the findings first" if kinds else ""


def grave_cases(sweep: xr.DataTree) -> NDArray[np.bool_]:
    """Which cases of a sweep have a grave finding."""
    count = read(sweep, "status").size
    return read(sweep, "gravity") == 2.0 if has(sweep, "gravity") else np.full(count, False)


class Limit(NamedTuple):
    """What a study of speeds says of one limit; speeds in km/h, NaN where there is none."""

    key: str
    kind: str  # "at most" or "at least"
    value: float
    unit: str
    source: str  # empty: not named
    outcome: str  # "found", "not_reached", "broken_at_lowest" or "unanswered"
    speed: float
    first_broken: float
    kept_again: str  # intervals above the first break; empty: monotone as far as scanned
    closed_forms: dict[str, float]  # the speed each closed form permits, where it has one

    @property
    def text(self) -> str:
        """The limit in words."""
        return f"{quantities[self.key].label} {self.bound}"

    @property
    def bound(self) -> str:
        """The limit without what it limits."""
        return f"{self.kind} {self.value:.6g} {unit(self.unit)}".rstrip()

    def broken_by(self, value: float) -> bool:
        """Whether a value breaks the limit; what a passage does not have keeps any limit."""
        return value < self.value if self.kind == "at least" else value > self.value


def limits_of(study: xr.DataTree) -> list[Limit]:
    """The limits a study of speeds was asked for, and what was found."""
    if not has(study, "limits/quantity"):
        return []
    told = rows(study, "limits", "quantity", "kind", "value", "value_unit", "source", "outcome",
                "permissible_speed_km_h", "first_broken_km_h", "kept_again_km_h")  # fmt: skip
    speeds = read(study, "closed_form/limits/permissible_speed_km_h")
    tracks = texts(study, "lumped_track")
    none = np.all(np.isnan(speeds), axis=1)
    closed = [{} if none[i] else dict(zip(tracks, map(float, speeds[i]), strict=True)) for i in range(len(told))]
    return [Limit._make((*row, permitted)) for row, permitted in zip(told, closed, strict=True)]


def over_speeds(study: xr.DataTree, key: str) -> xr.DataArray:
    """A measure of the passages or of their steel over the speeds; raises InputError where the study has none."""
    for part in ("speeds", "steel"):
        if has(study, f"{part}/{key}"):
            return variable(study, f"{part}/{key}")
    known = [str(name) for part in ("speeds", "steel") if has(study, part) for name in node(study, part).data_vars]
    raise InputError(f'"{key}" is no measure of this study; allowed: {", ".join(known)}.')


def cumulative(values: NDArray[np.float64], weights: NDArray[np.float64]) -> tuple[NDArray[np.float64], ...]:
    """Values in order, and the share (in %) of the weight at or below each; as steps that begin at 0."""
    order = np.argsort(values, kind="stable")
    share = 100.0 * np.cumsum(weights[order]) / weights.sum() if values.size else np.empty(0)
    return np.append(values[order][:1], values[order]), np.append(0.0, share)[: values.size + bool(values.size)]


def maps_of(damage: xr.DataTree, quantity: str, part: str = "passage") -> dict[str, xr.DataArray]:
    """A map of the running surfaces by body, over x_mm and y_mm, of the bodies that were touched: `quantity` such as
    "wear_depth_um", `part` "passage" or, where there was one, "traffic"."""
    if part not in ("passage", "traffic") or not has(damage, part):
        raise InputError(f'part: "{part}" is not in this damage; allowed: passage, or traffic where there was one.')
    nodes = {body: node(damage, f"{part}/{body}") for body in bodies_of(damage) if has(damage, f"{part}/{body}")}
    known = [str(name) for one in nodes.values() for name in one.data_vars]
    if nodes and quantity not in known:
        raise InputError(f'"{quantity}" is no map of a damage; allowed: {", ".join(dict.fromkeys(known))}.')
    return {body: variable(one, quantity) for body, one in nodes.items()}


def contacts_of(damage: xr.DataTree, body: str | None, *keys: str) -> list[NDArray[np.float64]]:
    """Columns of the contacts of the case's own wheel by time, on one body or on all."""
    on = read(damage, "contacts/body")
    which = np.full(on.size, True) if body is None else on == body
    return [read(damage, f"contacts/{key}")[which] for key in keys]
