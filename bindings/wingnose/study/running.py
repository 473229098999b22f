"""A sweep carried out: on the threads of this machine or on the workers of an executor, in memory or into a file."""

from __future__ import annotations

import os
import warnings
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from .._core import InputError, study
from .._tree import to_datatree
from ._progress import Progress, Tell, shown
from ._workers import Cases, gathered
from .datasets import HistoryArrays, open_dataset, to_dataset

if TYPE_CHECKING:
    import xarray as xr

Rows: TypeAlias = dict[str, NDArray[Any]] | BaseException  # or why there are none
# Of a plan, some of its chunks, the cases done before, and whom to tell how far it is.
Answered: TypeAlias = Callable[[study.Sweep, Sequence[Cases], int, "Tell | None"], Iterator[tuple[Cases, Rows]]]


class IncompleteSweepWarning(RuntimeWarning):
    """Some cases of a sweep were not answered because workers failed."""


def sweep(
    plan: study.Sweep,
    file: str | os.PathLike[str] | None = None,
    *,
    threads: int = 0,
    chunk: int = 1024,
    executor: Any = None,
    progress: Progress = None,
    parts: study.SharedParts | None = None,
) -> xr.Dataset:
    """Answer all cases of a sweep: a Dataset as of :func:`open_dataset`.

    The numbers are the same bits whatever the threads, chunks, workers and interruptions, on one kind of machine.
    A case that fails is recorded with its reason and does not stop the others.

    `file`: HDF5 file to stream into, chunk by chunk. If it holds a part of the same sweep already, the rest is done;
    killed at any moment it loses the chunks under way. Left out: all stays in memory.

    `threads`: 0 for one per core; not with an executor, whose workers use one thread per chunk. `chunk`: cases answered
    and stored together; an existing file keeps its own. `parts`: tracks and wheel paths kept from call to call, for
    many small sweeps; not with an executor. `progress`: True for a bar with rate and time left, or a callable that gets
    the cases done and their total; left out, a bar when standard error is a terminal.

    `executor`: a ``dask.distributed.Client`` or ``concurrent.futures.Executor`` that answers the chunks. A chunk that
    fails there (its worker died, or raised) is sent once more; if it fails again its cases stay "not run" and an
    :class:`IncompleteSweepWarning` says why. Call again with the same file to do them. Workers must run the same
    wingnose and see the same files; others are refused.

    Ctrl-C raises KeyboardInterrupt, which says how many cases are stored and how to go on.

    Examples
    --------
    >>> import wingnose
    >>> plan = wingnose.study.grid("profiles/demo.toml", {
    ...     "wheel.lateral_offset_mm": [-2, 2], "passage.speed_km_h": [80, 100, 120]})
    >>> answers = wingnose.study.sweep(plan, progress=False)
    >>> dict(answers["p2_kN"].sizes)
    {'lateral_offset_mm': 2, 'speed_km_h': 3}
    >>> bool((answers["p2_kN"].diff("speed_km_h") > 0).all())
    True
    """
    if threads < 0:
        raise InputError(f"threads: {threads} is not allowed; allowed: 0 or more. 0 takes one per core.")
    if chunk < 1:
        raise InputError(f"chunk: {chunk} is not allowed; allowed: 1 or more cases.")
    if executor is not None and threads not in (0, 1):
        raise InputError(f"threads: {threads} is not allowed with an executor; its workers use one thread per chunk.")
    here = partial(_on_threads, threads, parts or study.SharedParts())
    answered: Answered = partial(_on_workers, executor) if executor is not None else here
    if file is None:
        return _in_memory(plan, chunk, answered, progress)
    _into_file(plan, Path(file), chunk, answered, progress)
    return open_dataset(file)


def _into_file(plan: study.Sweep, path: Path, chunk: int, answered: Answered, progress: Progress) -> None:
    with study.SweepFile(path, plan, chunk) as stored:
        done = stored.cases_complete
        failed: list[tuple[Cases, BaseException]] = []
        chunks = {Cases(missing.begin, missing.end): missing for missing in stored.missing()}
        try:
            with shown(progress, done, len(plan)) as tell:
                for piece, rows in answered(plan, list(chunks), done, tell):
                    if isinstance(rows, BaseException):
                        failed.append((piece, rows))
                    else:
                        stored.write(chunks[piece], rows)
                        if tell:
                            tell.found(rows)
        except KeyboardInterrupt:
            kept = f'{stored.cases_complete} of {len(plan)} cases are stored in "{path}"'
            raise KeyboardInterrupt(f"stopped: {kept}. Call the same again to go on from there") from None
    _warn(failed, f' The others are stored in "{path}"; call the same again to do these.')


def _in_memory(plan: study.Sweep, chunk: int, answered: Answered, progress: Progress) -> xr.Dataset:
    count = len(plan)
    pieces = [Cases(begin, min(begin + chunk, count)) for begin in range(0, count, chunk)]
    columns = {path: _nothing(path, (count, *values.shape[1:]), values.dtype)
               for path, values in study.answer_cases(plan, 0, 0).items()}  # fmt: skip
    failed: list[tuple[Cases, BaseException]] = []
    with shown(progress, 0, count) as tell:
        for piece, rows in answered(plan, pieces, 0, tell):
            if isinstance(rows, BaseException):
                failed.append((piece, rows))
                continue
            for path, values in rows.items():
                columns[path][piece.begin : piece.end] = values
            if tell:
                tell.found(rows)
    _warn(failed, " They hold NaN.")
    answer: Any = to_datatree(plan.tree(columns))
    answer.attrs["fingerprint"] = plan.fingerprint
    return to_dataset(answer, HistoryArrays.of_answer(answer["history"]) if plan.history_every else None)


def _nothing(path: str, shape: tuple[int, ...], dtype: np.dtype[Any]) -> NDArray[Any]:
    """Rows of cases without an answer."""
    return np.full(shape, "" if dtype == object else 0.0 if path == "status" else np.nan, dtype)


def _on_workers(
    executor: Any, plan: study.Sweep, pieces: Sequence[Cases], done: int, tell: Tell | None
) -> Iterator[tuple[Cases, Rows]]:
    """Chunks answered by the workers of an executor."""
    for piece, rows in gathered(plan, pieces, executor):
        yield piece, rows
        done += 0 if isinstance(rows, BaseException) else piece.end - piece.begin
        if tell:
            tell(done, len(plan))


def _on_threads(
    threads: int, parts: study.SharedParts, plan: study.Sweep, pieces: Sequence[Cases], done: int, tell: Tell | None
) -> Iterator[tuple[Cases, Rows]]:
    """Chunks answered here, one after the other, each on all threads."""
    for piece in pieces:
        inside = None if tell is None else partial(_tell_from, done, tell, len(plan))
        yield piece, study.answer_cases(plan, *piece, threads=threads, progress=inside, parts=parts)
        done += piece.end - piece.begin


def _tell_from(before: int, tell: Callable[[int, int], object], total: int, now: int, _: int) -> None:
    tell(before + now, total)


def _warn(failed: Sequence[tuple[Cases, BaseException]], advice: str) -> None:
    if failed:
        cases = sum(piece.end - piece.begin for piece, _ in failed)
        piece, error = failed[0]
        reason = f"cases {piece.begin} to {piece.end - 1}: {type(error).__name__}: {error}".rstrip(". ")
        message = f"{cases} cases were not answered because their workers failed; {reason}.{advice}"
        warnings.warn(message, IncompleteSweepWarning, stacklevel=4)
