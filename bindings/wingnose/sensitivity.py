"""Which inputs a measure depends on: Sobol' indices and Morris screening, on top of sweeps.

In three steps, so that the cases may be answered anywhere and stored::

    from wingnose import sensitivity, study

    design = sensitivity.sobol_design("profiles/demo.toml", {
        "passage.speed_km_h": (80, 140),
        "wheel.hollow_depth_mm": (0, 2),
        "track.pad_stiffness_MN_m": (60, 300),
    }, n=256, seed=1)
    answers = study.sweep(design.plan, "sensitivity.h5")
    indices = sensitivity.analyse(design, answers, ["p2_kN", "peak_nose_kN"])
    sensitivity.ranking(indices, "p2_kN")

Both methods are those of SALib: ``pip install "wingnose[study]"``. Indices describe the ranges they were computed for;
other ranges give others.

References
----------
First-order and total indices: Sobol' 2001; sampling of Saltelli 2002; estimators of Saltelli et al. 2010.
Screening: Morris 1991, with the absolute mean of Campolongo et al. 2007.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence
from typing import Any, Literal, TypeAlias

import numpy as np
import xarray as xr
from matplotlib.axes import Axes
from numpy.typing import NDArray

from ._core import Case, InputError, caution
from ._core.study import Sweep
from ._extras import need
from ._house import COLOURS, INK, PAPER, legend, sheet
from .study.answers import Source, case_of
from .study.datasets import check_measures, coordinate_names
from .study.sampling import Range, from_unit_cube

Numbers: TypeAlias = NDArray[np.float64]

__all__ = ["Design", "analyse", "morris_design", "ranking", "sobol_design"]

FEWEST_BLOCKS = 8  # base points or trajectories left after failures, below which no index is given


@dataclasses.dataclass(frozen=True)
class Design:
    """Cases whose answers give indices."""

    method: Literal["sobol", "morris"]
    plan: Sweep  # the cases, to be answered by `wingnose.study.sweep`
    keys: tuple[str, ...]  # the inputs that vary
    block: int  # cases that belong together: a base point with its variations, or a trajectory
    unit: Numbers  # points of the unit cube the cases stand for, [case, key]
    seed: int | None  # of the sample, and of the confidence intervals
    levels: int = 4  # grid of Morris trajectories

    @property
    def problem(self) -> dict[str, Any]:
        """The inputs as SALib describes them."""
        return {"num_vars": len(self.keys), "names": list(self.keys), "bounds": [[0.0, 1.0]] * len(self.keys)}


def sobol_design(source: Source, ranges: Mapping[str, Range], n: int = 128, seed: int | None = None) -> Design:
    """Cases for first-order and total Sobol' indices.

    ``ranges`` as of :func:`wingnose.study.latin_hypercube`; ``n``: base points, a power of two. The design holds
    n (k + 2) cases for k keys; the same ``seed`` gives the same cases.

    Examples
    --------
    >>> from wingnose import sensitivity
    >>> ranges = {"passage.speed_km_h": (80, 140), "wheel.hollow_depth_mm": (0, 2)}
    >>> len(sensitivity.sobol_design("profiles/demo.toml", ranges, n=64, seed=1).plan)
    256
    """
    if n < 2 or n & (n - 1):
        raise InputError(f"n: {n} is not allowed; allowed: powers of two from 2 on. Take 64, 128 or 256.")
    return _design("sobol", case_of(source), ranges, n, seed, calc_second_order=False)


def morris_design(
    source: Source, ranges: Mapping[str, Range], trajectories: int = 20, seed: int | None = None, *, levels: int = 4
) -> Design:
    """Cases for Morris screening: few of them tell the inputs that matter from those that do not.

    ``trajectories``: paths through the inputs; the design holds trajectories x (k + 1) cases for k keys. ``levels``:
    values per input, an even number. The rest as of :func:`sobol_design`, but distributions are cut at their 0.5 % and
    99.5 % quantiles, since trajectories reach the ends.
    """
    if trajectories < 2:
        raise InputError(f"trajectories: {trajectories} is not allowed; allowed: 2 or more. Take 20.")
    if levels < 2 or levels % 2:
        raise InputError(f"levels: {levels} is not allowed; allowed: even numbers. Take 4.")
    return _design("morris", case_of(source), ranges, trajectories, seed, num_levels=levels)


def analyse(
    design: Design,
    answers: xr.Dataset,
    measures: Sequence[str],
    *,
    failed: Literal["refuse", "drop"] = "refuse",
    confidence: float = 0.95,
    resamples: int = 200,
) -> xr.Dataset:
    """Indices of some measures from the answers of a design.

    `answers`: of ``design.plan``, from :func:`wingnose.study.sweep` or ``open_dataset``; `measures` are its variables.
    `failed`: what to do where a measure has no value: "refuse" raises InputError with the first reason, "drop" leaves
    out each base point or trajectory with such a case; the indices then hold for the inputs that can be answered.
    `confidence`, `resamples`: level of the confidence half-widths, and resamples of the bootstrap they come from.

    The Dataset has the dimensions ``measure`` and ``factor``. Sobol': ``first`` and ``total`` (shares of the variance)
    with ``first_confidence`` and ``total_confidence``. Morris: ``mean``, ``mean_absolute``, ``spread`` (in the unit of
    the measure, for a change over the whole range) and ``mean_absolute_confidence``. A measure that does not vary has NaN.
    ``dropped`` counts the base points or trajectories left out.

    Examples
    --------
    >>> from wingnose import sensitivity, study
    >>> design = sensitivity.morris_design("profiles/demo.toml", {
    ...     "passage.speed_km_h": (80, 140), "vehicle.unsprung_mass_kg": (600, 1200)}, trajectories=8, seed=1)
    >>> indices = sensitivity.analyse(design, study.sweep(design.plan, progress=False), ["p2_kN"])
    >>> bool((indices["mean"].sel(measure="p2_kN") > 0).all())  # faster and heavier: more
    True
    """
    if failed not in ("refuse", "drop"):
        raise InputError(f"failed: {failed!r} is not allowed; allowed: refuse, drop.")
    if not 0.0 < confidence < 1.0:
        raise InputError(f"confidence: {confidence} is not allowed; allowed: between 0 and 1.")
    if answers.attrs.get("fingerprint") != design.plan.fingerprint:
        raise InputError("answers: of another sweep than the design; allowed: those of design.plan.")
    check_measures(answers, measures)
    names = list(coordinate_names(design.keys).values())
    found = [_of_measure(design, answers, name, failed, confidence, resamples) for name in measures]
    variables: dict[str, Any] = {
        name: (("measure", "factor"), np.array([columns[name] for columns, _ in found]), {"long_name": meaning})
        for name, (_, meaning) in INDICES[design.method].items()
    }
    variables["dropped"] = ("measure", np.array([dropped for _, dropped in found], dtype=np.int64))
    coords = {
        "measure": list(measures),
        "factor": names,
        "key": ("factor", list(design.keys)),
        "units": ("measure", [answers[name].attrs["units"] for name in measures]),
        "label": ("measure", [answers[name].attrs["long_name"] for name in measures]),
    }
    attrs = {"method": design.method, "cases": len(design.plan), "confidence": confidence, "caution": caution}
    return xr.Dataset(variables, coords, attrs)


def ranking(indices: xr.Dataset, measure: str, ax: Axes | None = None) -> Axes:
    """Inputs by their influence on a measure of :func:`analyse`, the strongest on top, with confidence intervals.

    Sobol': shares of the variance, alone and with all interactions. Morris: mean absolute change of the measure over
    the range of the input, in the unit of the measure, with the spread beside it.
    """
    if measure not in indices["measure"].values:
        raise InputError(f"measure: {measure} was not analysed; allowed: {', '.join(indices['measure'].values)}.")
    of = indices.sel(measure=measure)
    sobol = indices.attrs["method"] == "sobol"
    outer, inner = ("total", "first") if sobol else ("mean_absolute", "spread")
    of = of.sortby(of[outer].fillna(-1.0))
    place = np.arange(of.sizes["factor"], dtype=float)
    percent = 100 * indices.attrs["confidence"]
    title = f"{str(of['label'].values).capitalize()}: what it depends on ({percent:g} % confidence)"
    change = f"change of {measure} over the range of the input [{of['units'].values}]"
    ax = sheet(ax, "share of the variance [-]" if sobol else change, "", title)
    words = ("with all interactions", "alone") if sobol else ("mean of absolute changes", "spread (interaction, curvature)")
    for name, label, shift, shade in ((outer, words[0], 0.19, "nose"), (inner, words[1], -0.19, "wing")):
        error = of.get(f"{name}_confidence")
        ax.barh(place + shift, of[name].values, 0.34, color=COLOURS[shade], label=label, edgecolor=PAPER)
        if error is not None:
            at = (of[name].values, place + shift)
            ax.errorbar(*at, xerr=error.values, fmt="none", ecolor=INK, capsize=2.5, elinewidth=0.9)
    ax.set_yticks(place, [str(name) for name in of["factor"].values])
    ax.grid(False, axis="y")
    if sobol:
        ax.set_xlim(left=min(0.0, float(np.nanmin(of["first"] - of["first_confidence"], initial=0.0))))
    return legend(ax)


# Indices of each method: their name with SALib, and their meaning.
INDICES = {
    "sobol": {
        "first": ("S1", "share of the variance from this input alone"),
        "first_confidence": ("S1_conf", "half-width of its confidence interval"),
        "total": ("ST", "share of the variance from this input with all its interactions"),
        "total_confidence": ("ST_conf", "half-width of its confidence interval"),
    },
    "morris": {
        "mean": ("mu", "mean change of the measure over the range of this input"),
        "mean_absolute": ("mu_star", "mean of the absolute changes"),
        "mean_absolute_confidence": ("mu_star_conf", "half-width of its confidence interval"),
        "spread": ("sigma", "standard deviation of the changes: interaction or curvature"),
    },
}


def _design(
    method: Literal["sobol", "morris"], case: Case, ranges: Mapping[str, Range], n: int, seed: int | None, **more: int
) -> Design:
    """Cases of `n` base points or trajectories, as SALib samples them; ranges are checked at their middle before."""
    if not ranges:
        raise InputError('ranges: empty; allowed: at least one key. Write {"passage.speed_km_h": (80, 140)}.')
    middle = Sweep(case, from_unit_cube(case, ranges, np.full((1, len(ranges)), 0.5)), grid=False)
    block, levels = len(ranges) + (2 if method == "sobol" else 1), more.get("num_levels", 4)
    design = Design(method, middle, tuple(ranges), block, np.empty((0, 0)), seed, levels)
    unit = need(f"SALib.sample.{method}", "study", f"{method}_design").sample(design.problem, n, seed=seed, **more)
    inside = unit.copy()
    for i, of in enumerate(ranges.values()):
        if method == "morris" and hasattr(of, "ppf"):
            inside[:, i] = 0.005 + 0.99 * unit[:, i]
    return dataclasses.replace(design, plan=Sweep(case, from_unit_cube(case, ranges, inside), grid=False), unit=unit)


def _of_measure(
    design: Design, answers: xr.Dataset, name: str, failed: str, confidence: float, resamples: int
) -> tuple[dict[str, Numbers], int]:
    """Columns of one measure, and how many base points or trajectories were left out."""
    values = np.asarray(answers[name].values, dtype=np.float64).reshape(-1, design.block)
    kept = np.asarray(np.isfinite(values).all(axis=1), dtype=np.bool_).reshape(-1)
    dropped = int(np.count_nonzero(~kept))
    if dropped and failed == "refuse":
        number = int(np.flatnonzero(~np.isfinite(values.reshape(-1)))[0])
        missing = int(np.count_nonzero(~np.isfinite(values)))
        reason = str(answers["failure"].values[number]) or "the measure does not exist there"
        reason = reason.rstrip(". ")
        advice = 'Narrow the ranges, or pass failed="drop" to leave them out'
        raise InputError(f"{name}: {missing} of {values.size} cases have no value; case {number}: {reason}. {advice}.")
    if np.count_nonzero(kept) < FEWEST_BLOCKS and dropped:
        raise InputError(f"{name}: only {np.count_nonzero(kept)} of {len(kept)} base points or trajectories are whole.")
    result, unit = values[kept].reshape(-1), design.unit.reshape(-1, design.block, len(design.keys))[kept]
    names = INDICES[design.method]
    if np.ptp(result) == 0.0:
        return {ours: np.full(len(design.keys), np.nan) for ours in names}, dropped
    options = {"num_resamples": resamples, "conf_level": confidence, "seed": design.seed}
    analysis = need(f"SALib.analyze.{design.method}", "study", "analyse")
    if design.method == "sobol":
        found = analysis.analyze(design.problem, result, calc_second_order=False, **options)
    else:
        points = unit.reshape(-1, len(design.keys))
        found = analysis.analyze(design.problem, points, result, num_levels=design.levels, **options)
    return {ours: np.asarray(found[theirs], dtype=np.float64) for ours, (theirs, _) in names.items()}, dropped
