"""Sheets: every plot returns Axes with units on them and carries the caution line once."""

import re

import matplotlib.pyplot as plt
import numpy as np
import pytest
from matplotlib.axes import Axes

import wingnose
from wingnose import plot, sheets
from wingnose.plot._places import freest, size_of


@pytest.fixture(autouse=True)
def close_figures():
    yield
    plt.close("all")


@pytest.fixture(scope="module")
def stored(case, result, tmp_path_factory):
    target = tmp_path_factory.mktemp("sheets") / "run.h5"
    wingnose.write_result(target, case, result)
    return target


def line(ax, label):
    return next(item for item in ax.get_lines() if item.get_label() == label)


def labels(ax):
    return {item.get_label() for item in ax.get_lines() if not item.get_label().startswith("_")}


def check_sheet(ax):
    assert isinstance(ax, Axes)
    for label in (ax.get_xlabel(), ax.get_ylabel()):
        assert re.search(r"\[[^\]]+\]$", label), label
    cautions = [text for text in ax.get_figure().texts if text.get_text() == wingnose.CAUTION]
    assert len(cautions) == 1


def test_force_shows_wing_nose_total_and_the_line_p2_is_read_from(result):
    ax = plot.force(result)
    check_sheet(ax)
    assert line(ax, "total").get_ydata() == pytest.approx(result.history.force / 1e3)
    for name, values in zip(result.history.bodies, result.history.body_force, strict=True):
        assert line(ax, name).get_ydata() == pytest.approx(values / 1e3)
    smooth = next(item for item in ax.get_lines() if item.get_label().startswith("low-passed 150 Hz"))
    after = result.history.time > result.measures.landing_time
    assert np.max(smooth.get_ydata()[after]) == pytest.approx(result.measures.p2 / 1e3, rel=1e-3)


@pytest.mark.parametrize("panels", [1, 2])
def test_names_of_the_forces_stand_above_all_lines(result, panels):
    figure, axes = plt.subplots(1, panels, figsize=(11.0, 3.8), layout="constrained", squeeze=False)
    for ax in axes[0]:
        plot.force(result, ax, window=(-0.5, 1.8))
    figure.canvas.draw()
    for ax in axes[0]:
        box = ax.get_legend().get_window_extent()
        level = ax.transData.inverted().transform((0.0, box.y0))[1]
        assert level > max(np.max(result.history.force), result.measures.p2) / 1e3
        assert box.x1 <= ax.get_window_extent().x1


def test_force_from_a_file_draws_the_same(result, stored):
    ax = plot.force(wingnose.read_result(stored))
    check_sheet(ax)
    assert labels(ax) == {"wing", "nose", "total", "low-passed 150 Hz, order 2, zero phase", "static load"}
    assert line(ax, "nose").get_ydata() == pytest.approx(line(plot.force(result), "nose").get_ydata(), abs=1e-6)
    assert plot.force(result.history, window=(0.0, 1.0)).get_xlim() == (0.0, 1.0)


def test_wheel_path_marks_the_transfer(result, stored):
    for source in (result, result.geometry, wingnose.read_result(stored)):
        ax = plot.wheel_path(source, window=(-0.5, 1.0))
        check_sheet(ax)
        assert labels(ax) == {"wing", "nose", "combined"}
        assert any("transfer" in text.get_text() for text in ax.texts)
    check_sheet(plot.wheel_path(result.geometry.path))


def test_sections_at_transfer_leave_the_wheel_resting_not_sunk(case, result):
    found = result.geometry
    station = found.kinematics.transfer_station
    ax = plot.sections_at(found.crossing, case.wheel, station)
    check_sheet(ax)
    wheel = line(ax, f"wheel {case.wheel.name}")
    gaps = []
    for body in found.crossing.bodies:
        under = body.height(station, wheel.get_xdata() / 1e3) * 1e3
        gaps.append(np.nanmin(wheel.get_ydata() - under))
    assert min(gaps) == pytest.approx(0.0, abs=1e-6)


def test_receptance_has_a_line_per_station():
    modal = wingnose.modal_track(wingnose.track.Track())
    ax = plot.receptance(modal, [0.0, 0.3], frequency=[50.0, 100.0, 200.0])
    check_sheet(ax)
    assert len(ax.get_lines()) == 2


def test_plots_draw_on_given_axes_and_say_the_caution_once(result):
    _, axes = plt.subplots(2, 1)
    assert plot.force(result, axes[0]) is axes[0]
    assert plot.wheel_path(result, axes[1]) is axes[1]
    check_sheet(axes[0])


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
