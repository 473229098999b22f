"""Which cases a sweep holds: all combinations, given points, or points sampled from ranges.

Every function returns an :class:`wingnose.study.Sweep`; nothing is computed yet. Keys and their units are those of a case
file (``wingnose keys``), so ``{"passage.speed_km_h": [80, 100, 120]}`` is in km/h.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from numbers import Real
from typing import TYPE_CHECKING, Any, TypeAlias

import numpy as np

from .._core import Case, InputError, KeyInfo, KeyKind
from .._core.study import Sweep
from .._extras import need
from .answers import case_of

if TYPE_CHECKING:
    import os

    from numpy.typing import ArrayLike, NDArray

    Document: TypeAlias = Case | str | os.PathLike[str]
    Table: TypeAlias = Any  # mapping of key to values, or pandas.DataFrame

Scalar: TypeAlias = "bool | float | str"
# (low, high), [choices], or a frozen distribution of scipy.stats
Range: TypeAlias = "tuple[float, float] | list[Scalar] | Any"

__all__ = ["from_unit_cube", "grid", "latin_hypercube", "points", "sobol"]


def grid(
    source: Document, values: Mapping[str, ArrayLike], *, probes: bool = False, steel: bool = False, history_every: int = 0
) -> Sweep:
    """All combinations of the values of some keys.

    Parameters
    ----------
    source : Case or path
        The case whose keys vary.
    values : mapping of str to array_like
        Values of each key, in the unit of the key.
    probes : bool
        Record rail and bearer accelerations; slower.
    steel : bool
        What the landings do to the steel, too; half as much work again.
    history_every : int
        Store every n-th sample of the force histories; 0: none.

    Returns
    -------
    Sweep
        Keys that are dear to change (track, then wheel path) vary slowest, whatever their order here.

    Examples
    --------
    >>> import wingnose
    >>> sweep = wingnose.study.grid("profiles/demo.toml", {
    ...     "passage.speed_km_h": [80, 100, 120], "track.pad_stiffness_MN_m": [80, 200]})
    >>> len(sweep), list(sweep.columns)
    (6, ['track.pad_stiffness_MN_m', 'passage.speed_km_h'])
    """
    return Sweep(case_of(source), _columns(values), grid=True, probes=probes, steel=steel, history_every=history_every)


def points(source: Document, table: Table, *, probes: bool = False, steel: bool = False, history_every: int = 0) -> Sweep:
    """One case per row of a table.

    Parameters
    ----------
    source : Case or path
        The case whose keys vary.
    table : mapping of str to array_like, or pandas.DataFrame
        One column per key, in the unit of the key; all of one length. A single value counts for every case.
    probes, steel, history_every
        As of :func:`grid`.

    Returns
    -------
    Sweep

    Examples
    --------
    >>> import wingnose
    >>> sweep = wingnose.study.points("profiles/demo.toml", {
    ...     "passage.speed_km_h": [80, 120], "wheel.hollow_depth_mm": [0, 2], "passage.direction": "facing"})
    >>> sweep.values(1)["wheel.hollow_depth_mm"]
    2.0
    """
    columns = _columns({str(key): table[key] for key in table}, single=True)
    length = max((len(column) for column in columns.values()), default=0)
    columns = {key: column * length if len(column) == 1 else column for key, column in columns.items()}
    return Sweep(case_of(source), columns, grid=False, probes=probes, steel=steel, history_every=history_every)


def latin_hypercube(
    source: Document,
    ranges: Mapping[str, Range],
    n: int,
    seed: int | None = None,
    *,
    probes: bool = False,
    steel: bool = False,
    history_every: int = 0,
) -> Sweep:
    """Latin hypercube sample: each of `n` equally likely slices of every key holds one case.

    Parameters
    ----------
    source : Case or path
        The case whose keys vary.
    ranges : mapping
        Per key a tuple ``(low, high)``: uniform, for whole numbers with both ends; a list: equally likely choices; or
        a frozen distribution of ``scipy.stats``. In the unit of the key.
    n : int
        Number of cases.
    seed : int, optional
        The same seed gives the same cases; left out, they differ from call to call.
    probes, steel, history_every
        As of :func:`grid`.

    Returns
    -------
    Sweep

    Examples
    --------
    >>> import wingnose
    >>> sweep = wingnose.study.latin_hypercube("profiles/demo.toml", {
    ...     "passage.speed_km_h": (80, 140), "passage.direction": ["facing", "trailing"]}, n=50, seed=1)
    >>> len(sweep), sorted(set(sweep.columns["passage.direction"]))
    (50, ['facing', 'trailing'])
    """
    if n < 1:
        raise InputError(f"n: {n} is not allowed; allowed: 1 or more cases.")
    qmc = need("scipy.stats.qmc", "study", "latin_hypercube")
    unit = qmc.LatinHypercube(d=_dimensions(ranges), seed=np.random.default_rng(seed)).random(n)
    return _sampled(source, ranges, unit, probes, steel, history_every)


def sobol(
    source: Document,
    ranges: Mapping[str, Range],
    n: int,
    seed: int | None = None,
    *,
    probes: bool = False,
    steel: bool = False,
    history_every: int = 0,
) -> Sweep:
    """Scrambled Sobol' sequence: more even than random, and doubling `n` keeps the points there were.

    Parameters
    ----------
    source, ranges, seed, probes, steel, history_every
        As of :func:`latin_hypercube`.
    n : int
        Number of cases, a power of two: the balance of the sequence needs it.

    Returns
    -------
    Sweep

    Notes
    -----
    Sobol' 1967; scrambling of Matousek 1998, as in ``scipy.stats.qmc.Sobol``.

    Examples
    --------
    >>> import wingnose
    >>> ranges = {"passage.speed_km_h": (80, 140), "wheel.lateral_offset_mm": (-4, 4)}
    >>> small = wingnose.study.sobol("profiles/demo.toml", ranges, n=16, seed=1)
    >>> large = wingnose.study.sobol("profiles/demo.toml", ranges, n=32, seed=1)
    >>> large.values(15) == small.values(15)
    True
    """
    if n < 1 or n & (n - 1):
        below = 1 << max(n.bit_length() - 1, 0) if n > 0 else 1
        raise InputError(f"n: {n} is not allowed; allowed: powers of two. Take {below} or {2 * below}.")
    qmc = need("scipy.stats.qmc", "study", "sobol")
    unit = qmc.Sobol(d=_dimensions(ranges), seed=np.random.default_rng(seed)).random(n)
    return _sampled(source, ranges, unit, probes, steel, history_every)


def from_unit_cube(case: Case, ranges: Mapping[str, Range], unit: NDArray[np.float64]) -> dict[str, Any]:
    """Values of keys for points of the unit cube: [case, key] in 0..1 -> {key: values}."""
    return {key: _values(case.key(key), ranges[key], unit[:, i]) for i, key in enumerate(ranges)}


def _sampled(
    source: Document, ranges: Mapping[str, Range], unit: NDArray[np.float64], probes: bool, steel: bool, history_every: int
) -> Sweep:
    case = case_of(source)
    columns = from_unit_cube(case, ranges, unit)
    return Sweep(case, columns, grid=False, probes=probes, steel=steel, history_every=history_every)


def _dimensions(ranges: Mapping[str, Range]) -> int:
    if not ranges:
        raise InputError('ranges: empty; allowed: at least one key. Write {"passage.speed_km_h": (80, 140)}.')
    return len(ranges)


def _values(info: KeyInfo, of: Any, unit: NDArray[np.float64]) -> list[Scalar]:
    if isinstance(of, list):
        if not of:
            raise InputError(f"{info.key}: an empty list of choices is not allowed; give at least one.")
        last = len(of) - 1
        return [_plain(of[min(math.floor(u * len(of)), last)]) for u in unit]
    if hasattr(of, "ppf"):
        return [float(value) for value in of.ppf(unit)]
    advice = f"{info.key}: {of!r} is not allowed; allowed: (low, high), a list of choices, or a frozen distribution"
    if not (isinstance(of, tuple) and len(of) == 2 and all(isinstance(end, Real) for end in of)):
        raise InputError(advice + " of scipy.stats.")
    low, high = float(of[0]), float(of[1])
    if not (math.isfinite(low) and math.isfinite(high) and low < high):
        raise InputError(advice + "; low must be below high.")
    if info.kind is KeyKind.whole_number:
        low, high = math.ceil(low), math.floor(high)
        return [float(min(low + math.floor(u * (high - low + 1)), high)) for u in unit]
    if info.kind is not KeyKind.number:
        raise InputError(advice + f"; {info.key} takes a list of choices.")
    return [low + float(u) * (high - low) for u in unit]


def _columns(values: Mapping[str, ArrayLike], single: bool = False) -> dict[str, Any]:
    """Lists of plain Python values, as the extension takes them."""
    return {key: _column(key, column, single) for key, column in values.items()}


def _column(key: str, column: Any, single: bool) -> list[Scalar]:
    array = column if isinstance(column, Sequence) and not isinstance(column, str) else np.asarray(column)
    if isinstance(array, np.ndarray):
        if array.ndim == 0 and single:
            array = array.reshape(1)
        if array.ndim != 1:
            raise InputError(f"{key}: values of {array.ndim} dimensions are not allowed; give a list of values.")
    return [_plain(value) for value in array]


def _plain(value: Any) -> Scalar:
    if isinstance(value, (bool, np.bool_)):
        return bool(value)
    if isinstance(value, Real):
        return float(value)
    return str(value)
