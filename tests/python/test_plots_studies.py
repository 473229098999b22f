"""Sheets of studies: speeds, comparisons and sweeps, drawn from what the program stored."""

import re
import shutil
import subprocess

import h5py
import matplotlib.pyplot as plt
import numpy as np
import pytest
from matplotlib.axes import Axes
from report_pages import browser, check_page, console  # noqa: F401

import wingnose
from wingnose import io, plot, report, sheets, stored, study

KM_H = 1 / 3.6


@pytest.fixture(autouse=True)
def close_figures():
    yield
    plt.close("all")


@pytest.fixture(scope="module")
def speeds(case, tmp_path_factory):
    limits = [io.parse_limit("p2_kN=190", "a rule"), io.parse_limit("peak_nose_kN=250")]
    found = study.study_speeds(case, 60 * KM_H, 150 * KM_H, 10 * KM_H, limits, today=80 * KM_H, proposed=120 * KM_H)
    target = tmp_path_factory.mktemp("speeds") / "speeds.h5"
    io.write_speeds(target, case, found)
    return target


@pytest.fixture(scope="module")
def steel_speeds(case, tmp_path_factory):
    limits = [io.parse_limit("t_gamma_N=150", "a rule")]
    found = study.study_speeds(case, 60 * KM_H, 150 * KM_H, 15 * KM_H, limits, today=75 * KM_H, proposed=120 * KM_H)
    target = tmp_path_factory.mktemp("steel") / "speeds.h5"
    io.write_speeds(target, case, found)
    return found, target


@pytest.fixture(scope="module")
def steel_comparison(comparison, command_line):
    file = comparison.with_name("steel.toml")
    file.write_text(comparison.with_name("compare.toml").read_text() + "[compare]\nsteel = true\n")
    target = comparison.with_name("steel.h5")
    subprocess.run([command_line, "compare", file, "-o", target], check=True, capture_output=True)
    return target


@pytest.fixture(scope="module")
def comparison(command_line, demo_file, tmp_path_factory):
    """Designed and worn under 16 wheels, one of them unlike the others."""
    folder = tmp_path_factory.mktemp("comparison")
    (folder / "compare.toml").write_text(f'''
[[crossing]]
name = "designed"
case = "{demo_file}"
[[crossing]]
name = "worn & torn"
case = "{demo_file.with_name("worn.toml")}"
[population]
count = 16
seed = 7
[[population.vary]]
key = "wheel.lateral_offset_mm"
distribution = "uniform"
from = -4
to = 4.5
[[class]]
name = "new"
share = 60
wheel = {{ profile = "S1002" }}
[[class]]
name = "hollow"
share = 40
wheel = {{ profile = "S1002", hollow_width_mm = 60, hollow_centre_mm = 4, hollow_depth_mm = 1.5 }}
''')
    target = folder / "compare.h5"
    subprocess.run([command_line, "compare", folder / "compare.toml", "-o", target], check=True, capture_output=True)
    return target


@pytest.fixture(scope="module")
def sweep(command_line, demo_file, tmp_path_factory):
    folder = tmp_path_factory.mktemp("sweep")
    (folder / "sweep.toml").write_text(f'''
case = "{demo_file}"
[[vary]]
key = "passage.speed_km_h"
from = 80
to = 140
count = 3
[[vary]]
key = "wheel.lateral_offset_mm"
values = [-2, 0, 2]
''')
    target = folder / "sweep.h5"
    subprocess.run([command_line, "sweep", folder / "sweep.toml", "-o", target], check=True, capture_output=True)
    return target


def line(ax, label):
    return next(item for item in ax.get_lines() if item.get_label() == label)


def check_sheet(ax):
    assert isinstance(ax, Axes)
    assert re.search(r"\[[^\]]+\]$", ax.get_xlabel()), ax.get_xlabel()
    assert not ax.get_ylabel() or re.search(r"\[[^\]]+\]$", ax.get_ylabel()), ax.get_ylabel()
    assert [text.get_text() for text in ax.get_figure().texts].count(wingnose.CAUTION) == 1


def test_force_against_speed_shows_the_stored_values_limits_and_both_speeds(speeds):
    ax = plot.force_against_speed(speeds)
    check_sheet(ax)
    with h5py.File(speeds) as file:
        assert line(ax, "simulated").get_ydata() == pytest.approx(file["speeds/p2_kN"][()])
        assert line(ax, "closed form, derived").get_ydata() == pytest.approx(file["closed_form/derived/p2_kN"][()])
        assert line(ax, "closed form, GM/TT0088").get_ydata() == pytest.approx(file["closed_form/GM-TT0088/p2_kN"][()])
        permissible = file["permissible/speed_km_h"][()]
    across = [item.get_ydata()[0] for item in ax.get_lines() if len(set(item.get_ydata())) == 1]
    assert 190.0 in across and 250.0 not in across
    upright = [item.get_xdata()[0] for item in ax.get_lines() if list(item.get_ydata()) == [0, 1]]
    assert upright == pytest.approx([80.0, 120.0, permissible])
    texts = {text.get_text().strip() for text in ax.texts}
    assert {"today 80", "proposed 120", "at most 190 kN"} <= texts


def test_other_measures_against_speed(speeds):
    study_file = stored.read_speeds(speeds)
    ax = plot.against_speed(study_file, ["peak_nose_kN", "peak_wing_kN"])
    check_sheet(ax)
    assert line(ax, "largest force on nose").get_ydata() == pytest.approx(study_file.column("peak_nose_kN"))
    assert 250.0 in [item.get_ydata()[0] for item in ax.get_lines()]
    for draw in (plot.dynamic_factor_against_speed, plot.lost_contact_against_speed):
        check_sheet(draw(study_file))
    _, given = plt.subplots()
    assert plot.lost_contact_against_speed(speeds, given) is given


def test_sheets_of_a_comparison_show_what_is_stored(comparison):
    found = stored.read_comparison(comparison)
    assert [crossing.name for crossing in found.crossings] == ["designed", "worn & torn"]
    with h5py.File(comparison) as file:
        for name, ax, dataset in (
            ("paths", plot.paths(found), "path/0/height_mm"),
            ("envelopes", plot.envelopes(found), "envelope/q50_kN"),
            ("nose_load", plot.nose_load(found), "nose_load/mean_kN"),
        ):
            check_sheet(ax)
            for number, crossing in enumerate(found.crossings):
                expected = file[f"crossing/{number}/{dataset}"][()]
                assert line(ax, crossing.name).get_ydata() == pytest.approx(expected, nan_ok=True), name
        values = file["crossing/1/cumulative/p2_kN"][()]
    ax = plot.cumulative(found, "p2_kN")
    check_sheet(ax)
    assert line(ax, "worn & torn").get_xdata()[1:] == pytest.approx(values)
    assert line(ax, "worn & torn").get_ydata()[-1] == pytest.approx(100.0)


def test_bars_of_the_transfer_histogram_hold_all_wheels(comparison):
    ax = plot.transfers(comparison, bins=9)
    check_sheet(ax)
    outlines = [patch for patch in ax.patches if patch.get_label() in ("designed", "worn & torn")]
    assert len(outlines) == 2
    for outline in outlines:
        assert np.sum(outline.get_data().values) == pytest.approx(100.0)


def test_differences_are_drawn_with_their_intervals_in_per_cent_of_the_reference(comparison):
    found = stored.read_comparison(comparison)
    ax = plot.differences(found)
    check_sheet(ax)
    labels = [label.get_text() for label in ax.get_yticklabels()]
    place = labels.index("P2, 95 %")
    row = next(row for row in found.differences(1) if row.named.label == "P2, 95 %")
    base = found.ranking(0)[[named.label for named in found.criteria].index("P2, 95 %")].value
    drawn = [item for item in ax.get_lines() if len(item.get_ydata()) and item.get_ydata()[0] == place]
    expected = [100 * row.low / base, 100 * row.high / base]
    assert any(list(item.get_xdata()) == pytest.approx(expected) for item in drawn if len(item.get_xdata()) == 2)
    assert expected[0] <= 100 * row.value / base <= expected[1]


def test_shares_say_that_their_differences_are_percentage_points(comparison):
    found = stored.read_comparison(comparison)
    labels = [label.get_text() for label in plot.differences(found).get_yticklabels()]
    shares = [label for label in labels if "percentage points" in label]
    assert len(shares) == sum(one.unit == "%" for one in found.criteria) == 1
    assert shares[0].startswith("share that loses contact")


def test_one_wide_interval_does_not_press_the_others_flat(comparison, tmp_path):
    file = shutil.copy(comparison, tmp_path / "wide.h5")
    with h5py.File(file, "r+") as opened:
        opened["differences/1/high"][0] = 1e6
    ax = plot.differences(file)
    assert max(ax.get_xlim()) < 1e3
    assert any(item.get_marker() == ">" for item in ax.get_lines())
    assert not any(item.get_marker() == ">" for item in plot.differences(comparison).get_lines())


def test_a_wheel_far_out_does_not_press_the_curves_of_all_others_together(comparison, tmp_path):
    file = shutil.copy(comparison, tmp_path / "far.h5")
    with h5py.File(file, "r+") as opened:
        usual = opened["crossing/1/cumulative/p2_kN"][-1]
        opened["crossing/1/cumulative/p2_kN"][-1] = 1e4
    ax = plot.cumulative(file, "p2_kN")
    assert max(ax.get_xlim()) < 2.0 * usual
    assert any("up to 10000" in text.get_text() for text in ax.texts)
    assert not any("beyond" in text.get_text() for text in plot.cumulative(comparison, "p2_kN").texts)


def test_a_curve_under_another_one_stays_visible(speeds):
    ax = plot.against_speed(speeds, ["peak_total_kN", "peak_nose_kN", "peak_wing_kN"])
    total, nose = line(ax, "largest total force"), line(ax, "largest force on nose")
    assert np.mean(total.get_ydata() == nose.get_ydata()) > 0.5, "the case was chosen to have both coincide"
    assert total.get_linewidth() > 1.5 * nose.get_linewidth() and total.get_zorder() <= nose.get_zorder()
    assert nose.get_linestyle() == "--"
    apart = plot.against_speed(speeds, ["peak_nose_kN", "peak_wing_kN"])
    assert {item.get_linewidth() for item in apart.get_lines() if item.get_label().startswith("largest")} == {1.6}


def test_sheets_of_the_steel_show_what_is_stored_and_where_its_kind_changes(steel_comparison, steel_speeds):
    found = stored.read_comparison(steel_comparison)
    ax = plot.cumulative(found, "shakedown_exceedance")
    check_sheet(ax)
    with h5py.File(steel_comparison) as file:
        values = file["crossing/1/cumulative/shakedown_exceedance"][()]
    assert line(ax, "worn & torn").get_xdata()[1:] == pytest.approx(values)
    assert any("plastic with every wheel" in text.get_text() for text in ax.texts)
    check_sheet(plot.cumulative(found, "wear_volume_mm3"))
    study_file = stored.read_speeds(steel_speeds[1])
    ax = plot.against_speed(study_file, ["t_gamma_N"])
    check_sheet(ax)
    told = [point.steel.t_gamma for point in steel_speeds[0].points]
    assert any(list(item.get_ydata()) == pytest.approx(told) for item in ax.get_lines() if len(item.get_ydata()) == len(told))
    assert 150.0 in [item.get_ydata()[0] for item in ax.get_lines()]
    assert ax.get_ylabel() == "T-gamma [N]"


def test_files_without_the_steel_say_so(comparison, speeds, steel_comparison, steel_speeds):
    off, on = stored.read_comparison(comparison), stored.read_comparison(steel_comparison)
    assert off.steel_quantities == [] == off.steels and off.texts("steel_assumptions") == []
    assert len(on.steel_quantities) == 7 and on.steels == [("R350HT", 0.3)] * 2
    assert [one.key for one in on.quantities][: len(off.quantities)] == [one.key for one in off.quantities]
    assert {item.role for item in off.inputs} >= {"comparison", "crossing designed: case", "crossing worn & torn: case"}
    assert stored.read_speeds(speeds).steel == "" and np.isnan(stored.read_speeds(speeds).friction)
    study_file = stored.read_speeds(steel_speeds[1])
    assert study_file.steel == "R350HT" and study_file.friction == pytest.approx(0.3)
    assert study_file.steel_assumptions == list(steel_speeds[0].steel_assumptions)
    # Nothing but the steel differs.
    with h5py.File(comparison) as a, h5py.File(steel_comparison) as b:
        for number in range(2):
            for key in ("p2_kN", "peak_nose_kN", "nose_thickness_at_transfer_mm"):
                assert np.array_equal(a[f"crossing/{number}/members/{key}"], b[f"crossing/{number}/members/{key}"])


def test_reports_tell_of_the_steel_in_a_section_of_its_own(steel_comparison, comparison, steel_speeds):
    page = report.comparison(steel_comparison)
    found = stored.read_comparison(steel_comparison)
    document = check_page(page)
    assert "What the landing does to the steel" in document.text
    assert "What the landing does to the steel" not in report.comparison(comparison)
    for text in found.texts("steel_assumptions"):
        assert text[1:40] in document.text
    rows = {row[0]: row[2:] for row in document.tables["steel"]}
    place = [one.key for one in found.quantities].index("shakedown_exceedance")
    for cell, crossing in zip(rows["shakedown exceedance"], found.crossings, strict=True):
        assert float(cell.split()[0]) == pytest.approx(crossing.column("statistics/q50")[place], abs=0.0051)
    # Where all crossings are alike no one is printed as the best.
    for k, criterion in enumerate(found.criteria):
        alike = all(found.ranking(i)[k].rank == 1 for i in range(len(found.crossings)))
        row = re.search(rf">{re.escape(criterion.label)}</th>.*?</tr>", page, re.DOTALL)[0]
        assert ('class="best"' in row) != alike, criterion.label
    told = {row[0] for row in document.tables["steel-differences"]}
    assert {"wear volume, mean", "shakedown exceedance, 95 %", "T-gamma, mean"} <= told
    assert not told & {row[0] for row in document.tables["differences"]}
    for item in found.inputs:
        assert item.sha256 in document.text

    page = report.speeds(steel_speeds[1])
    document = check_page(page)
    assert "What the landing does to the steel" in document.text
    heads = document.tables["steel"][0]
    column = next(i for i, head in enumerate(heads) if head.startswith("T-gamma"))
    shown = [float(row[column].removesuffix(" *")) for row in document.tables["steel"][1:]]
    assert shown == pytest.approx([point.steel.t_gamma for point in steel_speeds[0].points], abs=0.051)
    assert all((value > 150.0) == row[column].endswith("*") for value, row in zip(shown, document.tables["steel"][1:], strict=True))
    assert "T-gamma at most 150 N (a rule) governs" in document.text


def test_sweep_against_an_input(sweep):
    ax = plot.against_input(sweep, "passage.speed_km_h")
    check_sheet(ax)
    assert line(ax, "cases").get_xdata().size == 9
    assert line(ax, "median").get_xdata() == pytest.approx([80.0, 110.0, 140.0])
    with pytest.raises(wingnose.InputError, match="does not vary"):
        plot.against_input(sweep, "track.rail")


def test_the_file_tells_which_sheets_fit(speeds, comparison, steel_comparison, steel_speeds, sweep, tmp_path, capsys):
    expected = {
        speeds: {"p2", "factor", "peaks", "lost_contact"},
        comparison: {"paths", "envelopes", "transfers", "nose_load", "p2", "peak_nose", "differences"},
        sweep: {"p2_speed_km_h", "p2_lateral_offset_mm"},
    }
    of_steel = {"peak_pressure", "shakedown", "fatigue_index", "t_gamma", "wear"}
    expected[steel_comparison] = expected[comparison] | of_steel
    expected[steel_speeds[1]] = expected[speeds] | of_steel
    for file, names in expected.items():
        assert sheets.main([str(file), str(tmp_path)]) == 0
        written = set(capsys.readouterr().out.split())
        assert written == {str(tmp_path / f"{file.stem}_{name}.png") for name in names}
    with h5py.File(tmp_path / "other.h5", "w") as file:
        file.attrs["format"] = "something else"
    assert sheets.main([str(tmp_path / "other.h5")]) == 2
    assert "nothing wingnose has stored" in capsys.readouterr().err


def test_report_of_a_comparison_tells_ranking_and_early_transfers(comparison):
    found = stored.read_comparison(comparison)
    page = report.comparison(comparison)
    assert "worn &amp; torn" in page and "worn & torn" not in page
    assert not re.findall(r"<script|src=|href=\"(?!#|data:)", page)
    assert page.count("<svg") == 7 == page.count('role="img"')
    assert wingnose.CAUTION in page
    ranking = re.search(r'<table id="ranking">.*?</table>', page, re.DOTALL)[0]
    for k, criterion in enumerate(found.criteria):
        row = re.search(rf'<th scope="row" class="text">{re.escape(criterion.label)}</th>.*', ranking)[0]
        told = re.findall(r">([\d.]+) \((\d)", row)
        cells = [found.ranking(number)[k] for number in range(2)]
        assert [int(rank) for _, rank in told] == [cell.rank for cell in cells]
        assert [float(value) for value, _ in told] == pytest.approx([cell.value for cell in cells], abs=0.051)
    for row in found.differences(1):
        assert row.named.label in page
    assert found.crossings[1].share("early") > 0.0, "the case was chosen to have early transfers"
    assert "Not to be overlooked" in page and "transfer early" in page
    with pytest.raises(wingnose.InputError, match="not a speed study"):
        report.speeds(comparison)


@pytest.mark.parametrize(("stored_as", "sheets_of_paper"), [("comparison", 4), ("steel_comparison", 6)])
def test_a_browser_shows_and_prints_the_report_of_a_comparison(browser, stored_as, sheets_of_paper, tmp_path, request):  # noqa: F811
    page = tmp_path / "compare.html"
    page.write_text(report.comparison(request.getfixturevalue(stored_as)), encoding="utf-8")
    check_page(page.read_text(encoding="utf-8"))
    dom, log = browser(page, "--dump-dom")
    assert console(log) == []
    assert "<title>Comparison of crossings: designed, worn &amp; torn</title>" in dom
    target = tmp_path / "compare.pdf"
    browser(page, "--no-pdf-header-footer", f"--print-to-pdf={target}")
    assert 1 <= len(re.findall(rb"/Type\s*/Page\b", target.read_bytes())) <= sheets_of_paper
