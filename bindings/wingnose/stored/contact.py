"""A wheel's contact at one station, read back from its file."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from .. import InputError
from .datasets import Datasets, read_datasets

if TYPE_CHECKING:
    from os import PathLike

    from numpy.typing import NDArray


class StoredStrips(NamedTuple):
    """Pressure over the width of one body, strip by strip."""

    y: NDArray[np.float64]  # mm, middle from the track centre line
    width: NDArray[np.float64]  # mm
    ahead: NDArray[np.float64]  # mm, middle ahead of the axle
    half_length: NDArray[np.float64]  # mm
    pressure: NDArray[np.float64]  # MPa, in the middle


class StoredField(NamedTuple):
    """Half-space pressure field of one body."""

    x: NDArray[np.float64]  # mm, centres of the cells ahead of the axle
    y: NDArray[np.float64]  # mm, centres of the rows from the track centre line
    pressure: NDArray[np.float64]  # MPa, [y, x]


class StoredBody(NamedTuple):
    """What one body carries."""

    body: str
    vertical: float  # kN
    strips: StoredStrips
    field: StoredField | None


@dataclass(frozen=True)
class ContactFile:
    """A contact as stored."""

    data: Datasets

    @property
    def name(self) -> str:
        """Name of the case."""
        return self.data.attributes.get("name", "")

    @property
    def law(self) -> str:
        """Law of the patches: "ellipse", "strips" or "half-space"."""
        return self.data.attributes.get("law", "")

    @property
    def instant(self) -> str:
        """Instant of the passage, or "standing"."""
        return self.data.attributes.get("instant", "standing")

    @property
    def station(self) -> float:
        """Station of the axle, mm."""
        return self.data.number("station_mm")

    @property
    def force(self) -> float:
        """Vertical load on the wheel, kN."""
        return self.data.number("force_kN")

    @cached_property
    def bodies(self) -> list[StoredBody]:
        """The bodies that carry, in the order of the file."""
        names = sorted({key.split("/")[0] for key in self.data.numbers if key.endswith("/strips/y_mm")})
        return [self._body(name) for name in names]

    def patches(self, key: str) -> NDArray[np.float64]:
        """A column over the patches, such as "peak_pressure_MPa"."""
        return self.data.column(f"patches/{key}")

    def _body(self, name: str) -> StoredBody:
        numbers = self.data.numbers
        keys = ("y_mm", "width_mm", "ahead_of_axle_mm", "half_length_mm", "pressure_MPa")
        strips = StoredStrips(*(numbers[f"{name}/strips/{key}"] for key in keys))
        field = None
        if f"{name}/field/pressure_MPa" in numbers:
            x, y = numbers[f"{name}/field/x_mm"], numbers[f"{name}/field/y_mm"]
            field = StoredField(x, y, numbers[f"{name}/field/pressure_MPa"])
        return StoredBody(name, self.data.number(f"{name}/vertical_force_kN"), strips, field)


def read_contact(file: str | PathLike[str]) -> ContactFile:
    """A contact from the file ``wingnose contact -o`` wrote.

    Raises
    ------
    InputError
        The file is absent, or holds something else.
    """
    data = read_datasets(file)
    if data.kind != "contact":
        raise InputError(f'"{file}" holds a {data.kind}, not a contact; write one with: wingnose contact -o FILE')
    return ContactFile(data)
