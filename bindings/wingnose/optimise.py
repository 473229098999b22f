"""Shapes of the nose that load it least: a design search over a population of wheels.

The keys of the crossing (ramp, wing lift, thickness at full height) vary between bounds; every design is run under all
wheels of a population, and one measure of these passages, averaged or the worst, is made as small as the limits of
manufacture allow::

    from wingnose import optimise

    problem = optimise.Problem(
        "profiles/demo.toml",
        bounds={"crossing.nose_start_depth_mm": (4, 8), "crossing.nose_ramp_end_thickness_mm": (35, 60)},
        start={"crossing.nose_start_depth_mm": 6, "crossing.nose_ramp_end_thickness_mm": 45},
        wheels=[
            optimise.Wheel({"wheel.hollow_depth_mm": 0, "passage.direction": "facing"}, weight=2, group="new"),
            optimise.Wheel({"wheel.hollow_depth_mm": 2, "passage.direction": "facing"}, weight=1, group="hollow"),
        ],
    )
    found = optimise.minimise(problem, optimise.Objective("peak_nose_kN"), seed=1)
    front = optimise.front(problem, optimise.Objective("peak_nose_kN", group="new"),
                           optimise.Objective("peak_nose_kN", group="hollow"), seed=1)
    optimise.front_plot(front)

The search is SciPy's differential evolution (Storn and Price 1997), a generation being one sweep, followed by the
simplex of Nelder and Mead 1965. A design that breaks a limit, or that some wheel cannot pass or passes with a grave
finding, ranks behind every design that does not, by how much it breaks it (Deb 2000). The best design found is not
proven to be the best there is.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import Any, TypeAlias

import numpy as np
import xarray as xr
from matplotlib.axes import Axes
from numpy.typing import NDArray

from ._core import InputError
from ._design import Archive, Limits, Numbers, Objective, Problem, Wheel
from ._extras import need
from ._house import COLOURS, INK, legend, sheet

Search: TypeAlias = Callable[[Numbers], Numbers]  # of designs [design, key]: how far each is from the aim

__all__ = ["Limits", "Objective", "Optimum", "Problem", "Wheel", "front", "front_plot", "minimise", "non_dominated"]

# Ranks behind every value of a measure that is answered.
BEHIND_ALL = 1e12


@dataclasses.dataclass(frozen=True)
class Optimum:
    """What a search found."""

    best: dict[str, float]  # values of the keys, ready for `Case.vary`
    value: float  # the objective there, never above that of the start
    start_value: float
    history: xr.Dataset  # every design looked at, in order, with `best_so_far`
    governed_by: list[str]  # what keeps the optimum from being better, a sentence each: bounds, limits, findings


def minimise(
    problem: Problem,
    objective: Objective | None = None,
    *,
    generations: int = 15,
    population: int = 16,
    refine: int = 60,
    seed: int | None = None,
    threads: int = 0,
    executor: Any = None,
) -> Optimum:
    """The design with the smallest objective: mean of the peak force on the nose when left out.

    `generations`, `population`: of the differential evolution: population x (generations + 1) designs are looked at,
    each under every wheel; `refine`: designs the simplex may look at afterwards, 0 for none; `seed`: the same seed
    gives the same search; `threads`, `executor`: as of :func:`wingnose.study.sweep`.

    Examples
    --------
    >>> from wingnose import optimise
    >>> problem = optimise.Problem("profiles/demo.toml", bounds={"crossing.nose_start_depth_mm": (4, 8)},
    ...     start={"crossing.nose_start_depth_mm": 6},
    ...     wheels=[optimise.Wheel({"wheel.lateral_offset_mm": y}) for y in (-2, 2)])
    >>> found = optimise.minimise(problem, generations=2, population=5, refine=4, seed=1)
    >>> found.value <= found.start_value, 4 <= found.best["crossing.nose_start_depth_mm"] <= 8
    (True, True)
    """
    objective = objective or Objective()
    archive = Archive(problem, (objective,), threads, executor)
    archive.check_start()

    def of(designs: Numbers) -> Numbers:
        return _ranked(archive.look_at(designs)[:, 0], archive, designs)

    _evolve(of, problem, _first(problem, population, seed), generations, seed)
    if refine:
        _simplex(of, problem, archive.best(0), refine)
    history = archive.dataset()
    best = archive.best(0)
    running = np.fmin.accumulate(np.where(history["allowed"], history[objective.name], np.nan))
    history["best_so_far"] = ("design", running, {**history[objective.name].attrs})
    value, start = float(archive.look_at(best[None])[0, 0]), float(history[objective.name].values[0])
    values = dict(zip(problem.bounds, best.tolist(), strict=True))
    return Optimum(values, value, start, history, _governing(problem, archive, best, value))


def front(
    problem: Problem,
    first: Objective,
    second: Objective,
    *,
    n: int = 32,
    directions: int = 5,
    generations: int = 6,
    population: int = 12,
    seed: int | None = None,
    threads: int = 0,
    executor: Any = None,
) -> xr.Dataset:
    """The trade-off between two objectives: designs of which none is better in both.

    A Sobol' sample of the bounds is followed by one search per direction, from the first objective alone to the second
    alone, each for the smallest weighted Chebyshev distance from the best values found so far (Steuer and Choo 1983).

    `first`, `second`: for example the same measure of two groups of wheels: facing and trailing, or new and hollow;
    `n`: designs of the sample, a power of two; `directions`, `generations`, `population`: of the searches; `seed`,
    `threads`, `executor`: as of :func:`minimise`. Returns all designs looked at along ``design``, the start first:
    keys, objectives, ``allowed`` (keeps all limits and passes all wheels), ``excess`` over the limits, ``failure``, and
    ``on_front``.
    """
    if first == second:
        raise InputError(f"second: {second.name} is the first objective too; give two that differ.")
    archive = Archive(problem, (first, second), threads, executor)
    archive.check_start()
    archive.look_at(_first(problem, n, seed))
    generator = np.random.default_rng(seed)
    for share in np.linspace(0.0, 1.0, directions):
        of = _towards(archive, float(share))
        known = archive.designs()
        order = np.argsort(of(known), kind="stable")[: max(population, 5)]
        _evolve(of, problem, known[order], generations, int(generator.integers(2**31)))
    dataset = archive.dataset()
    values = np.stack([dataset[first.name].values, dataset[second.name].values], axis=1)
    on_front = np.zeros(len(values), dtype=bool)
    allowed = np.flatnonzero(dataset["allowed"].values)
    on_front[allowed] = non_dominated(values[allowed])
    dataset["on_front"] = ("design", on_front, {"long_name": "no allowed design looked at is better in both"})
    dataset.attrs["objectives"] = [first.name, second.name]
    return dataset


def non_dominated(values: Numbers) -> NDArray[np.bool_]:
    """Rows [design, objective] of which no other row is as small in all and smaller in one."""
    as_small = (values[:, None, :] <= values[None, :, :]).all(axis=2)
    smaller = (values[:, None, :] < values[None, :, :]).any(axis=2)
    return np.asarray(~(as_small & smaller).any(axis=0), dtype=np.bool_)


def front_plot(trade_off: xr.Dataset, ax: Axes | None = None) -> Axes:
    """The trade-off of :func:`front` among all designs looked at: first objective across, second up, in their units."""
    across, up = (trade_off[name] for name in trade_off.attrs["objectives"])
    words = [f"{o.attrs['long_name']}, {o.attrs['description']} [{o.attrs['units']}]" for o in (across, up)]
    ax = sheet(ax, words[0], words[1], f"Trade-off among {int(trade_off['allowed'].sum())} allowed designs")
    allowed, chosen = trade_off["allowed"].values, trade_off["on_front"].values
    ax.plot(across[allowed], up[allowed], ".", color=COLOURS["wheel"], alpha=0.45, markersize=5, label="looked at")
    order = np.argsort(across.values[chosen], kind="stable")
    line = (across.values[chosen][order], up.values[chosen][order])
    ax.plot(*line, "-o", color=COLOURS["nose"], markersize=5, linewidth=1.3, label="front", drawstyle="steps-post")
    ax.plot(across[0], up[0], "D", color=COLOURS["wing"], markeredgecolor=INK, markersize=7, label="start")
    return legend(ax)


def _governing(problem: Problem, archive: Archive, best: Numbers, value: float) -> list[str]:
    """Bounds the best design lies at, and why designs with a smaller objective were refused."""
    told = [f"{key} lies at its {'lower' if x - low < high - x else 'upper'} bound, {x:g}; a wider one may allow better"
            for (key, (low, high)), x in zip(problem.bounds.items(), best.tolist(), strict=True)
            if min(x - low, high - x) <= 1e-3 * (high - low)]  # fmt: skip
    refused = archive.refused_below(value)
    if refused:
        nearest = min(refused, key=lambda entry: entry.excess)
        told.append(f"{len(refused)} of the designs looked at have a smaller objective and were refused; the nearest to "
                    f"being allowed: {nearest.failure}")  # fmt: skip
    return told


def _ranked(values: Numbers, archive: Archive, designs: Numbers) -> Numbers:
    """Values of allowed designs; behind them the others, by how much they break."""
    excess = archive.excess(designs)
    return np.where(excess > 0.0, BEHIND_ALL * (1.0 + excess), values)


def _towards(archive: Archive, share: float) -> Search:
    """Distance from the best values so far, `share` of it weighing the second objective."""
    values = np.array([entry.values for entry in archive.allowed()])
    best, span = values.min(axis=0), np.ptp(values, axis=0)
    weight = np.array([1.0 - share, share]) / np.where(span > 0.0, span, 1.0)

    def of(designs: Numbers) -> Numbers:
        away = (archive.look_at(designs) - best) * weight
        # A little of the sum keeps designs off the front that are as good in the one and worse in the other.
        return _ranked(away.max(axis=1) + 1e-3 * away.sum(axis=1), archive, designs)

    return of


def _first(problem: Problem, n: int, seed: int | None) -> Numbers:
    """The start and n - 1 designs spread over the bounds."""
    if n < 5:
        raise InputError(f"population: {n} is not allowed; allowed: 5 or more designs.")
    qmc = need("scipy.stats.qmc", "study", "optimise")
    low, high = problem.limits_of_search
    power = int(np.ceil(np.log2(n)))
    unit = qmc.Sobol(d=len(low), seed=np.random.default_rng(seed)).random_base2(power)[: n - 1]
    return np.vstack([problem.start_values, low + unit * (high - low)])


def _evolve(of: Search, problem: Problem, first: Numbers, generations: int, seed: int | None) -> None:
    need("scipy.optimize", "study", "optimise").differential_evolution(
        lambda columns: of(columns.T), list(problem.bounds.values()), init=first, maxiter=generations,
        tol=1e-4, polish=False, vectorized=True, updating="deferred", seed=np.random.default_rng(seed),
    )  # fmt: skip


def _simplex(of: Search, problem: Problem, start: Numbers, most: int) -> None:
    low, high = problem.limits_of_search
    span = high - low
    corners = np.vstack([start, start + 0.05 * np.diag(np.where(start + 0.05 * span > high, -span, span))])
    need("scipy.optimize", "study", "optimise").minimize(
        lambda design: float(of(design[None])[0]), start, method="Nelder-Mead",
        bounds=list(problem.bounds.values()),
        options={"maxfev": most, "initial_simplex": corners, "xatol": 1e-4 * float(span.min())},
    )  # fmt: skip
