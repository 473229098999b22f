"""The report of a speed study."""

from __future__ import annotations

import math
import tempfile
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from .. import InputError, io, plot
from .._core.study import Case, SpeedStudy
from ..stored import SpeedsFile, label_of, read_speeds
from . import _words
from ._inputs import all_keys, key_inputs
from ._page import Figure, figure, number, render, sentence

if TYPE_CHECKING:
    from collections.abc import Callable
    from os import PathLike

    from matplotlib.axes import Axes

# Rows of the table of speeds; of a longer study every second, third, ... speed is shown.
_ROWS = 26


class _Cell(NamedTuple):
    text: str
    broken: bool


class _Column(NamedTuple):
    key: str
    head: str
    unit: str
    decimals: int


_COLUMNS = (
    _Column("p2_kN", "P2", "kN", 1),
    _Column("p2_dynamic_factor", "× static", "-", 2),
    _Column("peak_total_kN", "largest", "kN", 1),
    _Column("dynamic_factor", "× static", "-", 2),
    _Column("peak_nose_kN", "on nose", "kN", 1),
    _Column("peak_wing_kN", "on wing", "kN", 1),
    _Column("first_peak_kN", "P1", "kN", 1),
    _Column("minimum_force_kN", "least", "kN", 1),
    _Column("lost_contact_ms", "lost contact", "ms", 1),
)

_STEEL_COLUMNS = (
    _Column("peak_pressure_MPa", "peak pressure", "MPa", 0),
    _Column("shakedown_exceedance", "shakedown exceedance", "-", 2),
    _Column("surface_fatigue_index", "surface fatigue index", "-", 3),
    _Column("t_gamma_N", "T-gamma", "N", 1),
    _Column("crack_damage_1e_6", "crack damage", "1e-6", 2),
    _Column("friction_energy_J", "friction energy", "J", 2),
    _Column("wear_volume_mm3", "wear per passage", "mm3", 5),
)


def speeds(source: SpeedStudy | SpeedsFile | str | PathLike[str], case: Case | None = None) -> str:
    """One-page report of a speed study.

    Parameters
    ----------
    source : SpeedStudy, SpeedsFile or path
        The study, or the file ``wingnose speeds ... -o FILE`` stored.
    case : Case, optional
        The case of the study; needed for a SpeedStudy only, a file knows its case.

    Returns
    -------
    str
        HTML in one piece: nothing is loaded from elsewhere.

    Raises
    ------
    InputError
        A SpeedStudy without its case, or a file that holds something else.
    """
    study = _read(source, case)
    speed = study.column("speed_km_h")
    static = study.column("static_load_kN")
    known = static[np.isfinite(static)]
    load = f"{number(float(known[0]), 1)} kN" if known.size else "–"
    heads, steel_heads = _heads(study), _shown(study, _STEEL_COLUMNS)
    rows, left_out = _rows(study, heads)
    return render(
        "speeds.html.j2",
        study=study,
        answer=_words.answer(study),
        limits=[(limit, _words.outcome(limit)) for limit in study.limits],
        range=(float(speed[0]), float(speed[-1]), int(speed.size)),
        groups=key_inputs(study.keys, load, {"speeds": f"{number(float(speed[0]), 0)} to "
                                             f"{number(float(speed[-1]), 0)} km/h"}),  # fmt: skip
        geometry=_geometry(study),
        figures=_figures(study),
        columns=heads,
        rows=rows,
        steel_columns=steel_heads,
        steel_rows=_rows(study, steel_heads)[0] if study.steel else [],
        steel_figures=_steel_figures(study) if study.steel else [],
        left_out=left_out,
        changes=[(change, _decimals(change.key)) for change in study.changes],
        all_keys=all_keys(study.keys),
        assumptions=[(track, study.assumptions(track)) for track in study.closed_forms],
    )


def _read(source: SpeedStudy | SpeedsFile | str | PathLike[str], case: Case | None) -> SpeedsFile:
    if isinstance(source, SpeedsFile):
        return source
    if isinstance(source, SpeedStudy):
        if case is None:
            raise InputError("a speed study does not know its case; give it: report.speeds(study, case)")
        # One way from a study to its report: what the file does not hold, the report does not tell.
        with tempfile.TemporaryDirectory() as folder:
            file = Path(folder) / "speeds.h5"
            io.write_speeds(file, case, source)
            return read_speeds(file)
    return read_speeds(source)


def _figures(study: SpeedsFile) -> list[Figure]:
    speed = study.column("speed_km_h")
    p2 = study.column("p2_kN")
    span = f"{number(float(speed[0]), 0)} to {number(float(speed[-1]), 0)} km/h"

    def told(key: str, unit: str, decimals: int = 1) -> str:
        values = study.column(key)
        if np.all(np.isnan(values)):
            return f"no values of {label_of(key)}"
        return (
            f"{label_of(key)} from {number(float(values[0]), decimals)} {unit} at {number(float(speed[0]), 0)} km/h to "
            f"{number(float(values[-1]), decimals)} {unit} at {number(float(speed[-1]), 0)} km/h, "
            f"largest {number(float(np.nanmax(values)), decimals)} {unit}"
        )

    closed = "; ".join(
        f"closed form {track} from {number(float(values[0]))} to {number(float(values[-1]))} kN"
        for track, values in study.closed_forms.items()
    )
    nose = np.any(np.isfinite(study.column("peak_nose_kN")))
    peaks = ["peak_nose_kN", "peak_wing_kN"] if nose else ["peak_total_kN"]

    def small(name: str, draw: Callable[[Axes], Axes], key: str, unit: str, caption: str, decimals: int = 1) -> Figure:
        return figure(draw, name, f"Line chart over {span}: {told(key, unit, decimals)}.", caption, (2.75, 2.25),
                      wide=False)  # fmt: skip

    return [
        figure(
            partial(plot.force_against_speed, study),
            "fig-p2",
            f"Line chart over {span}: simulated {told('p2_kN', 'kN')}; {closed}.",
            "P2 of the simulated passages with the closed forms beside it. Limits as lines across; today's and the "
            "proposed speed as lines upright."
            + ("" if np.all(np.isfinite(p2)) else " Gaps are speeds without a value."),
            (7.6, 3.1),
            wide=True,
        ),
        small("fig-factor", partial(plot.dynamic_factor_against_speed, study), "dynamic_factor", "",
              "Force over static load", 2),
        small("fig-peaks", partial(plot.against_speed, study, peaks), peaks[0], "kN",
              "Largest force on " + ("nose and wing" if nose else "the rail")),
        small("fig-lost", partial(plot.lost_contact_against_speed, study), "lost_contact_ms", "ms",
              "Time without any contact"),
    ]  # fmt: skip


def _steel_figures(study: SpeedsFile) -> list[Figure]:
    speed = study.column("speed_km_h")
    span = f"{number(float(speed[0]), 0)} to {number(float(speed[-1]), 0)} km/h"
    figures = []
    for place, column in enumerate(_shown(study, _STEEL_COLUMNS)):
        if column.key == "crack_damage_1e_6":  # its largest value is that of the function as soon as T-gamma passes it
            continue
        values = study.column(column.key)
        told = f"from {number(float(values[0]), column.decimals)} to {number(float(values[-1]), column.decimals)}"
        figures.append(
            figure(partial(plot.against_speed, study, [column.key]), f"fig-steel-{place}",
                   f"Line chart over {span}: {label_of(column.key)} {told} {column.unit}.",
                   sentence(label_of(column.key)), (2.75, 2.25), wide=False)
        )  # fmt: skip
    return figures


def _shown(study: SpeedsFile, columns: tuple[_Column, ...]) -> list[_Column]:
    return [column for column in columns if np.any(np.isfinite(study.column(column.key)))]


def _heads(study: SpeedsFile) -> list[_Column]:
    shown = _shown(study, _COLUMNS)
    closed = [_Column(track, f"P2 {track}", "kN", 1) for track in study.closed_forms]
    return shown[:1] + closed + shown[1:]


def _rows(study: SpeedsFile, heads: list[_Column]) -> tuple[list[tuple[str, str, list[_Cell]]], int]:
    speed = study.column("speed_km_h")
    stride = max(1, math.ceil(speed.size / _ROWS))
    marked = {"today": study.today, "proposed": study.proposed}
    rows = []
    for i, at in enumerate(speed):
        mark = ", ".join(name for name, value in marked.items() if abs(value - at) < 1e-6)
        breaking = {limit.key for limit in study.limits if _words.broken(limit, _words.value_at(study, limit.key, i))}
        if i % stride and not mark and i != speed.size - 1:
            continue
        cells = []
        for column in heads:
            values = study.closed_forms.get(column.key)
            value = float((study.column(column.key) if values is None else values)[i])
            cells.append(_Cell(number(value, column.decimals), column.key in breaking))
        rows.append((f"{at:.4g}", mark, cells))
    return rows, int(speed.size) - len(rows)


def _geometry(study: SpeedsFile) -> list[tuple[str, str]]:
    keys = ("transfer_station_mm", "nose_thickness_at_transfer_mm", "dip_depth_mm", "dip_angle_mrad")
    found = []
    for key in keys:
        value = study.data.number(f"measures/{key}")
        if math.isfinite(value):
            found.append((label_of(key), f"{number(value, _decimals(key))} {study.data.units[f'measures/{key}']}"))
    return found


def _decimals(key: str) -> int:
    name = key.rsplit("/", 1)[-1]
    known = [*io.sweep_measures(), *io.steel_measures()]
    return next((measure.decimals for measure in known if measure.key == name), 2)
