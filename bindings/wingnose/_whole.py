"""Files that appear whole or not at all: made under another name beside their place, then renamed."""

from __future__ import annotations

import contextlib
import errno
import os
from pathlib import Path

from ._core import ComputeError, InputError


def check_whole(target: Path, what: str) -> None:
    """Raise InputError where `what` ("report") cannot be put, before it is made."""
    if not target.name or target.is_dir():
        raise InputError(f"{what} {str(target)!r} is a folder; give the name of a file in it.")
    if target.exists() and not target.is_file():
        raise InputError(f"{what} {str(target)!r} is a device, a pipe or a socket; give the name of a regular file.")
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise InputError(f"{what} {str(target)!r}: its folder cannot be made: {error.strerror}.") from None
    if not os.access(target.parent, os.W_OK):
        raise InputError(f"{what} {str(target)!r}: its folder cannot be written to; choose another.")


def write_whole(target: Path, content: bytes, what: str) -> None:
    """Write a file; what was there before stays until the new one is whole. Raises ComputeError on a full disk."""
    unfinished = target.with_name(f".{target.name}.{os.getpid()}.unfinished")
    try:
        with unfinished.open("wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        unfinished.replace(target)
    except OSError as error:
        full = error.errno in (errno.ENOSPC, errno.EFBIG, errno.EDQUOT)
        advice = "free some space or choose another disk" if full else "check the disk and choose another if in doubt"
        raise ComputeError(f"{what} {str(target)!r} could not be written: {error.strerror}; {advice}") from None
    finally:
        with contextlib.suppress(OSError):
            unfinished.unlink(missing_ok=True)
