"""Draw the sheets of a stored result: ``python -m wingnose.sheets FILE.h5 [FOLDER]``.

The file tells what it holds: a run, a speed study, a comparison, a contact, a damage, a track, a ride or a sweep. Leaves
pictures such as FILE_force.png beside the file, or in FOLDER.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from functools import partial
from io import BytesIO
from pathlib import Path

import matplotlib.pyplot as plt
import xarray as xr
from matplotlib.axes import Axes

from . import ComputeError, InputError, plot, quantities
from ._house import PAPER
from ._reading import bodies_of, has, lacking, taken, texts
from ._whole import check_whole, write_whole

Sheets = dict[str, Callable[[], Axes]]


def draw(result_file: Path, folder: Path) -> list[Path]:
    """Draw the sheets that fit a stored result; returns the pictures written."""
    answer = taken(result_file, *_SHEETS)
    kind = answer.attrs["answer"]
    written = []
    with lacking(result_file, kind):
        for name, make in _SHEETS[kind](answer).items():
            target = folder / f"{result_file.stem}_{name}.png"
            check_whole(target, "picture")
            figure = make().get_figure(root=True)
            if figure is None:
                continue
            picture = BytesIO()
            figure.savefig(picture, dpi=150, facecolor=PAPER)
            plt.close(figure)
            write_whole(target, picture.getvalue(), "picture")
            written.append(target)
    return written


def _of_run(result: xr.DataTree) -> Sheets:
    landing = float(result["measures/landing_station_mm"]) * 1e-3
    near = (landing - 1.5, landing + 2.0)
    return {"force": partial(plot.force, result, window=near), "path": partial(plot.wheel_path, result, window=near)}


def _of_speeds(study: xr.DataTree) -> Sheets:
    keys = {"peaks": ["peak_total_kN", "peak_nose_kN", "peak_wing_kN"],
            **{_short(key): [key] for key in _steel(study, "steel")}}  # fmt: skip
    drawn = {"p2": plot.force_against_speed, "factor": plot.dynamic_factor_against_speed,
             "lost_contact": plot.lost_contact_against_speed}  # fmt: skip
    return {**{name: partial(draw_it, study) for name, draw_it in drawn.items()},
            **{name: partial(plot.against_speed, study, several) for name, several in keys.items()}}  # fmt: skip


def _of_comparison(found: xr.DataTree) -> Sheets:
    keys = ["p2_kN", "peak_nose_kN", *_steel(found, "statistics")]
    drawn = (plot.paths, plot.envelopes, plot.transfers, plot.nose_load, plot.differences)
    return {**{draw_it.__name__: partial(draw_it, found) for draw_it in drawn},
            **{_short(key): partial(plot.cumulative, found, key) for key in keys}}  # fmt: skip


def _of_contact(found: xr.DataTree) -> Sheets:
    drawn: Sheets = {}
    for body in texts(found, "bodies/body"):
        if has(found, f"{body}/field"):
            drawn[f"pressure_{body}"] = partial(plot.pressure_field, found, body=body)
        drawn[f"across_{body}"] = partial(plot.pressure_across, found, body=body)
    return drawn


def _of_damage(found: xr.DataTree) -> Sheets:
    bodies = bodies_of(found)
    body = "nose" if "nose" in bodies else bodies[-1]
    maps = ("peak_pressure_MPa", "wheels_beyond_shakedown", "wear_depth_um", "friction_energy_J_mm2")
    courses = ("peak_pressure_MPa", "shakedown_exceedance", "surface_fatigue_index", "t_gamma_N")
    shares = courses if has(found, "traffic/classes") else ()
    return {
        **{f"{_short(key)}_map": partial(plot.damage_map, found, key) for key in maps},
        "shakedown": partial(plot.shakedown, found),
        **{f"{body}_{_short(key)}": partial(plot.along, found, key, body=body) for key in courses},
        **{f"traffic_{_short(key)}": partial(plot.traffic_shares, found, key) for key in shares},
    }


def _of_track(found: xr.DataTree) -> Sheets:
    drawn = [plot.track_receptance]
    if has(found, "stiffness/station_mm"):
        drawn += [plot.stiffness_along, plot.rails_at_rest]
    if has(found, "voids/gap_mm"):
        drawn.append(plot.voids_closing)
    return {draw_it.__name__: partial(draw_it, found) for draw_it in drawn}


def _of_ride(found: xr.DataTree) -> Sheets:
    return {"plan": partial(plot.ride_plan, found), "contacts": partial(plot.contacts_on_wheel, found),
            **{f"{force}_2m": partial(plot.guiding_forces, found, force=force, mean=2.0) for force in ("Y", "Q")},
            **{f"section_{i}": partial(plot.ride_section, found, section=i)
               for i in range(found["sections/station_m"].size)}}  # fmt: skip


_SHEETS: dict[str, Callable[[xr.DataTree], Sheets]] = {
    "run": _of_run, "geometry": lambda path: {"path": partial(plot.wheel_path, path)}, "speeds": _of_speeds,
    "comparison": _of_comparison, "contact": _of_contact, "damage": _of_damage, "track": _of_track,
    "turnout_ride": _of_ride,
    "sweep": lambda data: {f"p2_{key.rsplit('.', 1)[-1]}": partial(plot.against_input, data, key)
                           for key in plot.inputs_of(data)},
}  # fmt: skip


def _steel(answer: xr.DataTree, node: str) -> list[str]:
    """What the landing does to the steel, in answers that tell of it."""
    return [key for key, one in quantities.items() if one.of_steel and one.compared and has(answer, f"{node}/{key}")]


def _short(key: str) -> str:
    """A key without its unit, for the name of a file."""
    ends = {f"_{one.unit.replace('/', '_').replace('1e-6', '1e_6')}" for one in quantities.values()}
    return next((key.removesuffix(end) for end in sorted(ends | {"_um", "_J_mm2"}, key=len) if key.endswith(end)), key)


def main(arguments: list[str]) -> int:
    """Command line; returns the exit code."""
    if not 1 <= len(arguments) <= 2:
        print(__doc__, file=sys.stderr)
        return 2
    result_file = Path(arguments[0])
    try:
        written = draw(result_file, Path(arguments[1]) if len(arguments) == 2 else result_file.parent)
    except (InputError, ComputeError) as error:
        print(error, file=sys.stderr)
        return 2 if isinstance(error, InputError) else 1
    for picture in written:
        print(picture)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
