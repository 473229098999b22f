"""Datasets of a stored result by their path, as numbers and texts."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import h5py
import numpy as np

from .. import InputError, io

if TYPE_CHECKING:
    from collections.abc import Mapping
    from os import PathLike

    from numpy.typing import NDArray

_FORMATS = {
    "wingnose result": "run",
    "wingnose speeds": "speeds",
    "wingnose comparison": "comparison",
    "wingnose damage": "damage",
    "wingnose contact": "contact",
    "wingnose sweep": "sweep",
}


class InputFile(NamedTuple):
    """A file the answer rests on."""

    role: str
    name: str
    sha256: str


@dataclass(frozen=True)
class Datasets:
    """All datasets of a file by their path, with units and descriptions."""

    kind: str
    attributes: Mapping[str, str]
    numbers: Mapping[str, NDArray[np.float64]]
    texts: Mapping[str, list[str]]
    units: Mapping[str, str]
    descriptions: Mapping[str, str]

    def number(self, name: str) -> float:
        """A single number; NaN when the file has none."""
        values = self.numbers.get(name)
        return float("nan") if values is None or values.size == 0 else float(values.flat[0])

    def text(self, name: str) -> str:
        """A single text; empty when the file has none."""
        return next(iter(self.texts.get(name, [])), "")

    def column(self, name: str, length: int = 0) -> NDArray[np.float64]:
        """A list of numbers; `length` times NaN when the file has none."""
        return self.numbers.get(name, np.full(length, np.nan))

    @cached_property
    def keys(self) -> dict[str, str]:
        """Every key the case rests on."""
        pairs = (line.partition("=") for line in self.texts.get("case/keys", []))
        return {key.strip(): value.strip() for key, _, value in pairs}

    @property
    def inputs(self) -> list[InputFile]:
        """Files the answer rests on, with their checksums."""
        lines = self.texts.get("case/inputs", [])
        return [InputFile(*line.split("\t")) for line in lines if line.count("\t") == 2]


class OneCase:
    """What stored answers about one case have in common."""

    data: Datasets

    @property
    def name(self) -> str:
        """Name of the case."""
        return self.data.attributes.get("name", "")

    @property
    def keys(self) -> dict[str, str]:
        """Every key the case rests on."""
        return self.data.keys

    @property
    def inputs(self) -> list[InputFile]:
        """Files the answer rests on, with their checksums."""
        return self.data.inputs


def kind_of(file: str | PathLike[str]) -> str:
    """What a file holds: "run", "speeds", "comparison", "contact", "damage" or "sweep".

    Raises
    ------
    InputError
        The file is absent, no HDF5 file, or not of this package.
    """
    if not Path(file).exists():
        raise InputError(f'"{file}" cannot be read as a result: there is no such file')
    try:
        with h5py.File(Path(file), "r") as opened:
            found = _FORMATS.get(_as_text(opened.attrs.get("format", "")))
    except OSError as error:
        raise InputError(f'"{file}" cannot be read as a result: {error}') from None
    if found is None:
        known = ", ".join(_FORMATS.values())
        raise InputError(f'"{file}" holds nothing wingnose has stored ({known})')
    return found


def read_datasets(file: str | PathLike[str]) -> Datasets:
    """Every dataset of a stored result, as numbers or texts.

    Raises
    ------
    InputError
        As `kind_of`.
    """
    kind = kind_of(file)
    numbers: dict[str, NDArray[np.float64]] = {}
    texts: dict[str, list[str]] = {}
    units: dict[str, str] = {}
    descriptions: dict[str, str] = {}

    def take(name: str, item: object) -> None:
        if not isinstance(item, h5py.Dataset):
            return
        values = item[()]
        units[name] = _as_text(item.attrs.get("unit", "-"))
        descriptions[name] = _as_text(item.attrs.get("description", ""))
        if np.asarray(values).dtype.kind in "fiub":
            numbers[name] = np.asarray(values, dtype=np.float64)
        else:
            texts[name] = [_as_text(value) for value in np.atleast_1d(values)]

    with h5py.File(Path(file), "r") as opened:
        opened.visititems(take)
        attributes = {name: _as_text(value) for name, value in opened.attrs.items()}
    return Datasets(kind, attributes, numbers, texts, units, descriptions)


def label_of(key: str) -> str:
    """Name in print of a measure's key.

    Examples
    --------
    >>> label_of("peak_nose_kN")
    'largest force on nose'
    >>> label_of("closed_form/derived/p2_kN")
    'P2, closed form derived'
    >>> label_of("t_gamma_N")
    'T-gamma'
    """
    closed = re.fullmatch(r"closed_form/(.+)/(p[12])_kN", key)
    if closed:
        return f"{closed[2].upper()}, closed form {closed[1]}"
    known = [*io.sweep_measures(), *io.steel_measures()]
    return next((measure.label for measure in known if measure.key == key), key)


def _as_text(value: object) -> str:
    return value.decode("utf-8", "replace") if isinstance(value, bytes) else str(value)
