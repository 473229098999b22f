"""A speed study, read back from its file."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from .. import InputError
from .datasets import Datasets, OneCase, label_of, read_datasets

if TYPE_CHECKING:
    from collections.abc import Mapping
    from os import PathLike

    from numpy.typing import NDArray


class LimitAnswer(NamedTuple):
    """What the speeds of a file say of one limit; speeds in km/h."""

    key: str
    kind: str  # "at most" or "at least"
    value: float
    unit: str
    source: str  # empty: not named
    outcome: str  # "found", "not_reached" or "broken_at_lowest"
    speed: float
    first_broken: float
    kept_again: str  # intervals above the first break, as text; empty: monotone as far as scanned
    closed_forms: Mapping[str, float]  # limits on P2: the speed each closed form permits, NaN where it has none

    @property
    def text(self) -> str:
        """The limit in words."""
        unit = "" if self.unit == "-" else f" {self.unit}"
        return f"{label_of(self.key)} {self.kind} {self.value:.6g}{unit}"


class Change(NamedTuple):
    """One quantity at today's and at the proposed speed."""

    key: str
    label: str
    unit: str
    today: float
    proposed: float
    difference: float
    percent: float


@dataclass(frozen=True)
class SpeedsFile(OneCase):
    """A speed study as stored."""

    data: Datasets

    def column(self, key: str) -> NDArray[np.float64]:
        """A measure over the speeds, such as "p2_kN"; NaN where the file has none."""
        speeds = self.data.column("speeds/speed_km_h")
        return speeds if key == "speed_km_h" else self.data.column(f"speeds/{key}", speeds.size)

    @cached_property
    def closed_forms(self) -> dict[str, NDArray[np.float64]]:
        """P2 of each closed form over the speeds, kN, by its track; "derived" first."""
        found = {track: self.data.numbers[f"closed_form/{group}/p2_kN"] for track, group in self._tracks.items()}
        return dict(sorted(found.items(), key=lambda item: (item[0] != "derived", item[0])))

    def assumptions(self, track: str) -> str:
        """What a closed form rests on."""
        return self.data.text(f"closed_form/{self._tracks.get(track, track)}/assumptions")

    @cached_property
    def limits(self) -> list[LimitAnswer]:
        """The limits asked for and what was found."""
        texts = self.data.texts
        count = len(texts.get("limits/quantity", []))
        value = self.data.column("limits/value", count)
        speed = self.data.column("limits/permissible_speed_km_h", count)
        broken = self.data.column("limits/first_broken_km_h", count)
        return [
            LimitAnswer(
                key := texts["limits/quantity"][i],
                texts["limits/kind"][i],
                float(value[i]),
                texts["limits/value_unit"][i],
                texts["limits/source"][i],
                texts["limits/outcome"][i],
                float(speed[i]),
                float(broken[i]),
                texts["limits/kept_again_km_h"][i],
                self._closed_form_speeds(float(value[i])) if key == "p2_kN" else {},
            )
            for i in range(count)
        ]

    @property
    def outcome(self) -> str:
        """Over all limits: "found", "not_reached", "broken_at_lowest" or "no_limits"."""
        return self.data.text("permissible/outcome") or "no_limits"

    @property
    def permissible(self) -> float:
        """Highest speed that keeps all limits, km/h; NaN unless found."""
        return self.data.number("permissible/speed_km_h")

    @property
    def governing(self) -> LimitAnswer | None:
        """The limit that gives the permissible speed, or that is broken at the lowest speed."""
        key = self.data.text("permissible/governed_by")
        broken = [limit for limit in self.limits if limit.key == key and limit.outcome != "not_reached"]
        # Two limits on one quantity: the one met at the lower speed governs.
        return min(broken, key=lambda limit: -1.0 if np.isnan(limit.speed) else limit.speed, default=None)

    @property
    def today(self) -> float:
        """Today's speed, km/h; NaN when not given."""
        return self.data.number("change/today_km_h")

    @property
    def proposed(self) -> float:
        """Proposed speed, km/h; NaN when not given."""
        return self.data.number("change/proposed_km_h")

    @cached_property
    def changes(self) -> list[Change]:
        """What changes from today's to the proposed speed; closed forms last."""
        keys = self.data.texts.get("change/quantity", [])
        columns = [
            self.data.column(f"change/{name}", len(keys))
            for name in ("today", "proposed", "difference", "difference_percent")
        ]
        units = self.data.texts.get("change/value_unit", [])
        return [
            Change(key, label_of(key), units[i], *(float(column[i]) for column in columns))
            for i, key in enumerate(keys)
        ]

    @cached_property
    def failures(self) -> list[tuple[float, str]]:
        """Speeds without a passage, km/h, and why."""
        reasons = self.data.texts.get("failures/reason", [])
        speeds = self.data.column("failures/speed_km_h", len(reasons))
        return [(float(speed), reason) for speed, reason in zip(speeds, reasons, strict=True)]

    @property
    def warnings(self) -> list[str]:
        """What must not be overlooked."""
        return [*self.data.texts.get("notes/warnings", []), *self.data.texts.get("notes/wheel_path", [])]

    @property
    def notes(self) -> list[str]:
        """What a reader must know beside the numbers."""
        return self.data.texts.get("notes/speeds", [])

    @property
    def steel(self) -> str:
        """Steel of wing and nose; empty when the study does not tell of it."""
        return self.data.text("steel/name")

    @property
    def friction(self) -> float:
        """Coefficient of friction the steel was looked at with; NaN when it was not."""
        return self.data.number("steel/friction")

    @property
    def steel_assumptions(self) -> list[str]:
        """What the numbers of the steel rest on."""
        return self.data.texts.get("notes/steel", [])

    @cached_property
    def _tracks(self) -> dict[str, str]:
        # A track such as "GM/TT0088" cannot name a group; its own name stands in the description.
        tracks = {}
        for name in self.data.numbers:
            group = re.fullmatch(r"closed_form/([^/]+)/p2_kN", name)
            if group:
                own = re.search(r" on the track (.+); one value per speed", self.data.descriptions[name])
                tracks[own[1] if own else group[1]] = group[1]
        return tracks

    def _closed_form_speeds(self, limit: float) -> dict[str, float]:
        # P2 = P0 + c V (Jenkins et al. 1974): the straight line through two speeds gives the speed of any P2 exactly.
        speed, static = self.column("speed_km_h"), self.column("static_load_kN")
        found = {}
        for track, values in self.closed_forms.items():
            ok = np.isfinite(values) & np.isfinite(speed)
            slope = np.nan
            if np.any(ok):
                slope = float((values[ok][-1] - static[ok][-1]) / speed[ok][-1])
            solvable = slope > 0.0 and limit >= static[ok][-1]
            found[track] = float((limit - static[ok][-1]) / slope) if solvable else float("nan")
        return found


def read_speeds(file: str | PathLike[str]) -> SpeedsFile:
    """Read the file of a speed study.

    Parameters
    ----------
    file : path
        Written by ``wingnose speeds ... -o FILE`` or `io.write_speeds`.

    Returns
    -------
    SpeedsFile
        Speeds in km/h, forces in kN.

    Raises
    ------
    InputError
        The file holds something else.
    """
    data = read_datasets(file)
    if data.kind != "speeds":
        raise InputError(f'"{file}" holds a {data.kind}, not a speed study')
    return SpeedsFile(data)
