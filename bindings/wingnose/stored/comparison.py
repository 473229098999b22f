"""A comparison of crossings, read back from its file."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from .. import InputError, io
from .datasets import Datasets, InputFile, read_datasets

if TYPE_CHECKING:
    from os import PathLike

    from numpy.typing import NDArray


class Named(NamedTuple):
    """A quantity, criterion or difference as it is printed."""

    key: str
    label: str
    unit: str


class RankedCell(NamedTuple):
    """A crossing under one criterion."""

    value: float
    rank: int
    apart: bool | None  # from the next place; None at the last


class DifferenceRow(NamedTuple):
    """A crossing less the reference, with its interval."""

    named: Named
    value: float
    low: float
    high: float
    higher_share: float

    @property
    def apart(self) -> bool:
        """Whether the interval leaves out 0."""
        return bool(self.low > 0.0 or self.high < 0.0)


@dataclass(frozen=True)
class ComparedCrossing:
    """One crossing of a comparison, by the datasets below ``crossing/{c}/``."""

    data: Datasets
    number: int
    name: str

    def column(self, name: str) -> NDArray[np.float64]:
        """A list of numbers of this crossing, such as "envelope/q50_kN"; empty when the file has none."""
        return self.data.column(f"crossing/{self.number}/{name}")

    def share(self, name: str) -> float:
        """One of the shares "failed", "no_transfer", "lost_contact", "early"; of the steel, when it was asked for:
        "beyond_shakedown", "beyond_surface_flow"."""
        values = self.data.column(f"crossings/{name}_share")
        return float(values[self.number]) if values.size > self.number else float("nan")


@dataclass(frozen=True)
class ComparisonFile:
    """A comparison as stored."""

    data: Datasets

    @cached_property
    def crossings(self) -> list[ComparedCrossing]:
        """Crossings in the order given; the first is the reference."""
        names = self.data.texts.get("crossings/name", [])
        return [ComparedCrossing(self.data, number, name) for number, name in enumerate(names)]

    @cached_property
    def quantities(self) -> list[Named]:
        """Quantities observed of each passage."""
        return self._named("quantities")

    @cached_property
    def steel_quantities(self) -> list[Named]:
        """Those of what the landing does to the steel; empty when it was not asked for."""
        of_steel = {measure.key for measure in io.steel_measures()}
        return [one for one in self.quantities if one.key in of_steel]

    @property
    def steels(self) -> list[tuple[str, float]]:
        """Steel of wing and nose and coefficient of friction per crossing; empty when not asked for."""
        names = self.data.texts.get("crossings/steel", [])
        friction = self.data.column("crossings/friction", len(names))
        return [(name, float(value)) for name, value in zip(names, friction, strict=True)]

    @cached_property
    def criteria(self) -> list[Named]:
        """What crossings are ranked by."""
        return self._named("criteria")

    @property
    def better(self) -> list[str]:
        """Per criterion, which values are better: "lower" or "higher"."""
        return self.data.texts.get("criteria/better", [])

    def ranking(self, crossing: int) -> list[RankedCell]:
        """Value and place of a crossing under each criterion."""
        return self._ranked(f"ranking/{crossing}")

    @property
    def groups(self) -> list[tuple[str, str, float]]:
        """Kind, name and share of weight of the groups of wheels."""
        names, kinds = self.data.texts.get("groups/name", []), self.data.texts.get("groups/kind", [])
        shares = self.data.column("groups/share", len(names))
        return [(kind, name, float(share)) for kind, name, share in zip(kinds, names, shares, strict=True)]

    def group_ranking(self, group: int, crossing: int) -> list[RankedCell]:
        """Value and place of a crossing within a group."""
        return self._ranked(f"groups/{group}/crossing/{crossing}")

    def differences(self, crossing: int) -> list[DifferenceRow]:
        """A crossing (from 1 on) less the reference."""
        names = self._named("differences")
        where = f"differences/{crossing}/"
        columns = [self.data.column(where + name, len(names)) for name in ("value", "low", "high", "higher_share")]
        return [DifferenceRow(named, *(float(column[i]) for column in columns)) for i, named in enumerate(names)]

    def members(self, key: str) -> NDArray[np.float64]:
        """A number per wheel, such as "share" or "speed_km_h"."""
        return self.data.column(f"members/{key}", len(self.data.texts.get("members/name", [])))

    def texts(self, name: str) -> list[str]:
        """Sentences: "dependence", "warnings", "notes" or "steel_assumptions"."""
        return self.data.texts.get(f"texts/{name}", [])

    @property
    def inputs(self) -> list[InputFile]:
        """Files the comparison rests on, with their checksums."""
        return self.data.inputs

    def option(self, name: str) -> float:
        """An option, such as "thin_nose_mm" or "confidence"."""
        return self.data.number(f"options/{name}")

    def label(self, key: str) -> str:
        """Label and unit of a quantity, for an axis."""
        named = next((one for one in self.quantities if one.key == key), Named(key, key, "-"))
        return f"{named.label} [{named.unit}]"

    def _named(self, group: str) -> list[Named]:
        columns = [self.data.texts.get(f"{group}/{name}", []) for name in ("key", "label", "unit")]
        return [Named(*one) for one in zip(*columns, strict=True)]

    def _ranked(self, group: str) -> list[RankedCell]:
        values = self.data.column(f"{group}/value")
        ranks = self.data.column(f"{group}/rank", values.size)
        apart = self.data.column(f"{group}/apart_from_next", values.size)
        return [
            RankedCell(float(value), int(rank), None if np.isnan(gap) else bool(gap))
            for value, rank, gap in zip(values, ranks, apart, strict=True)
        ]


def read_comparison(file: str | PathLike[str]) -> ComparisonFile:
    """Read the file of a comparison.

    Parameters
    ----------
    file : path
        Written by ``wingnose compare ... -o FILE``.

    Returns
    -------
    ComparisonFile
        Lengths in mm, forces in kN, speeds in km/h.

    Raises
    ------
    InputError
        The file holds something else.
    """
    data = read_datasets(file)
    if data.kind != "comparison":
        raise InputError(f'"{file}" holds a {data.kind}, not a comparison of crossings')
    return ComparisonFile(data)
