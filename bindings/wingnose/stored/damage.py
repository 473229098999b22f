"""What a landing, or a traffic, does to the steel, read back from its file."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from .. import InputError
from .._extras import need
from .damage_traffic import TrafficClass, classes_of
from .datasets import Datasets, OneCase, read_datasets

if TYPE_CHECKING:
    from os import PathLike

    import xarray as xr
    from numpy.typing import NDArray

# Quantities of the maps, as datasets name them.
MAPS = (
    "peak_pressure_MPa",
    "wheels",
    "wheels_beyond_shakedown",
    "wheels_beyond_surface_flow",
    "friction_energy_J_mm2",
    "wear_depth_um",
)


class DamageMap(NamedTuple):
    """One quantity over the running surface of one body."""

    body: str
    x: NDArray[np.float64]  # mm, stations
    y: NDArray[np.float64]  # mm, from the track centre line
    values: NDArray[np.float64]  # [x][y]
    unit: str


class Measure(NamedTuple):
    """One number of the file."""

    key: str
    value: float
    unit: str
    meaning: str  # "label: description"

    @property
    def label(self) -> str:
        """Name in print."""
        return self.meaning.partition(": ")[0]


@dataclass(frozen=True)
class DamageFile(OneCase):
    """Damage of one passage, and of a traffic where there was one, as stored."""

    data: Datasets

    @property
    def steel(self) -> str:
        """Grade of wing and nose."""
        return self.data.attributes.get("steel", "")

    @property
    def trust(self) -> str:
        """Where the numbers of the steel come from."""
        return self.data.attributes.get("steel_trust", "")

    @property
    def friction(self) -> float:
        """Coefficient of friction."""
        return self.data.number("steel/friction")

    @property
    def shear_yield(self) -> float:
        """Yield in shear of the new steel, MPa."""
        return self.data.number("steel/shear_yield_MPa")

    def nose_thickness(self, x: float) -> float:
        """Thickness of the nose between its gauge lines at a station, both in mm; NaN where there is no nose."""
        rate = float(self.keys.get("crossing.rate", "nan"))
        return max(x, 0.0) / rate

    @property
    def has_traffic(self) -> bool:
        """A traffic was added up, not one passage only."""
        return any(name.startswith("traffic/") for name in self.data.numbers)

    @property
    def bodies(self) -> list[str]:
        """Bodies with a map, wing before nose."""
        found = {name.split("/")[1] for name in self.data.numbers if name.startswith("passage/")}
        return sorted(found, reverse=True)

    def map(self, body: str, quantity: str, *, part: str = "passage") -> DamageMap:
        """One map; without values where the body was not touched.

        Parameters
        ----------
        body : str
            "wing" or "nose".
        quantity : str
            One of `MAPS`.
        part : str
            "passage", or "traffic" where the file has one.
        """
        if quantity not in MAPS:
            raise InputError(f'"{quantity}" is no map of a damage file; these are: {", ".join(MAPS)}')
        if part not in ("passage", "traffic") or (part == "traffic" and not self.has_traffic):
            raise InputError(f'the file of "{self.name}" has no maps of "{part}"')
        group = f"{part}/{body}"
        return DamageMap(
            body,
            self.data.column(f"{group}/x_mm"),
            self.data.column(f"{group}/y_mm"),
            self.data.numbers.get(f"{group}/{quantity}", np.empty((0, 0))),
            self.data.units.get(f"{group}/{quantity}", "-"),
        )

    def maps(self, *, part: str = "passage") -> dict[str, xr.Dataset]:
        """All maps of every body as Datasets with the dimensions x_mm and y_mm; needs xarray.

        Parameters
        ----------
        part : str
            "passage" or "traffic".
        """
        xarray = need("xarray", "study", "reading maps as Datasets")
        found = {}
        for body in self.bodies:
            maps = {quantity: self.map(body, quantity, part=part) for quantity in MAPS}
            first = maps[MAPS[0]]
            if first.values.size == 0:
                continue
            variables = {
                quantity: (
                    ("x_mm", "y_mm"),
                    one.values,
                    {"units": one.unit, "description": self.data.descriptions[f"{part}/{body}/{quantity}"]},
                )
                for quantity, one in maps.items()
            }
            axes = {"x_mm": ("x_mm", first.x, {"units": "mm"}), "y_mm": ("y_mm", first.y, {"units": "mm"})}
            found[body] = xarray.Dataset(variables, axes, {"body": body, "steel": self.steel, "name": self.name})
        return found

    def edge(self, body: str) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Running edge of a body in plan: stations and distance from the track centre line, mm; may be empty."""
        return self.data.column(f"edges/{body}/x_mm"), self.data.column(f"edges/{body}/y_mm")

    def contacts(self, body: str | None = None, *keys: str) -> list[NDArray[np.float64]]:
        """Columns of the contacts of the case's own wheel, by time.

        Parameters
        ----------
        body : str, optional
            Contacts on this body only.
        *keys : str
            Columns, such as "x_mm" or "surface_fatigue_index".
        """
        on = np.asarray(self.data.texts.get("contacts/body", []), dtype=str)
        which = np.ones(on.size, dtype=bool) if body is None else on == body
        for key in keys:
            if f"contacts/{key}" not in self.data.numbers:
                raise InputError(f'the contacts of "{self.name}" have no column "{key}"')
        return [self.data.numbers[f"contacts/{key}"][which] for key in keys]

    def classes(self) -> list[TrafficClass]:
        """Wheels of a mixed traffic class by class, all of them last; empty where the file has no such traffic."""
        return classes_of(self.data)

    @cached_property
    def stages(self) -> dict[str, NDArray[np.float64]]:
        """Stages of the traffic: columns such as "wheels" and "shear_yield_MPa"; empty without traffic."""
        prefix = "traffic/stages/"
        return {name[len(prefix) :]: values for name, values in self.data.numbers.items() if name.startswith(prefix)}

    def in_stages(self, body: str, key: str) -> NDArray[np.float64]:
        """A column of the contacts as each stage finds the steel: [stage][contact]; no stages without traffic.

        Parameters
        ----------
        body : str
            Contacts on this body only.
        key : str
            "shear_yield_MPa", "shakedown_exceedance" or "surface_fatigue_index".
        """
        on = np.asarray(self.data.texts.get("contacts/body", []), dtype=str) == body
        values = self.data.numbers.get(f"traffic/contacts/{key}", np.empty((0, on.size)))
        return values[:, on]

    def measures(self, part: str = "passage") -> list[Measure]:
        """Numbers of the passage, or of the traffic."""
        prefix = "measures/" if part == "passage" else "traffic/measures/"
        return [
            Measure(name[len(prefix) :], float(value), self.data.units[name], self.data.descriptions[name])
            for name, value in self.data.numbers.items()
            if name.startswith(prefix)
        ]

    @property
    def notes(self) -> list[str]:
        """What a reader must know beside the numbers."""
        return [*self.data.texts.get("notes/damage", []), *self.data.texts.get("notes/traffic", [])]


def read_damage(file: str | PathLike[str]) -> DamageFile:
    """Read the file of a damage.

    Parameters
    ----------
    file : path
        Written by ``wingnose damage ... -o FILE`` or `io.write_damage`.

    Returns
    -------
    DamageFile
        Lengths in mm, pressures in MPa.

    Raises
    ------
    InputError
        The file holds something else.
    """
    data = read_datasets(file)
    if data.kind != "damage":
        raise InputError(f'"{file}" holds a {data.kind}, not a damage')
    return DamageFile(data)
