"""Sheets and pages of studies: speeds, comparisons and sweeps, drawn from what the studies answered."""

import re

import h5py
import matplotlib.pyplot as plt
import numpy as np
import pytest
from drawn import changed, check_sheet, line, with_grave, words
from report_pages import browser, check_page, console  # noqa: F401

import wingnose
from wingnose import plot, report, sheets, study


@pytest.fixture(autouse=True)
def close_figures():
    yield
    plt.close("all")


@pytest.fixture(scope="module")
def speeds(case, tmp_path_factory):
    target = tmp_path_factory.mktemp("speeds") / "speeds.h5"
    study.speeds(case, 60, 150, 10, [("p2_kN=190", "a rule"), "peak_nose_kN=250"], today_km_h=80, proposed_km_h=120,
                 file=target)  # fmt: skip
    return target


@pytest.fixture(scope="module")
def steel_speeds(case, tmp_path_factory):
    target = tmp_path_factory.mktemp("steel") / "speeds.h5"
    study.speeds(case, 60, 150, 15, [("t_gamma_N=150", "a rule")], today_km_h=75, proposed_km_h=120, file=target)
    return target


@pytest.fixture(scope="module")
def comparison(demo_file, tmp_path_factory):
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
    study.compare(folder / "compare.toml", file=folder / "compare.h5")
    return folder / "compare.h5"


@pytest.fixture(scope="module")
def steel_comparison(comparison):
    file = comparison.with_name("steel.toml")
    file.write_text(comparison.with_name("compare.toml").read_text() + "[compare]\nsteel = true\n")
    study.compare(file, file=comparison.with_name("steel.h5"))
    return comparison.with_name("steel.h5")


@pytest.fixture(scope="module")
def grave_comparison(case, demo_file):
    """One wheel of four so far to the side that its flange carries it."""
    wheels = study.Wheels({"wheel.lateral_offset_mm": [-2.0, 0.0, 2.0, 20.0]})
    return study.compare({"designed": case, "worn": wingnose.read_case(demo_file.with_name("worn.toml"))}, wheels)


@pytest.fixture(scope="module")
def sweep(demo_file, tmp_path_factory):
    target = tmp_path_factory.mktemp("sweep") / "sweep.h5"
    plan = study.grid(demo_file, {"passage.speed_km_h": [80, 110, 140], "wheel.lateral_offset_mm": [-2, 0, 2]})
    study.sweep(plan, target, progress=False)
    return target


def differences(found, crossing=1):
    node = found[f"differences/crossing_{crossing}"]
    return {label: tuple(node[name].values[i] for name in ("value", "low", "high"))
            for i, label in enumerate(node["label"].values)}  # fmt: skip


def criteria(found):
    """Criteria without their units."""
    return [words.removesuffix(f" ({of})") for words, of in
            zip(found["ranking/criterion"].values, found["ranking/value_unit"].values, strict=True)]  # fmt: skip


def test_force_against_speed_shows_the_stored_values_limits_and_both_speeds(speeds):
    ax = check_sheet(plot.force_against_speed(speeds))
    with h5py.File(speeds) as file:
        assert line(ax, "simulated").get_ydata() == pytest.approx(file["speeds/p2_kN"][()])
        assert line(ax, "closed form, derived").get_ydata() == pytest.approx(file["closed_form/p2_kN"][:, 0])
        assert line(ax, "closed form, GM/TT0088").get_ydata() == pytest.approx(file["closed_form/p2_kN"][:, 1])
        permissible = file["permissible/speed_km_h"][()]
    across = [item.get_ydata()[0] for item in ax.get_lines() if len(set(item.get_ydata())) == 1]
    assert 190.0 in across and 250.0 not in across
    upright = [item.get_xdata()[0] for item in ax.get_lines() if list(item.get_ydata()) == [0, 1]]
    assert upright == pytest.approx([80.0, 120.0, permissible])
    texts = {text.get_text().strip() for text in ax.texts}
    assert {"today 80", "proposed 120", "at most 190 kN"} <= texts


def test_other_measures_against_speed(speeds):
    found = wingnose.open(speeds)
    ax = check_sheet(plot.against_speed(found, ["peak_nose_kN", "peak_wing_kN"]))
    assert line(ax, "largest force on nose").get_ydata() == pytest.approx(found["speeds/peak_nose_kN"].values)
    assert 250.0 in [item.get_ydata()[0] for item in ax.get_lines()]
    for draw in (plot.dynamic_factor_against_speed, plot.lost_contact_against_speed):
        check_sheet(draw(found))
    _, given = plt.subplots()
    assert plot.lost_contact_against_speed(speeds, given) is given
    lost = study.speeds("profiles/demo.toml", 105, 125, 5)
    ax = plot.lost_contact_against_speed(lost)
    flying = lost["speeds/lost_contact_ms"].values > 0.0
    assert flying.any() and not flying.all()
    drawn = ax.lines[0].get_ydata()
    assert np.isnan(drawn).sum() == np.sum(flying[1:] != flying[:-1])  # no line leads up from a speed without
    with pytest.raises(wingnose.InputError, match="no measure of this study; allowed: .*peak_nose_kN"):
        plot.against_speed(found, ["peak_pressure_MPa"])


def test_sheets_of_a_comparison_show_what_is_stored(comparison):
    found = wingnose.open(comparison)
    assert list(found["crossing"].values) == ["designed", "worn & torn"]
    for ax, values in (
        (plot.paths(found), [found[f"paths/crossing_{i}/0/height_mm"].values for i in range(2)]),
        (plot.envelopes(found), found["envelope/q50_kN"].values),
        (plot.nose_load(found), found["nose_load/mean_kN"].values),
    ):
        check_sheet(ax)
        for name, expected in zip(found["crossing"].values, values, strict=True):
            assert line(ax, name).get_ydata() == pytest.approx(expected, nan_ok=True)
    ax = check_sheet(plot.cumulative(found, "p2_kN"))
    worn = line(ax, "worn & torn")
    assert worn.get_xdata()[1:] == pytest.approx(np.sort(found["passages/p2_kN"].values[1]))
    shares = found["wheels/share"].values[np.argsort(found["passages/p2_kN"].values[1])]
    assert worn.get_ydata()[1:] == pytest.approx(100.0 * np.cumsum(shares))
    with pytest.raises(wingnose.InputError, match="not compared here; allowed: .*p2_kN"):
        plot.cumulative(found, "landing_time_ms")


def test_wheels_that_are_not_compared_are_in_no_curve(grave_comparison):
    ax = plot.cumulative(grave_comparison, "p2_kN")
    assert line(ax, "designed").get_xdata().size == 1 + 3
    assert line(ax, "designed").get_ydata()[-1] == pytest.approx(100.0)


def test_every_figure_of_a_comparison_says_that_some_of_it_is_grave(grave_comparison, comparison):
    draws = (plot.paths, plot.envelopes, plot.transfers, plot.nose_load, plot.cumulative, plot.differences)
    for draw in draws:
        assert any(text.startswith("Grave: flange contact") for text in words(check_sheet(draw(grave_comparison))))
        assert not any("Grave" in text for text in words(draw(comparison)))


def test_bars_of_the_transfer_histogram_hold_all_wheels(comparison):
    ax = check_sheet(plot.transfers(comparison, bins=9))
    outlines = [patch for patch in ax.patches if patch.get_label() in ("designed", "worn & torn")]
    assert len(outlines) == 2
    for outline in outlines:
        assert np.sum(outline.get_data().values) == pytest.approx(100.0)


def test_differences_are_drawn_with_their_intervals_in_per_cent_of_the_reference(comparison):
    found = wingnose.open(comparison)
    ax = check_sheet(plot.differences(found))
    place = [label.get_text() for label in ax.get_yticklabels()].index("P2, 95 %")
    value, low, high = differences(found)["P2, 95 %"]
    base = found["ranking/value"].values[criteria(found).index("P2, 95 %"), 0]
    drawn = [item for item in ax.get_lines() if len(item.get_ydata()) and item.get_ydata()[0] == place]
    expected = [100 * low / base, 100 * high / base]
    assert any(list(item.get_xdata()) == pytest.approx(expected) for item in drawn if len(item.get_xdata()) == 2)
    assert expected[0] <= 100 * value / base <= expected[1]


def test_shares_say_that_their_differences_are_percentage_points(comparison):
    found = wingnose.open(comparison)
    names = [label.get_text() for label in plot.differences(found).get_yticklabels()]
    shares = [name for name in names if "percentage points" in name]
    assert len(shares) == np.sum(found["ranking/value_unit"].values == "%") == 1
    assert shares[0].startswith("share that loses contact")


def test_one_wide_interval_does_not_press_the_others_flat(comparison):
    found = wingnose.open(comparison)
    wide = changed(found, {"differences/crossing_1/high": lambda old: np.append(1e6, old[1:])})
    ax = plot.differences(wide)
    assert max(ax.get_xlim()) < 1e3
    assert any(item.get_marker() == ">" for item in ax.get_lines())
    assert not any(item.get_marker() == ">" for item in plot.differences(found).get_lines())


def test_a_wheel_far_out_does_not_press_the_curves_of_all_others_together(comparison):
    found = wingnose.open(comparison)
    values = found["passages/p2_kN"].values.copy()
    usual = values.max()
    values[1, np.argmax(values[1])] = 1e4
    ax = plot.cumulative(changed(found, {"passages/p2_kN": values}), "p2_kN")
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
    found = wingnose.open(steel_comparison)
    ax = check_sheet(plot.cumulative(found, "shakedown_exceedance"))
    values = np.sort(found["passages/shakedown_exceedance"].values[1])
    assert line(ax, "worn & torn").get_xdata()[1:] == pytest.approx(values)
    assert any("plastic with every wheel" in text.get_text() for text in ax.texts)
    assert check_sheet(plot.cumulative(found, "wear_volume_mm3")).get_xlabel() == "wear volume [mm³]"
    scanned = wingnose.open(steel_speeds)
    ax = check_sheet(plot.against_speed(scanned, ["t_gamma_N"]))
    told = scanned["steel/t_gamma_N"].values
    assert any(list(item.get_ydata()) == pytest.approx(told) for item in ax.get_lines() if len(item.get_ydata()) == len(told))
    assert 150.0 in [item.get_ydata()[0] for item in ax.get_lines()]
    assert ax.get_ylabel() == "T-gamma [N]"


def test_names_units_and_marks_on_axes_are_those_of_the_table_of_quantities(steel_comparison, steel_speeds):
    for key, quantity in wingnose.quantities.items():
        if not (quantity.of_steel and quantity.compared):
            continue
        compared, scanned = plot.cumulative(steel_comparison, key), plot.against_speed(steel_speeds, [key])
        assert compared.get_xlabel() == scanned.get_ylabel() != ""
        assert compared.get_xlabel().startswith(quantity.label)
        for ax in (compared, scanned):
            assert any(quantity.beyond in text.get_text() for text in ax.texts) or quantity.mark is None


def test_reports_tell_of_the_steel_in_a_section_of_its_own(steel_comparison, comparison, steel_speeds):
    page = report.comparison(steel_comparison)
    found = wingnose.open(steel_comparison)
    document = check_page(page)
    assert "What the landing does to the steel" in document.text
    assert "What the landing does to the steel" not in report.comparison(comparison)
    for text in found["assumptions/steel/sentence"].values:
        assert text[1:40] in document.text
    rows = {row[0]: row[2:] for row in document.tables["steel"]}
    medians = found["statistics/shakedown_exceedance"].sel(statistic="q50").values
    for cell, median in zip(rows["shakedown exceedance"], medians, strict=True):
        assert float(cell.split()[0]) == pytest.approx(median, abs=0.0051)
    # Where all crossings are alike no one is printed as the best.
    for k, criterion in enumerate(criteria(found)):
        alike = bool(np.all(found["ranking/place_of"].values[k] == 1.0))
        row = re.search(rf">{re.escape(criterion)}</th>.*?</tr>", page, re.DOTALL)[0]
        assert ('class="best"' in row) != alike, criterion
    told = {row[0] for row in document.tables["steel-differences"]}
    assert {"wear volume, mean", "shakedown exceedance, 95 %", "T-gamma, mean"} <= told
    assert not told & {row[0] for row in document.tables["differences"]} - {"Quantity"}
    for checksum in found["case/inputs/sha256"].values:
        assert checksum in document.text

    document = check_page(report.speeds(steel_speeds))
    assert "What the landing does to the steel" in document.text
    heads = document.tables["steel"][0]
    column = next(i for i, head in enumerate(heads) if head.startswith("T-gamma"))
    shown = [float(row[column].removesuffix(" *")) for row in document.tables["steel"][1:]]
    assert shown == pytest.approx(wingnose.open(steel_speeds)["steel/t_gamma_N"].values, abs=0.051)
    assert all((value > 150.0) == row[column].endswith("*") for value, row in zip(shown, document.tables["steel"][1:], strict=True))
    assert "T-gamma at most 150 N (a rule) governs" in document.text


def test_answers_without_the_steel_have_no_sheet_of_it(comparison, speeds):
    for source, draw in ((comparison, plot.cumulative), (speeds, lambda of, key: plot.against_speed(of, [key]))):
        with pytest.raises(wingnose.InputError, match="t_gamma_N"):
            draw(source, "t_gamma_N")


def test_sweep_against_an_input(sweep):
    ax = check_sheet(plot.against_input(sweep, "passage.speed_km_h"))
    assert line(ax, "cases").get_xdata().size == 9
    assert line(ax, "median").get_xdata() == pytest.approx([80.0, 110.0, 140.0])
    assert (ax.get_xlabel(), ax.get_ylabel()) == ("Speed [km/h]", "P2 [kN]")
    with pytest.raises(wingnose.InputError, match="does not vary"):
        plot.against_input(sweep, "track.rail")
    with pytest.raises(wingnose.InputError, match="no measure of this sweep; allowed: .*p2_kN"):
        plot.against_input(sweep, "passage.speed_km_h", "p3_kN")


def test_speeds_over_a_joint_have_sheets_and_a_page_without_a_nose(demo_file, tmp_path):
    joint = demo_file.with_name("dipped_joint.toml")
    study.speeds(joint, 80, 120, 20, ["p2_kN=160"], today_km_h=80, proposed_km_h=100, file=tmp_path / "joint.h5")
    names = {path.stem.removeprefix("joint_") for path in sheets.draw(tmp_path / "joint.h5", tmp_path)}
    assert names == {"p2", "factor", "peaks", "lost_contact"}
    heads = check_page(report.speeds(tmp_path / "joint.h5")).tables["speeds"][0]
    assert not any("nose" in head for head in heads) and any("largest total force" in head for head in heads)


def test_grave_cases_of_a_sweep_are_crossed_out_and_counted(demo_file, sweep, tmp_path):
    plan = study.points(demo_file, {"wheel.lateral_offset_mm": [-2, 0, 6]})  # the last one runs against the nose
    study.sweep(plan, tmp_path / "grave.h5", progress=False)
    ax = check_sheet(plot.against_input(tmp_path / "grave.h5", "wheel.lateral_offset_mm"))
    assert line(ax, "grave cases").get_xdata() == pytest.approx([6.0])
    assert "Grave: 1 of 3 cases; see their findings first" in words(ax)
    assert not any("Grave" in text for text in words(plot.against_input(sweep, "passage.speed_km_h")))


def test_the_file_tells_which_sheets_fit(speeds, comparison, steel_comparison, steel_speeds, sweep, tmp_path, capsys):
    expected = {
        speeds: {"p2", "factor", "peaks", "lost_contact"},
        comparison: {"paths", "envelopes", "transfers", "nose_load", "p2", "peak_nose", "differences"},
        sweep: {"p2_speed_km_h", "p2_lateral_offset_mm"},
    }
    of_steel = {"peak_pressure", "shakedown_exceedance", "surface_fatigue_index", "t_gamma", "crack_damage", "friction_energy",
                "wear_volume", "change_of_contact_angle"}  # fmt: skip
    expected[steel_comparison] = expected[comparison] | of_steel
    expected[steel_speeds] = expected[speeds] | of_steel
    for file, names in expected.items():
        assert sheets.main([str(file), str(tmp_path)]) == 0
        written = set(capsys.readouterr().out.split())
        assert written == {str(tmp_path / f"{file.stem}_{name}.png") for name in names}
    with h5py.File(tmp_path / "other.h5", "w") as file:
        file.attrs["format"] = "something else"
    assert sheets.main([str(tmp_path / "other.h5")]) == 2
    assert "not of wingnose" in capsys.readouterr().err


def test_report_of_a_comparison_tells_ranking_and_early_transfers(comparison):
    found = wingnose.open(comparison)
    page = report.comparison(comparison)
    assert page == report.comparison(found)
    assert "worn &amp; torn" in page and "worn & torn" not in page
    assert page.count("<svg") == 7 == page.count('role="img"')
    ranking = {row[0]: row for row in check_page(page).tables["ranking"]}
    for k, criterion in enumerate(criteria(found)):
        told = [re.match(r"([\d.]+) \((\d)", cell) for cell in ranking[criterion][3:]]
        assert [int(one[2]) for one in told] == list(found["ranking/place_of"].values[k])
        assert [float(one[1]) for one in told] == pytest.approx(found["ranking/value"].values[k], abs=0.051)
    for label in differences(found):
        assert label in page
    assert found["crossings/early_percent"].values[1] > 0.0, "the case was chosen to have early transfers"
    assert "Not to be overlooked" in page and "transfer early" in page
    assert "worst" not in " ".join(map(" ".join, ranking.values())), "all wheels are compared"
    with pytest.raises(wingnose.InputError, match="holds a comparison; allowed: speeds"):
        report.speeds(comparison)


def test_a_ranking_tells_both_without_the_grave_wheels_and_with_them_as_the_worst(grave_comparison):
    found = grave_comparison
    document = check_page(report.comparison(found))
    rows = {row[0]: row[3:] for row in document.tables["ranking"]}
    worst, seen = found["ranking/worst_value"].values, 0
    for k, criterion in enumerate(criteria(found)):
        for cell, value, bound in zip(rows[criterion], found["ranking/value"].values[k], worst[k], strict=True):
            first, _, second = cell.partition("worst ")
            assert float(first.split()[0]) == pytest.approx(value, abs=0.051)
            seen += np.isfinite(bound)
            if np.isfinite(bound):
                assert float(second.split()[0]) == pytest.approx(bound, abs=0.051)
            else:
                assert second.strip() == "no bound"
    assert 0 < seen < worst.size, "the case was chosen to have criteria of both sorts"
    grave = next(row for name, row in rows.items() if "grave finding" in name)
    assert [cell.strip() for cell in grave] == [f"{share:.1f} %" for share in found["crossings/grave_percent"].values]
    assert grave[0] == "25.0 %"
    assert "Not compared are 25.0 % of the wheels" in document.text


def test_findings_stand_in_one_block_the_gravest_first_and_none_is_left_out(grave_comparison, speeds):
    for found, page in (
        (grave_comparison, report.comparison(grave_comparison)),
        (with_grave(wingnose.open(speeds)), report.speeds(with_grave(wingnose.open(speeds)))),
    ):
        document = check_page(page)
        block = re.search(r'<section class="findings grave" role="alert".*?</section>', page, re.DOTALL)[0]
        assert re.findall(r'<ul class="(\w+)', block) == ["grave", "warning", "note"]
        assert page.index('class="findings') < page.index("<table")
        said = document.text.lower().replace("“", '"').replace("”", '"')
        for one in wingnose.findings(found):
            assert one.what.lower() in said and one.advice.lower() in said and one.where.lower() in said
        assert document.text.count("Grave: flange contact") >= page.count("<svg") - 1, "every figure says so, too"
    assert "&lt;hard&gt;" in page and "<hard>" not in page
    quiet = changed(wingnose.open(speeds), {"findings/kind": lambda old: np.full(old.shape, "reading", dtype=object)})
    assert '<section class="findings note" aria' in report.speeds(quiet)


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
