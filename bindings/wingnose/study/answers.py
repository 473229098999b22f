"""One function per answer. Each takes a case (or the name of a case file) and returns an ``xarray.DataTree``.

``case``: a Case, or the path of a case file. ``file``: also store the answer in this HDF5 file, all or nothing.
``threads``: 0 for one per core. ``progress``: True for a bar, or a callable that gets the parts of the work done and
their total. What each kind of answer holds is listed by ``wingnose keys``. Errors are InputError (with what is allowed)
and ComputeError.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal, TypeAlias

from .._core import Case, InputError, Tree, answers, read_case
from .._core.answers import Wheels
from .._tree import stored
from ._progress import Progress, shown

if TYPE_CHECKING:
    import xarray as xr

Source: TypeAlias = Case | str | os.PathLike[str]
File: TypeAlias = str | os.PathLike[str] | None


def case_of(source: Source) -> Case:
    """The case itself, or the one read from a case file."""
    return source if isinstance(source, Case) else read_case(Path(source))


def run(case: Source, *, file: File = None) -> xr.DataTree:
    """Simulate the passage: ``measures`` (single numbers), ``history``, ``events``, ``path`` with one node per body,
    ``closed_form``, ``findings``.

    Examples
    --------
    >>> import wingnose
    >>> answer = wingnose.run("profiles/demo.toml")
    >>> force = answer["history/force_N"]
    >>> bool(force.max() < 1000 * answer["measures/peak_total_kN"] + 1)
    True
    """
    return stored(lambda: answers.run(case_of(case)), file)


def geometry(case: Source, *, file: File = None) -> xr.DataTree:
    """Roll the wheel over the crossing, no forces: ``measures`` (transfer, dip, angles), ``path``, ``findings``."""
    return stored(lambda: answers.geometry(case_of(case)), file)


def estimate(case: Source, *, file: File = None) -> xr.DataTree:
    """Closed forms for P1 and P2: ``closed_form`` over ``lumped_track``, ``findings``."""
    return stored(lambda: answers.estimate(case_of(case)), file)


def track_response(case: Source, *, file: File = None) -> xr.DataTree:
    """Static deflection and receptance: ``track``, ``places`` (over a bearer, mid-span), ``receptance`` over
    ``frequency_hz``."""
    return stored(lambda: answers.track_response(case_of(case)), file)


def contact(
    case: Source,
    *,
    at: Literal["transfer", "landing", "peak"] | None = None,
    station: float | None = None,
    load: float | None = None,
    law: Literal["ellipse", "strips", "half-space"] = "strips",
    cells: int = 64,
    roll: float | None = None,
    yaw: float | None = None,
    file: File = None,
) -> xr.DataTree:
    """Where the wheel touches: ``patches``, ``bodies``, ``half_space``, ``strips``, ``field`` per body, ``findings``.

    `at`: an instant of the passage, every body under its own force: "transfer" (both carry the same), "landing" (first
    peak of the force) or "peak" (largest force on the body landed on). Left out: the wheel stands. `station`: m, of the
    axle of a wheel that stands, where it goes from one body to the other when left out; `load`: N, vertical, shared by
    the bodies, the static load of the reported wheel when left out; `law`: of the patches; `cells`: cells of the
    half-space pressure fields on either side, 16 to 512, or 0 for none beside a fast law; `roll`, `yaw`: rad, -0.1 to
    0.1, those of the case when left out.
    """
    if at is not None and (station is not None or load is not None):
        raise InputError("station and load are those of the passage where `at` is given; leave one or the other out.")
    return stored(lambda: answers.contact(case_of(case), at, station, load, law, cells, roll, yaw), file)


def speeds(
    case: Source,
    from_km_h: float,
    to_km_h: float,
    step_km_h: float = 5.0,
    limits: Mapping[str, float] | Iterable[str | tuple[str, str]] = (),
    *,
    today_km_h: float | None = None,
    proposed_km_h: float | None = None,
    steel: bool = False,
    threads: int = 0,
    progress: Progress = None,
    file: File = None,
) -> xr.DataTree:
    """Forces over a range of speeds, and the highest speed that keeps given limits: ``speeds`` over ``speed_km_h``,
    ``limits``, ``permissible``, ``change``, ``closed_form``, ``findings``.

    A speed whose passage failed or has a grave finding keeps no limit, nor does any higher one.

    `from_km_h`, `to_km_h`, `step_km_h`: the scan, whatever the speed of the case, its highest speed always included;
    `limits`: value by quantity, ``{"p2_kN": 200}``, or texts such as "p2_kN=200", each alone or with its source as a
    pair; `today_km_h`, `proposed_km_h`: both or none, scanned besides and compared; `steel`: what the landings do to
    the steel, too, which a limit on it asks for.

    Examples
    --------
    >>> from wingnose import study
    >>> answer = study.speeds("profiles/demo.toml", 80, 120, 20, {"p2_kN": 160})
    >>> 80 < float(answer["permissible/speed_km_h"]) < 120
    True
    """
    if isinstance(limits, Mapping):
        limits = [f"{key}={value!r}" for key, value in limits.items()]
    pairs = [(limit, "") if isinstance(limit, str) else (str(limit[0]), str(limit[1])) for limit in limits]
    today, proposed = (None if speed is None else speed / 3.6 for speed in (today_km_h, proposed_km_h))
    if (today is None) != (proposed is None):
        raise InputError("today_km_h and proposed_km_h belong together: give both, or none for a plain scan.")
    scan = (from_km_h / 3.6, to_km_h / 3.6, step_km_h / 3.6)

    def made() -> Tree:
        with shown(progress, 0, 1) as tell:
            return answers.speeds(case_of(case), *scan, pairs, today, proposed, steel, threads, tell)

    return stored(made, file)


def damage(
    case: Source,
    *,
    tonnage: float | None = None,
    stages: int = 10,
    wheels: Wheels | None = None,
    threads: int = 0,
    progress: Progress = None,
    file: File = None,
) -> xr.DataTree:
    """What the landing does to the steel of wing and nose: ``measures``, ``places``, ``contacts``, maps per body under
    ``passage`` (and ``traffic``), ``limits`` of the shakedown diagram, ``findings``.

    Steel, friction and law are those of the case; ``case.vary({"damage.steel": "R260"})`` takes another.

    `tonnage`: kg (1 MGT is 1e9 kg), add up the damage of so much traffic; `stages`: of that traffic, between which the
    steel hardens; `wheels`: what rolls, wheels like the case's own when left out.
    """

    def made() -> Tree:
        with shown(progress, 0, 1) as tell:
            return answers.damage(case_of(case), tonnage, stages, threads, tell, wheels)

    return stored(made, file)


def compare(
    crossings: Mapping[str, Source] | Sequence[tuple[str, Source]] | str | os.PathLike[str],
    wheels: Wheels | None = None,
    *,
    threads: int = 0,
    progress: Progress = None,
    file: File = None,
    **options: Any,
) -> xr.DataTree:
    """Several crossings under one population of wheels: ``statistics``, ``ranking``, ``differences`` with their spread,
    ``groups``, ``envelope``, ``nose_load``, ``passages`` (every wheel on every crossing), ``findings``.

    Wheels with a grave finding count as the worst in ``ranking/worst_value``.

    `crossings`: crossings by name, the first is the reference, or a comparison file, which says wheels and options
    itself; `wheels`: what rolls over each of them; `**options`: keys of [compare] in a comparison file:
    ``thin_nose_mm=20``, ``confidence=0.95``, ``steel=True``, ...
    """

    def made() -> Tree:
        with shown(progress, 0, 1) as tell:
            if isinstance(crossings, (Mapping, Sequence)) and not isinstance(crossings, str):
                pairs = crossings.items() if isinstance(crossings, Mapping) else crossings
                if wheels is None:
                    raise InputError("wheels: none; allowed: Wheels, of a table or read_wheels.")
                return answers.compare([(name, case_of(of)) for name, of in pairs], wheels, options, threads, tell)
            if wheels is not None or options:
                raise InputError("wheels and options stand in the comparison file; leave them out here.")
            return answers.compare_file(Path(crossings), threads, tell)

    return stored(made, file)
