"""Draw the sheets of a stored result: ``python -m wingnose.sheets FILE.h5 [FOLDER]``.

The file tells what it holds: a run, a speed study, a comparison, a contact, a damage or a sweep. Leaves pictures such
as FILE_force.png beside the file, or in FOLDER.
"""

from __future__ import annotations

import sys
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import matplotlib.pyplot as plt

from . import InputError, plot, read_result, stored
from ._house import PAPER

if TYPE_CHECKING:
    from collections.abc import Callable

    from matplotlib.axes import Axes

    Sheets = dict[str, Callable[[], Axes]]


# What the landing does to the steel, in files that tell of it.
_STEEL = {
    "peak_pressure": "peak_pressure_MPa",
    "shakedown": "shakedown_exceedance",
    "fatigue_index": "surface_fatigue_index",
    "t_gamma": "t_gamma_N",
    "wear": "wear_volume_mm3",
}


def draw(result_file: Path, folder: Path) -> list[Path]:
    """Draw the sheets that fit a stored result; returns the pictures written."""
    kinds = {"run": _of_run, "speeds": _of_speeds, "comparison": _of_comparison, "contact": _of_contact,
             "damage": _of_damage, "sweep": _of_sweep}  # fmt: skip
    sheets = kinds[stored.kind_of(result_file)](result_file)
    folder.mkdir(parents=True, exist_ok=True)
    written = []
    for name, make in sheets.items():
        figure = make().get_figure(root=True)
        if figure is None:
            continue
        target = folder / f"{result_file.stem}_{name}.png"
        figure.savefig(target, dpi=150, facecolor=PAPER)
        plt.close(figure)
        written.append(target)
    return written


def _of_run(file: Path) -> Sheets:
    result = read_result(file)
    landing = result.measures["landing_station_mm"] * 1e-3
    around = (landing - 1.5, landing + 2.0)
    return {
        "force": partial(plot.force, result, window=around),
        "path": partial(plot.wheel_path, result, window=around),
    }


def _of_speeds(file: Path) -> Sheets:
    study = stored.read_speeds(file)
    return {
        "p2": partial(plot.force_against_speed, study),
        "factor": partial(plot.dynamic_factor_against_speed, study),
        "peaks": partial(plot.against_speed, study, ["peak_total_kN", "peak_nose_kN", "peak_wing_kN"]),
        "lost_contact": partial(plot.lost_contact_against_speed, study),
        **{name: partial(plot.against_speed, study, [key]) for name, key in _STEEL.items() if study.steel},
    }


def _of_comparison(file: Path) -> Sheets:
    found = stored.read_comparison(file)
    return {
        "paths": partial(plot.paths, found),
        "envelopes": partial(plot.envelopes, found),
        "transfers": partial(plot.transfers, found),
        "nose_load": partial(plot.nose_load, found),
        "p2": partial(plot.cumulative, found, "p2_kN"),
        "peak_nose": partial(plot.cumulative, found, "peak_nose_kN"),
        "differences": partial(plot.differences, found),
        **{name: partial(plot.cumulative, found, key) for name, key in _STEEL.items() if found.steel_quantities},
    }


def _of_contact(file: Path) -> Sheets:
    found = stored.read_contact(file)
    drawn: Sheets = {}
    for body in found.bodies:
        if body.field is not None:
            drawn[f"pressure_{body.body}"] = partial(plot.pressure_field, found, body=body.body)
        drawn[f"across_{body.body}"] = partial(plot.pressure_across, found, body=body.body)
    return drawn


def _of_damage(file: Path) -> Sheets:
    found = stored.read_damage(file)
    maps = {
        "pressure_map": "peak_pressure_MPa",
        "shakedown_map": "wheels_beyond_shakedown",
        "wear_map": "wear_depth_um",
        "energy_map": "friction_energy_J_mm2",
    }
    courses = {
        "pressure": "peak_pressure_MPa",
        "shakedown": "shakedown_exceedance",
        "fatigue_index": "surface_fatigue_index",
        "t_gamma": "t_gamma_N",
    }
    body = "nose" if "nose" in found.bodies else found.bodies[-1]
    shares = {f"traffic_{name}": quantity for name, quantity in courses.items() if found.classes()}
    return {
        **{name: partial(plot.damage_map, found, quantity) for name, quantity in maps.items()},
        "shakedown": partial(plot.shakedown, found),
        **{f"{body}_{name}": partial(plot.along, found, quantity, body=body) for name, quantity in courses.items()},
        **{name: partial(plot.traffic_shares, found, quantity) for name, quantity in shares.items()},
    }


def _of_sweep(file: Path) -> Sheets:
    data = stored.read_datasets(file)
    return {
        f"p2_{key.rsplit('.', 1)[-1]}": partial(plot.against_input, data, key, "p2_kN") for key in plot.inputs_of(data)
    }


def main(arguments: list[str]) -> int:
    """Command line; returns the exit code."""
    if not 1 <= len(arguments) <= 2:
        print(__doc__, file=sys.stderr)
        return 2
    result_file = Path(arguments[0])
    try:
        written = draw(result_file, Path(arguments[1]) if len(arguments) == 2 else result_file.parent)
    except InputError as error:
        print(error, file=sys.stderr)
        return 2
    for picture in written:
        print(picture)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
