"""How far a sweep has come: a bar, a call, or nothing."""

from __future__ import annotations

import contextlib
import sys
from collections.abc import Callable, Iterator, Mapping
from typing import Any, TypeAlias

from .._extras import need

Progress: TypeAlias = "bool | Callable[[int, int], object] | None"


class Tell:
    """Cases done, of how many; and, where there is a bar, those somebody should look at so far."""

    def __init__(self, tell: Callable[[int, int], object], remark: Callable[[str], object] | None = None) -> None:
        self._tell, self._remark = tell, remark
        self._found = {"without an answer": 0, "grave": 0, "with warnings": 0}

    def __call__(self, done: int, total: int) -> None:
        self._tell(done, total)

    def found(self, rows: Mapping[str, Any]) -> None:
        """Of one more chunk."""
        if self._remark:
            cases = ((rows["status"] != 1).sum(), (rows["gravity"] == 2).sum(), (rows["gravity"] == 1).sum())
            for what, more in zip(self._found, cases, strict=True):
                self._found[what] += int(more)
            self._remark(", ".join(f"{count} {what}" for what, count in self._found.items() if count))


@contextlib.contextmanager
def shown(progress: Progress, done: int, total: int) -> Iterator[Tell | None]:
    """What to tell of the cases while the block runs; `done` were there before."""
    if progress is None:
        progress = sys.stderr is not None and sys.stderr.isatty()
    if not isinstance(progress, bool):
        yield Tell(progress)
    elif not progress:
        yield None
    else:
        tqdm = need("tqdm", "study", "A progress bar (progress=True)").tqdm
        with tqdm(total=total, initial=done, unit="case", smoothing=0.05, dynamic_ncols=True) as bar:
            yield Tell(lambda now, _: bar.update(now - bar.n), bar.set_postfix_str)
