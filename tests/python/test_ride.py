"""A vehicle in space through a turnout: its answer, its sheets, its report."""

import matplotlib.pyplot as plt
import numpy as np
import pytest
from drawn import check_sheet, labels
from report_pages import check_page

import wingnose
from wingnose import plot, report, study

CASE = """
[case]
name = "bogie <b>through</b> a turnout"
rung = "spatial"
[spatial]
vehicle = "bogie"
step_us = 400
[turnout]
geometry = "preset"
preset = "R300-1:9"
way = "diverging"
[passage]
speed_km_h = 50
"""


@pytest.fixture(autouse=True)
def close_figures():
    yield
    plt.close("all")


@pytest.fixture(scope="module")
def ride_file(tmp_path_factory):
    target = tmp_path_factory.mktemp("ride") / "ride.h5"
    wingnose.run(wingnose.parse_case(CASE), file=target)
    return target


@pytest.fixture(scope="module")
def ride(ride_file):
    return wingnose.open(ride_file)


def test_a_ride_is_an_answer_like_others(ride):
    assert ride.attrs["answer"] == "turnout_ride"
    for key, quantity in wingnose.quantities.items():
        if quantity.section.startswith("Vehicle in space"):
            assert ride[f"measures/{key}"].attrs["units"] == quantity.unit
    assert np.isnan(ride["measures/p2_kN"])
    y = ride["history/Y_kN"]
    assert y.shape == (ride["history/station_m"].size, 4)
    assert float(ride["measures/sum_of_Y_2m_kN"]) == pytest.approx(float(ride["wheelset/sum_of_Y_2m_kN"].max()))
    assert float(ride["measures/check_peak_kN"]) == pytest.approx(float(ride["history/check_force_kN"].max()))
    assert {one.kind for one in wingnose.findings(ride)} >= {"switch_without_blades", "assumption"}


def test_sheets_of_a_ride_show_its_wheels_and_bodies(ride):
    assert {"wing", "nose", "stock", "check", "flange fronts"} <= labels(check_sheet(plot.ride_plan(ride)))
    forces = check_sheet(plot.guiding_forces(ride, force="Q"))
    assert len(forces.lines) == 4
    assert forces.lines[0].get_ydata() == pytest.approx(ride["history/Q_kN"].values[:, 0])
    smooth = plot.guiding_forces(ride, force="Y", mean=2.0)
    assert max(np.max(line.get_ydata()) for line in smooth.lines) < float(abs(ride["history/Y_kN"]).max())
    check_sheet(plot.contacts_on_wheel(ride, wheelset=2))
    for crossing in (True, False):
        check_sheet(plot.ride_section(ride, section=2, crossing=crossing))
    with pytest.raises(wingnose.InputError, match="holds a turnout_ride"):
        plot.force(ride)


def test_the_report_of_a_ride_tells_its_numbers(ride_file, tmp_path):
    page = report.write(ride_file, tmp_path / "ride.html").read_text(encoding="utf-8")
    check_page(page)
    assert "bogie &lt;b&gt;through&lt;/b&gt; a turnout" in page
    assert "Prud’homme" in page or "Prud&#39;homme" in page


def test_a_vehicle_in_space_is_no_case_of_other_answers_but_of_sweeps_and_speeds():
    case = wingnose.parse_case(CASE)
    with pytest.raises(wingnose.InputError, match="case.rung"):
        study.damage(case)
    with pytest.raises(wingnose.InputError, match="case.rung"):
        study.compare({"one": case, "two": case}, study.Wheels({"wheel.lateral_offset_mm": [0.0]}))
    slow = study.speeds(case, 40, 50, 10, {"check_peak_kN": 1.0})
    assert str(slow["limits/outcome"].values[0]) == "broken_at_lowest"
    assert np.all(np.diff(slow["speeds/check_peak_kN"].values) > 0)  # faster, the flare is hit harder
