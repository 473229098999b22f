"""A sweep carried out: on the threads of this machine or on the workers of an executor, in memory or into a file."""

from __future__ import annotations

import warnings
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeAlias

import numpy as np

from .._core import InputError, study
from .._tree import to_datatree
from ._histories import HistoryArrays
from ._progress import Progress, Tell, shown
from ._workers import Cases, gathered
from .datasets import open_dataset, to_dataset

if TYPE_CHECKING:
    import os
    from collections.abc import Callable, Iterator, Sequence

    import xarray as xr
    from numpy.typing import NDArray

    Rows: TypeAlias = dict[str, NDArray[Any]] | BaseException  # or why there are none
    # Of a plan, some of its chunks, the cases done before, and whom to tell how far it is.
    Answered: TypeAlias = Callable[[study.Sweep, Sequence[Cases], int, Tell], Iterator[tuple[Cases, Rows]]]

__all__ = ["IncompleteSweepWarning", "sweep"]


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

    Parameters
    ----------
    file : path, optional
        HDF5 file to stream into, chunk by chunk. If it holds a part of the same sweep already, the rest is done;
        killed at any moment it loses the chunks under way. Left out: all stays in memory.
    threads : int
        0: one per core. Not with an executor: there every worker uses one thread per chunk.
    chunk : int
        Cases answered and stored together; an existing file keeps its own.
    executor : dask.distributed.Client or concurrent.futures.Executor, optional
        Who answers the chunks. A chunk that fails there (its worker died, or raised) is sent once more; if it fails
        again its cases stay "not run" and an :class:`IncompleteSweepWarning` says why. Call again with the same file
        to do them. Workers must run the same wingnose and see the same files; others are refused.
    progress : bool or callable, optional
        True: a bar with rate and time left. A callable gets the cases done and their total. Left out: a bar when
        standard error is a terminal.
    parts : SharedParts, optional
        Tracks and wheel paths kept from call to call, for many small sweeps; not with an executor.

    Raises
    ------
    KeyboardInterrupt
        On Ctrl-C, saying how many cases are stored and how to go on.

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
    answered = _on_workers(executor) if executor is not None else _on_threads(threads, parts or study.SharedParts())
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
    _warn(failed, " They hold NaN.")
    answer: Any = to_datatree(plan.tree(columns))
    answer.attrs["fingerprint"] = plan.fingerprint
    return to_dataset(answer, HistoryArrays.of_answer(answer["history"]) if plan.history_every else None)


def _nothing(path: str, shape: tuple[int, ...], dtype: np.dtype[Any]) -> NDArray[Any]:
    """Rows of cases without an answer."""
    return np.full(shape, "" if dtype == object else 0.0 if path == "status" else np.nan, dtype)


def _on_workers(executor: Any) -> Answered:
    """Chunks answered by the workers of an executor."""

    def answered(plan: study.Sweep, pieces: Sequence[Cases], done: int, tell: Tell) -> Iterator[tuple[Cases, Rows]]:
        for piece, rows in gathered(plan, pieces, executor):
            yield piece, rows
            done += 0 if isinstance(rows, BaseException) else piece.end - piece.begin
            if tell:
                tell(done, len(plan))

    return answered


def _on_threads(threads: int, parts: study.SharedParts) -> Answered:
    """Chunks answered here, one after the other, each on all threads."""

    def answered(plan: study.Sweep, pieces: Sequence[Cases], done: int, tell: Tell) -> Iterator[tuple[Cases, Rows]]:
        for piece in pieces:
            inside = None if tell is None else partial(_tell_from, done, tell, len(plan))
            yield piece, study.answer_cases(plan, *piece, threads=threads, progress=inside, parts=parts)
            done += piece.end - piece.begin

    return answered


def _tell_from(before: int, tell: Callable[[int, int], object], total: int, now: int, _: int) -> None:
    tell(before + now, total)


def _warn(failed: Sequence[tuple[Cases, BaseException]], advice: str) -> None:
    if failed:
        cases = sum(piece.end - piece.begin for piece, _ in failed)
        piece, error = failed[0]
        reason = f"cases {piece.begin} to {piece.end - 1}: {type(error).__name__}: {error}".rstrip(". ")
        message = f"{cases} cases were not answered because their workers failed; {reason}.{advice}"
        warnings.warn(message, IncompleteSweepWarning, stacklevel=4)
