"""Sheets: every plot returns Axes with units on them and carries the caution line once."""

import matplotlib.pyplot as plt
import numpy as np
import pytest
from drawn import check_sheet, labels, line, with_grave, words

import wingnose
from wingnose import plot, sheets
from wingnose._house import freest, size_of


@pytest.fixture(autouse=True)
def close_figures():
    yield
    plt.close("all")


@pytest.fixture(scope="module")
def stored(case, tmp_path_factory):
    target = tmp_path_factory.mktemp("sheets") / "run.h5"
    wingnose.run(case, file=target)
    return target


def test_force_shows_wing_nose_total_and_the_line_p2_is_read_from(answer, result):
    ax = check_sheet(plot.force(answer))
    assert line(ax, "total").get_ydata() == pytest.approx(result.history.force / 1e3)
    for name, values in zip(result.history.bodies, result.history.body_force, strict=True):
        assert line(ax, name).get_ydata() == pytest.approx(values / 1e3)
    smooth = line(ax, "low-passed 150 Hz")
    after = result.history.time > result.measures["landing_time_ms"] * 1e-3
    assert np.max(smooth.get_ydata()[after]) == pytest.approx(result.measures["p2_kN"], rel=1e-3)


def test_another_filter_draws_another_line_and_no_p2(answer):
    ax = plot.force(answer, options=wingnose.assess.MeasureOptions(p2_cut_off=60.0))
    assert "low-passed 60 Hz, order 2, zero phase" in labels(ax)
    assert not any(text.get_text().startswith("P2") for text in ax.texts)


@pytest.mark.parametrize("panels", [1, 2])
def test_names_of_the_forces_stand_above_all_lines(answer, result, panels):
    figure, axes = plt.subplots(1, panels, figsize=(11.0, 3.8), layout="constrained", squeeze=False)
    for ax in axes[0]:
        plot.force(answer, ax, window=(-0.5, 1.8))
    figure.canvas.draw()
    for ax in axes[0]:
        box = ax.get_legend().get_window_extent()
        level = ax.transData.inverted().transform((0.0, box.y0))[1]
        assert level > max(np.max(result.history.force) / 1e3, result.measures["p2_kN"])
        assert box.x1 <= ax.get_window_extent().x1


def test_force_from_a_file_draws_the_same(answer, stored):
    ax = check_sheet(plot.force(stored))
    assert labels(ax) == {"wing", "nose", "total", "low-passed 150 Hz, order 2, zero phase", "static load"}
    assert line(ax, "nose").get_ydata() == pytest.approx(line(plot.force(answer), "nose").get_ydata(), abs=1e-6)
    assert plot.force(wingnose.open(stored), window=(0.0, 1.0)).get_xlim() == (0.0, 1.0)


def test_wheel_path_marks_the_transfer(case, answer, result, stored):
    for source in (answer, wingnose.study.geometry(case), stored):
        ax = check_sheet(plot.wheel_path(source, window=(-0.5, 1.0)))
        assert labels(ax) == {"wing", "nose", "combined"}
        assert any("transfer" in text.get_text() for text in ax.texts)
    check_sheet(plot.wheel_path(result.geometry.path))


def test_sections_at_transfer_leave_the_wheel_resting_not_sunk(case, result):
    found = result.geometry
    station = found.kinematics.transfer_station
    ax = check_sheet(plot.sections_at(found.crossing, case.profile, station))
    wheel = line(ax, f"wheel {case.profile.name}")
    gaps = []
    for body in found.crossing.bodies:
        under = body.height(station, wheel.get_xdata() / 1e3) * 1e3
        gaps.append(np.nanmin(wheel.get_ydata() - under))
    assert min(gaps) == pytest.approx(0.0, abs=1e-6)


def test_receptance_has_a_line_per_station():
    modal = wingnose.track.modal_track(wingnose.track.Track())
    ax = check_sheet(plot.receptance(modal, [0.0, 0.3], frequency=[50.0, 100.0, 200.0]))
    assert len(ax.get_lines()) == 2


def test_plots_draw_on_given_axes_and_say_the_caution_once(answer):
    _, axes = plt.subplots(2, 1)
    assert plot.force(answer, axes[0]) is axes[0]
    assert plot.wheel_path(answer, axes[1]) is axes[1]
    check_sheet(axes[0])


def test_a_figure_says_once_that_its_answer_is_grave_and_where_to_read_more(answer):
    grave = with_grave(answer)
    said = "Grave: flange contact; see the findings first"
    _, axes = plt.subplots(2, 1)
    for draw, ax in ((plot.force, axes[0]), (plot.wheel_path, axes[1])):
        assert words(check_sheet(draw(grave, ax))).count(said) == 1
        assert not any("Grave" in text for text in words(draw(answer)))


def test_an_answer_of_another_kind_is_refused_with_those_that_fit(case, stored):
    with pytest.raises(wingnose.InputError, match="holds a geometry; allowed: run"):
        plot.force(wingnose.study.geometry(case))
    with pytest.raises(wingnose.InputError, match=r'run.h5" holds a run; allowed: speeds'):
        plot.force_against_speed(stored)


def test_sheets_of_a_result_file(stored, tmp_path, capsys):
    assert sheets.main([str(stored), str(tmp_path)]) == 0
    written = [tmp_path / "run_force.png", tmp_path / "run_path.png"]
    assert capsys.readouterr().out.split() == [str(path) for path in written]
    assert all(path.stat().st_size > 20_000 for path in written)
    assert sheets.main([]) == 2
    assert sheets.main([str(tmp_path / "absent.h5")]) == 2


def test_words_are_put_where_they_cover_no_line():
    _, ax = plt.subplots()
    ax.plot([0.0, 1.0], [0.0, 1.0])
    ax.set_xlim(0.0, 1.0)
    ax.set_ylim(0.0, 1.0)
    on, below, outside = (0.4, 0.4, 0.2, 0.2), (0.7, 0.1, 0.2, 0.2), (0.9, 0.1, 0.2, 0.2)
    assert freest(ax, [on, below]) == 1
    assert freest(ax, [below, on]) == 0
    assert freest(ax, [outside, on]) == 1, "words must not leave the Axes"
    one, two = size_of(ax, "all limits kept up to 80", 9.0), size_of(ax, "all limits kept\nup to 80", 9.0)
    assert two[0] < one[0] and two[1] == pytest.approx(2.0 * one[1])
