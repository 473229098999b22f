"""Libraries that only some functions need: found when they are called, with advice when they are missing."""

from __future__ import annotations

import importlib
from typing import Any


def need(module: str, extra: str, purpose: str) -> Any:
    """Import `module`, or say which extra of wingnose brings it and what it is for."""
    try:
        return importlib.import_module(module)
    except ModuleNotFoundError as error:
        missing = (error.name or module).partition(".")[0]
        message = f'{purpose} needs {missing}, which is not installed. Install it with: pip install "wingnose[{extra}]"'
        raise ModuleNotFoundError(message, name=error.name) from error
