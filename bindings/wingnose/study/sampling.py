"""Which cases a sweep holds: all combinations, given points, or points sampled from ranges.

Every function takes a Case, or the path of a case file, and returns an :class:`wingnose.study.Sweep`; nothing is
computed yet. Keys and their units are those of a case file (``wingnose keys``), so ``{"passage.speed_km_h": [80, 100,
120]}`` is in km/h. Beside the measures each may ask for ``probes=True`` (rail and bearer accelerations; slower),
``steel=True`` (what the landings do to the steel; half as much work again) and ``history_every=n`` (every n-th sample
of the force histories).
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
    from numpy.typing import ArrayLike, NDArray
    from typing_extensions import TypedDict, Unpack

    from .answers import Source

    Table: TypeAlias = Any  # mapping of key to values, or pandas.DataFrame

    class Content(TypedDict, total=False):
        """What is stored of each case beside its measures."""

        probes: bool
        steel: bool
        history_every: int


Scalar: TypeAlias = "bool | float | str"
# (low, high), [choices], or a frozen distribution of scipy.stats
Range: TypeAlias = "tuple[float, float] | list[Scalar] | Any"


def grid(source: Source, values: Mapping[str, ArrayLike], **content: Unpack[Content]) -> Sweep:
    """All combinations of the values of some keys. Keys that are dear to change (track, then wheel path) vary slowest,
    whatever their order here.

    Examples
    --------
    >>> import wingnose
    >>> sweep = wingnose.study.grid("profiles/demo.toml", {
    ...     "passage.speed_km_h": [80, 100, 120], "track.pad_stiffness_MN_m": [80, 200]})
    >>> len(sweep), list(sweep.columns)
    (6, ['track.pad_stiffness_MN_m', 'passage.speed_km_h'])
    """
    return Sweep(case_of(source), _columns(values), grid=True, **content)


def points(source: Source, table: Table, **content: Unpack[Content]) -> Sweep:
    """One case per row of a table: a mapping or ``pandas.DataFrame`` with one column per key, all of one length. A
    single value counts for every case.

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
    return Sweep(case_of(source), columns, grid=False, **content)


def latin_hypercube(
    source: Source, ranges: Mapping[str, Range], n: int, seed: int | None = None, **content: Unpack[Content]
) -> Sweep:
    """Latin hypercube sample of `n` cases: each of `n` equally likely slices of every key holds one.

    `ranges`: per key a tuple ``(low, high)``: uniform (whole numbers with both ends), a list of equally likely choices,
    or a frozen distribution of ``scipy.stats``; `seed`: the same seed gives the same cases, left out they
    differ from call to call.

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
    return _sampled(qmc.LatinHypercube, source, ranges, n, seed, content)


def sobol(
    source: Source, ranges: Mapping[str, Range], n: int, seed: int | None = None, **content: Unpack[Content]
) -> Sweep:
    """Scrambled Sobol' sequence (Sobol' 1967, Matousek 1998): more even than random, and doubling `n` keeps the points
    there were. `n`: a power of two, which the balance of the sequence needs; the rest as of :func:`latin_hypercube`.

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
    return _sampled(qmc.Sobol, source, ranges, n, seed, content)


def from_unit_cube(case: Case, ranges: Mapping[str, Range], unit: NDArray[np.float64]) -> dict[str, Any]:
    """Values of keys for points of the unit cube: [case, key] in 0..1 -> {key: values}."""
    return {key: _values(case.key(key), ranges[key], unit[:, i]) for i, key in enumerate(ranges)}


def _sampled(
    engine: Any, source: Source, ranges: Mapping[str, Range], n: int, seed: int | None, content: Content
) -> Sweep:
    if not ranges:
        raise InputError('ranges: empty; allowed: at least one key. Write {"passage.speed_km_h": (80, 140)}.')
    case, unit = case_of(source), engine(d=len(ranges), seed=np.random.default_rng(seed)).random(n)
    return Sweep(case, from_unit_cube(case, ranges, unit), grid=False, **content)


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
