"""A design problem, what can be made and may be used, and the archive of all designs looked at while it is solved."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence
from typing import Any, Literal, TypeAlias

import numpy as np
import xarray as xr
from numpy.typing import NDArray

from ._core import Case, InputError, KeyKind, caution, layout, quantities
from ._core.study import SharedParts
from .study.answers import Source, case_of
from .study.datasets import check_measures, coordinate_names
from .study.running import sweep
from .study.sampling import Scalar, points

Numbers: TypeAlias = NDArray[np.float64]

STEP = 0.010  # m, between the stations at which slopes are read
REACH = 3.0  # m of the nose looked at, from its point
GRAVE = 2  # gravity of a case that cannot happen, or hides what would; see study.datasets


@dataclasses.dataclass(frozen=True)
class Wheel:
    """One of the wheels a design must carry."""

    values: Mapping[str, Scalar]  # keys of a case it differs in, in their units: hollow, offset, speed, direction, ...
    weight: float = 1.0  # how often it comes, beside the others
    group: str = ""  # name by which objectives may pick it


@dataclasses.dataclass(frozen=True)
class Limits:
    """Limits a design must keep. The defaults are assumptions to start from, no standard: set your own."""

    ramp_slope: float = 0.020  # most rise of the highest line of the nose per length (m/m), read every 10 mm
    wing_lift_slope: float = 0.010  # most lift of the wing per length (m/m), where the case has a lift
    # Least and most of measures under every wheel, in their units; NaN or infinity for none:
    # {"nose_thickness_at_transfer_mm": (20, inf)}.
    measures: Mapping[str, tuple[float, float]] = dataclasses.field(default_factory=dict)

    def __post_init__(self) -> None:
        for name, value in (("ramp_slope", self.ramp_slope), ("wing_lift_slope", self.wing_lift_slope)):
            if not value > 0.0:
                raise InputError(f"{name}: {value} is not allowed; allowed: above 0 m/m.")


@dataclasses.dataclass(frozen=True)
class Problem:
    """What may change, from where, for whom, within which limits."""

    source: Source  # the case designed, or its file; what no key says stays
    bounds: Mapping[str, tuple[float, float]]  # least and most of each key of the design, in its unit
    start: Mapping[str, float]  # the design to compare with: a value of each key within its bounds
    wheels: Sequence[Wheel]  # the population; all give values of the same keys
    limits: Limits = dataclasses.field(default_factory=Limits)  # of manufacture and use

    def __post_init__(self) -> None:
        object.__setattr__(self, "source", case_of(self.source))
        if not self.bounds or set(self.bounds) != set(self.start):
            keys = f"bounds have {sorted(self.bounds)}, start has {sorted(self.start)}"
            raise InputError(f"start: {keys}; allowed: the same keys, at least one.")
        for key, (low, high) in self.bounds.items():
            info = self.case.key(key)
            if info.kind is not KeyKind.number:
                raise InputError(f"{key}: a design varies numbers only; this is a {info.kind.name}.")
            if not (info.least <= low < high <= info.most):
                raise InputError(f"{key}: bounds {low} to {high} are not allowed; allowed: {info.least} to {info.most}.")
            if not low <= self.start[key] <= high:
                raise InputError(f"{key}: start {self.start[key]} is not allowed; allowed: {low} to {high}.")
        if not self.wheels:
            raise InputError("wheels: none; allowed: at least one.")
        for wheel in self.wheels:
            if set(wheel.values) != set(self.wheels[0].values) or not wheel.values:
                raise InputError("wheels: all must give values of the same keys, at least one.")
            if set(wheel.values) & set(self.bounds):
                raise InputError(f"wheels: {sorted(set(wheel.values) & set(self.bounds))} belong to the design.")
            if not wheel.weight > 0.0:
                raise InputError(f"wheels: weight {wheel.weight} is not allowed; allowed: above 0.")

    @property
    def case(self) -> Case:
        """The case designed."""
        return case_of(self.source)

    @property
    def limits_of_search(self) -> tuple[Numbers, Numbers]:
        """Lower and upper bounds in the order of the keys."""
        low, high = np.array(list(self.bounds.values()), dtype=np.float64).T
        return low, high

    @property
    def start_values(self) -> Numbers:
        """The start in the order of the bounds."""
        return np.array([self.start[key] for key in self.bounds], dtype=np.float64)


@dataclasses.dataclass(frozen=True)
class Objective:
    """What is to be small: a measure of a sweep in its unit, as the mean over the wheels by their weights or the worst of
    them, of one group of wheels or of all.

    Peaks count from the landing on: in a trailing move the wheel lands on the wing, and "peak_nose_kN" is only what the
    nose still carries then; "peak_total_kN" weighs both directions alike.
    """

    measure: str = "peak_nose_kN"
    statistic: Literal["mean", "worst"] = "mean"
    group: str | None = None

    @property
    def name(self) -> str:
        """Name of its variable: measure, statistic and group."""
        parts = [self.measure, "worst" if self.statistic == "worst" else "", self.group or ""]
        return "_".join(part for part in parts if part)

    @property
    def label(self) -> str:
        """In words, for axes."""
        wheels = f"{self.group} wheels" if self.group else "all wheels"
        return f"{'mean' if self.statistic == 'mean' else 'worst'} over {wheels}"

    def over(self, answers: Numbers, wheels: tuple[Wheel, ...]) -> Numbers:
        """Values of designs from the measures [design, wheel]."""
        chosen = [i for i, wheel in enumerate(wheels) if self.group in (None, wheel.group)]
        if self.statistic == "worst":
            return np.asarray(answers[:, chosen].max(axis=1), dtype=np.float64)
        weights = np.array([wheels[i].weight for i in chosen])
        return np.asarray(answers[:, chosen] @ (weights / weights.sum()), dtype=np.float64)


@dataclasses.dataclass(frozen=True)
class Entry:
    """A design looked at. `values` are NaN where it breaks a limit of shape or some wheel cannot pass; a wheel with
    a grave finding is told in `failure` and counts in `excess`."""

    design: Numbers
    values: Numbers
    excess: float
    failure: str


class Archive:
    """All designs looked at, each once; new ones are answered together in one sweep."""

    def __init__(self, problem: Problem, aims: tuple[Objective, ...], threads: int, executor: Any) -> None:
        groups = {wheel.group for wheel in problem.wheels}
        for aim in aims:
            if aim.group is not None and aim.group not in groups:
                raise InputError(f"group: {aim.group!r} has no wheels; allowed: {', '.join(sorted(groups))}.")
        self.problem, self.aims = problem, aims
        self.options: dict[str, Any] = {"threads": threads, "executor": executor, "progress": False}
        self.options["parts"] = None if executor is not None else SharedParts()
        self.entries: dict[bytes, Entry] = {}

    def look_at(self, designs: Numbers) -> Numbers:
        """Objectives [design, aim]; NaN where there are none."""
        new = {design.tobytes(): design for design in np.ascontiguousarray(designs) if design.tobytes() not in self.entries}
        self._answer(list(new.values()))
        return np.array([self.entries[design.tobytes()].values for design in np.ascontiguousarray(designs)])

    def excess(self, designs: Numbers) -> Numbers:
        """How much designs looked at break their limits; 0: allowed."""
        return np.array([self.entries[design.tobytes()].excess for design in np.ascontiguousarray(designs)])

    def designs(self) -> Numbers:
        """All designs looked at, in order."""
        return np.array([entry.design for entry in self.entries.values()])

    def allowed(self) -> list[Entry]:
        """The designs that keep all limits, in order."""
        return [entry for entry in self.entries.values() if entry.excess == 0.0]

    def refused_below(self, value: float) -> list[Entry]:
        """The designs that break a limit or have a grave finding, and would have a smaller first objective."""
        return [entry for entry in self.entries.values() if entry.excess > 0.0 and entry.values[0] < value]

    def best(self, aim: int) -> Numbers:
        """The allowed design with the smallest objective; the first of equals."""
        return min(self.allowed(), key=lambda entry: float(entry.values[aim])).design

    def check_start(self) -> None:
        """Raise InputError unless the start is allowed and can be answered."""
        self.look_at(self.problem.start_values[None])
        [entry] = self.entries.values()
        if entry.excess > 0.0:
            raise InputError(f"start: {entry.failure}. Start from a design that keeps the limits, or widen them.")

    def dataset(self) -> xr.Dataset:
        """All designs along ``design``."""
        entries, case, known = list(self.entries.values()), self.problem.case, quantities()
        variables: dict[str, Any] = {}
        for i, (key, name) in enumerate(coordinate_names(list(self.problem.bounds)).items()):
            attrs = {"units": case.key(key).unit, "long_name": case.key(key).meaning, "key": key}
            variables[name] = ("design", np.array([entry.design[i] for entry in entries]), attrs)
        for i, aim in enumerate(self.aims):
            of = known[aim.measure]
            attrs = {"units": of.unit, "long_name": of.label, "description": aim.label}
            variables[aim.name] = ("design", np.array([entry.values[i] for entry in entries]), attrs)
        variables["excess"] = ("design", np.array([entry.excess for entry in entries]))
        variables["allowed"] = ("design", np.array([entry.excess == 0.0 for entry in entries]))
        variables["failure"] = ("design", np.array([entry.failure for entry in entries], dtype=object))
        return xr.Dataset(variables, attrs={"caution": caution})

    def _answer(self, designs: list[Numbers]) -> None:
        possible = []
        for design in designs:
            excess, failure = self._excess_of_shape(design)
            # One that is possible is answered below; it keeps its place in the order.
            self.entries[design.tobytes()] = Entry(design, np.full(len(self.aims), np.nan), excess, failure)
            possible += [design] if excess == 0.0 else []
        if not possible:
            return
        wheels = tuple(self.problem.wheels)
        rows = [{**dict(zip(self.problem.bounds, design.tolist(), strict=True)), **wheel.values}
                for design in possible for wheel in wheels]  # fmt: skip
        table = {key: [row[key] for row in rows] for key in rows[0]}
        answers = sweep(points(self.problem.case, table), **self.options)
        measured = {measure: answers[self._variable(answers, measure)].values.reshape(-1, len(wheels))
                    for measure in [*(aim.measure for aim in self.aims), *self.problem.limits.measures]}  # fmt: skip
        values = np.stack([aim.over(measured[aim.measure], wheels) for aim in self.aims], axis=1)
        failures, gravity, found = (answers[name].values.reshape(-1, len(wheels))
                                    for name in ("failure", "gravity", "findings"))  # fmt: skip
        grave = gravity == GRAVE
        for i, design in enumerate(possible):
            excess, failure = self._excess_of_answers(values[i], failures[i], {m: v[i] for m, v in measured.items()})
            if grave[i].any():  # what was computed cannot happen: no design, however good its numbers look
                excess, failure = excess + 10.0 * int(grave[i].sum()), f"grave under some wheel: {found[i][grave[i]][0]}"
            self.entries[design.tobytes()] = Entry(design, values[i], excess, failure)

    def _variable(self, answers: xr.Dataset, measure: str) -> str:
        name = measure if "measure" in answers.get(measure, answers["status"]).attrs else f"result_{measure}"
        check_measures(answers, [name])
        return name

    def _excess_of_shape(self, design: Numbers) -> tuple[float, str]:
        values = dict(zip(self.problem.bounds, design.tolist(), strict=True))
        try:
            excess = excess_of_shape(self.problem.case.vary(values), self.problem.limits)
        except InputError as error:
            return 10.0, str(error).rstrip(". ")
        return excess, "" if excess == 0.0 else f"slopes are over their limits by {100 * excess:.0f} %"

    def _excess_of_answers(self, values: Numbers, failures: Any, measured: Mapping[str, Numbers]) -> tuple[float, str]:
        missing = [str(reason) for reason in failures if reason]
        if missing:
            return 10.0 * len(missing), missing[0].rstrip(". ")
        if not np.isfinite(values).all():
            return 10.0, "the measure does not exist under some wheel"
        worst, failure = 0.0, ""
        for measure, (low, high) in self.problem.limits.measures.items():
            excess = excess_of_measure(measured[measure], low, high)
            if excess > worst:
                worst, failure = excess, f"{measure} is out of its limits by {100 * excess:.0f} %"
        return worst, failure


def excess_of_shape(case: Case, limits: Limits) -> float:
    """How far the slopes of a design are over their limits, as a share of these; 0 within."""
    excess = max(0.0, ramp_slope(case) / limits.ramp_slope - 1.0)
    return excess + max(0.0, wing_lift_slope(case) / limits.wing_lift_slope - 1.0)


def ramp_slope(case: Case) -> float:
    """Steepest rise of the highest line of the nose (m/m) in the first metres."""
    shape = case.excitation
    if isinstance(shape, layout.CrossingShape):
        made = layout.generate(shape)
    elif isinstance(shape, layout.SectionedShape):
        made = layout.from_sections(shape)
    else:
        raise InputError(f"{case.name}: a prescribed path has no nose to design; give a crossing.")
    nose = next(body for body in made.bodies if body.name == "nose")
    stations = np.arange(nose.x_begin + 1e-6, min(nose.x_begin + REACH, nose.x_end), STEP)
    top = np.array([np.max(nose.section(float(x), 81)[1]) for x in stations])
    return float(np.max(np.diff(top)) / STEP)


def wing_lift_slope(case: Case) -> float:
    """Lift of the wing over the length in which it is reached (m/m); 0 for measured sections."""
    shape = case.excitation
    if not isinstance(shape, layout.CrossingShape) or shape.wing_lift_run <= 0.0:
        return 0.0
    return shape.wing_lift / shape.wing_lift_run


def excess_of_measure(values: Numbers, low: float, high: float) -> float:
    """How far a measure is out of its limits under the worst wheel, as a share of the limit."""
    below = (low - np.nanmin(values)) / max(abs(low), 1e-9) if np.isfinite(low) else 0.0
    above = (np.nanmax(values) - high) / max(abs(high), 1e-9) if np.isfinite(high) else 0.0
    return float(max(below, above, 0.0))
