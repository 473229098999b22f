"""How far a sweep has come: a bar, a call, or nothing."""

from __future__ import annotations

import contextlib
import sys
from collections.abc import Callable, Iterator
from typing import TypeAlias

from .._extras import need

Progress: TypeAlias = "bool | Callable[[int, int], object] | None"
Tell: TypeAlias = "Callable[[int, int], object] | None"  # cases done, of how many


@contextlib.contextmanager
def shown(progress: Progress, done: int, total: int) -> Iterator[Tell]:
    """What to call with the cases done and their total while the block runs; `done` were there before."""
    if progress is None:
        progress = sys.stderr is not None and sys.stderr.isatty()
    if not isinstance(progress, bool):
        yield progress
    elif not progress:
        yield None
    else:
        tqdm = need("tqdm", "study", "A progress bar (progress=True)").tqdm
        with tqdm(total=total, initial=done, unit="case", smoothing=0.05, dynamic_ncols=True) as bar:
            yield lambda now, _: bar.update(now - bar.n)
