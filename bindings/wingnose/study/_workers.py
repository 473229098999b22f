"""Chunks of a sweep answered elsewhere: what is sent, what a worker does, how answers are gathered.

A worker gets the pickled sweep and the numbers of the first and last case, and uses one thread. It keeps the sweep and
the tracks and wheel paths built for it until another sweep comes. A chunk whose worker dies or raises is sent once
more; if that fails too, it is left out and reported. The caller alone touches the result file.
"""

from __future__ import annotations

import concurrent.futures as cf
import dataclasses
import os
import pickle
import threading
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from typing import Any, NamedTuple

from numpy.typing import NDArray

from .._core import InputError, __commit__, __version__, study

Rows = dict[str, NDArray[Any]]

# One sweep and its shared parts per thread of a worker: shared parts serve one call at a time.
_kept = threading.local()


class Cases(NamedTuple):
    """Consecutive cases of a sweep, [begin, end), answered together."""

    begin: int
    end: int


@dataclasses.dataclass(frozen=True)
class Other:
    """A worker that would give other numbers: why."""

    reason: str


def answer(parcel: bytes, identity: tuple[str, str, str], begin: int, end: int) -> Rows | Other:
    """Runs on the worker: rows of cases [begin, end). `identity` is version, commit and fingerprint of the caller."""
    version, commit, fingerprint = identity
    if (__version__, __commit__) != (version, commit):
        return Other(f"a worker runs wingnose {__version__} ({__commit__}), the caller {version} ({commit})")
    if getattr(_kept, "fingerprint", None) != fingerprint:
        _kept.fingerprint = None
        sweep = pickle.loads(parcel)
        if sweep.fingerprint != fingerprint:
            return Other(f"a worker reads other files for case {sweep.base.name!r} than the caller")
        _kept.sweep, _kept.parts, _kept.fingerprint = sweep, study.SharedParts(), fingerprint
    return study.answer_cases(_kept.sweep, begin, end, threads=1, parts=_kept.parts)


def gathered(
    sweep: study.Sweep, chunks: Iterable[Cases], executor: Any
) -> Iterator[tuple[Cases, Rows | BaseException]]:
    """Chunks and their rows as they come; an exception where a chunk failed twice."""
    pool, crew, payload = _pool_of(executor, pickle.dumps(sweep))
    identity = (__version__, __commit__, sweep.fingerprint)
    waiting = deque((chunk, False) for chunk in chunks)
    under_way: dict[cf.Future[Any], tuple[Cases, bool]] = {}
    try:
        while waiting or under_way:
            while waiting and len(under_way) < 2 * crew() + 1:
                chunk, again = waiting.popleft()
                try:
                    future = pool.submit(answer, payload(again), identity, chunk.begin, chunk.end)
                except (RuntimeError, cf.BrokenExecutor) as gone:  # the executor itself
                    yield chunk, gone
                    continue
                under_way[future] = (chunk, again)
            finished, _ = cf.wait(under_way, return_when=cf.FIRST_COMPLETED)
            for future in finished:
                chunk, again = under_way.pop(future)
                rows, error = _outcome(future)
                if isinstance(rows, Other):
                    raise InputError(f"executor: {rows.reason}. Numbers would not match; use the same on all workers.")
                if error is None:
                    yield chunk, rows
                elif again:
                    yield chunk, error
                else:
                    waiting.append((chunk, True))
    finally:
        for future in under_way:
            future.cancel()


def _outcome(future: cf.Future[Any]) -> tuple[Any, BaseException | None]:
    try:
        return future.result(), None
    except (Exception, cf.CancelledError) as error:
        return None, error


def _pool_of(executor: Any, parcel: bytes) -> tuple[Any, Callable[[], int], Callable[[bool], Any]]:
    """The executor, the number of its workers, and what to send: of a Dask client the parcel is spread only once."""
    if isinstance(executor, cf.Executor):
        crew = int(getattr(executor, "_max_workers", None) or os.cpu_count() or 1)
        return executor, lambda: crew, lambda again: parcel
    if not (hasattr(executor, "get_executor") and hasattr(executor, "scatter")):
        kinds = "a concurrent.futures executor or a dask.distributed.Client"
        raise InputError(f"executor: {type(executor).__name__} is not allowed; allowed: {kinds}.")
    pool = executor.get_executor(pure=False, retries=0)
    spread = executor.scatter(parcel, hash=False, broadcast=True)
    # With the worker the spread copy may be lost: a chunk sent again brings its own.
    return pool, lambda: max(sum(executor.nthreads().values()), 1), lambda again: parcel if again else spread
