"""Sheets of a track at rest, drawn from what it answered."""

import matplotlib.pyplot as plt
import numpy as np
import pytest
from drawn import check_sheet, line

import wingnose
from wingnose import plot, sheets, study

TRACK = '[track]\nmethod = "chain"\n[track.bearers]\nkind = "bending"\n'
VOID = "[[track.void]]\nstation_m = 0.6\ngap_mm = 1\n"
DRAWN = ("stiffness_along", "rails_at_rest", "track_receptance", "voids_closing")


@pytest.fixture(autouse=True)
def close_figures():
    yield
    plt.close("all")


@pytest.fixture(scope="module")
def hanging(demo_file, tmp_path_factory):
    target = tmp_path_factory.mktemp("track") / "track.h5"
    case = wingnose.parse_case(f'base = "{demo_file.as_posix()}"\n{TRACK}{VOID}', folder=demo_file.parent)
    study.track_response(case, file=target)
    return target


def test_sheets_of_a_track_show_what_is_stored(hanging):
    answer = wingnose.open(hanging)
    stiffness = plot.stiffness_along(hanging)
    check_sheet(stiffness)
    drawn = stiffness.lines[0]
    assert drawn.get_ydata() == pytest.approx(answer["stiffness/point_stiffness_MN_m"].values)
    softest = drawn.get_xdata()[np.argmin(drawn.get_ydata())]
    assert abs(softest - 0.6) < 0.3  # at the void
    rails = plot.rails_at_rest(hanging)
    check_sheet(rails)
    assert rails.yaxis_inverted()  # down is down
    assert line(rails, "other rail").get_ydata() == pytest.approx(answer["shape/other_deflection_mm"].values)
    receptance = plot.track_receptance(hanging)
    check_sheet(receptance)
    assert len(receptance.lines) == 3
    voids = plot.voids_closing(hanging)
    check_sheet(voids)
    force = voids.lines[0].get_ydata()
    assert force[0] == 0.0 and force[-1] == pytest.approx(answer["voids/void_ballast_force_kN"].values[0, -1])


def test_the_file_of_a_track_tells_which_sheets_fit(hanging, case, tmp_path, capsys):
    assert sheets.main([str(hanging), str(tmp_path)]) == 0
    assert {path.stem for path in tmp_path.glob("*.png")} == {f"track_{name}" for name in DRAWN}
    plain = tmp_path / "plain.h5"
    study.track_response(case, file=plain)  # by its modes: receptances, and nothing along the track
    assert sheets.main([str(plain), str(tmp_path)]) == 0
    assert {path.stem for path in tmp_path.glob("plain*.png")} == {"plain_track_receptance"}
