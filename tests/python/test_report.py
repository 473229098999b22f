"""Reports: one file, the numbers of the study, the answer in words, and what a real browser makes of it."""

import math
import re
import shutil

import h5py
import numpy as np
import pytest
from report_pages import Document, browser, check_page, console, outside  # noqa: F401  (browser: a fixture)

import wingnose
from wingnose import io, report, stored, study
from wingnose.report import __main__ as command
from wingnose.report._page import prose

KM_H = 1 / 3.6


def speeds_file(folder, case, limits, *, today=80, proposed=120, lowest=60, highest=150, step=10):
    found = study.study_speeds(case, lowest * KM_H, highest * KM_H, step * KM_H,
                               [io.parse_limit(text, source) for text, source in limits],
                               today=today and today * KM_H, proposed=proposed and proposed * KM_H)  # fmt: skip
    target = folder / "speeds.h5"
    io.write_speeds(target, case, found)
    return found, target


@pytest.fixture(scope="module")
def asked(case, tmp_path_factory):
    """A study whose limit on P2 is met within the range, under a name that has to be escaped."""
    hostile = case.replace(name='crossing <b>3</b> & "co"')
    limits = [("p2_kN=190", "rule 7 <i>of the house</i>"), ("peak_nose_kN=400", "")]
    return (hostile, *speeds_file(tmp_path_factory.mktemp("report"), hostile, limits))


@pytest.fixture(scope="module")
def page(asked):
    return report.speeds(asked[2])


def test_a_report_is_one_file_without_scripts_and_with_texts_for_its_figures(page):
    check_page(page)


def test_the_answer_at_the_top_is_that_of_the_study(asked, page):
    _, found, _ = asked
    document = Document(page)
    permissible = math.floor(found.permissible.speed * 36 + 1e-6) / 10
    assert f"All limits are kept up to {permissible:.1f} km/h." in document.text
    assert "P2 at most 190 kN (rule 7 <i>of the house</i>) governs" in document.text
    assert "Largest force on nose at most 400 kN source not named not reached in the range" in document.text
    assert "The proposed 120 km/h keeps all limits." in document.text


def test_names_and_sources_are_texts_not_markup(page):
    assert "<b>3</b>" not in page and "<i>of the house</i>" not in page
    assert "crossing &lt;b&gt;3&lt;/b&gt; &amp; &#34;co&#34;" in page


def test_a_closed_form_that_permits_more_is_told_loudly(asked, page):
    _, found, _ = asked
    permitted = {one.track_name: one.speed * 3.6 for one in found.answers[0].estimates}
    assert max(permitted.values()) > found.permissible.speed * 3.6 + 1.0
    alarm = re.search(r'<section class="alarm" role="alert".*?</section>', page, re.DOTALL)[0]
    told = Document(alarm).text
    assert "The closed form permits more than the simulation" in told
    for track, speed in permitted.items():
        cut = f"{math.floor(speed * 10) / 10:.1f}".removesuffix(".0")
        assert f"{cut} km/h ({track})" in told


def test_the_table_of_speeds_is_that_of_the_file(asked, page):
    rows = Document(page).tables["speeds"]
    with h5py.File(asked[2]) as file:
        for name, column in (("p2_kN", 1), ("peak_total_kN", 5)):
            expected = [f"{value:.1f}" for value in file[f"speeds/{name}"]]
            assert [row[column].removesuffix(" *") for row in rows[1:]] == expected
        assert [float(row[0].split()[0]) for row in rows[1:]] == pytest.approx(list(file["speeds/speed_km_h"]))
    assert rows[0][5].startswith("largest")
    broken = [float(row[1].removesuffix(" *")) for row in rows[1:] if row[1].endswith("*")]
    assert broken and min(broken) > 190.0
    assert {row[0].partition(" ")[2] for row in rows[1:]} == {"", "today", "proposed"}


def test_a_study_and_its_file_give_the_same_page(asked, page):
    case, found, _ = asked
    assert report.speeds(found, case) == page
    with pytest.raises(wingnose.InputError, match="does not know its case"):
        report.speeds(found)


def test_every_key_and_the_checksum_of_the_case_are_in_the_report(asked, page):
    case, _, file = asked
    document = Document(page)
    for item in case.inputs:
        assert item.sha256 in document.text
    for key, value in stored.read_speeds(file).keys.items():
        assert f"{key.partition('.')[2]} = {value}" in document.text


def test_closed_form_speeds_of_a_file_are_those_of_the_study(asked):
    _, found, file = asked
    limit = stored.read_speeds(file).limits[0]
    expected = {one.track_name: pytest.approx(one.speed * 3.6, rel=1e-9) for one in found.answers[0].estimates}
    assert dict(limit.closed_forms) == expected


def test_limits_that_are_not_reached_say_so(case, tmp_path):
    _, file = speeds_file(tmp_path, case, [("p2_kN=900", "")], step=45)
    document = check_page(report.speeds(file))
    assert "All limits are kept at every speed scanned, up to 150 km/h." in document.text
    assert "how much more they would allow was not looked for" in document.text


def test_a_limit_broken_at_the_lowest_speed_says_so(case, tmp_path):
    _, file = speeds_file(tmp_path, case, [("p2_kN=95", "")], step=45)
    document = check_page(report.speeds(file))
    assert "A limit is broken at the lowest speed scanned, 60 km/h." in document.text
    assert "The proposed 120 km/h breaks P2 at most 95 kN." in document.text


def test_a_proposed_speed_beyond_the_limits_names_those_it_breaks(case, tmp_path):
    limits = [("p2_kN=150", ""), ("minimum_force_kN=5", "")]
    found, file = speeds_file(tmp_path, case, limits, step=30)
    at = found.points[found.proposed].measures
    assert at.p2 > 150e3 and at.minimum_force < 5e3
    document = check_page(report.speeds(file))
    assert "The proposed 120 km/h breaks P2 at most 150 kN and least total force at least 5 kN." in document.text


def test_without_limits_and_speeds_to_compare_a_report_still_tells_the_forces(case, tmp_path):
    _, file = speeds_file(tmp_path, case, [], today=None, proposed=None, step=45)
    text = report.speeds(file)
    document = check_page(text)
    assert "No limit was given" in document.text
    assert "Speed study: " in document.text and "change" not in document.tables


def test_limits_kept_again_above_the_first_break_are_told_as_not_monotone(asked, tmp_path):
    file = shutil.copy(asked[2], tmp_path / "again.h5")
    with h5py.File(file, "r+") as opened:
        opened["limits/kept_again_km_h"][0] = "140 to 150"
    assert "is not monotone in speed" in Document(report.speeds(file)).text
    assert "kept again at 140 to 150 km/h" in Document(report.speeds(file)).text
    assert "monotone" not in Document(report.speeds(asked[2])).text


def test_missing_values_leave_dashes_and_gaps(asked, tmp_path):
    file = shutil.copy(asked[2], tmp_path / "gaps.h5")
    with h5py.File(file, "r+") as opened:
        opened["speeds/p2_kN"][2] = np.nan
        opened["speeds/lost_contact_ms"][...] = np.nan
        opened["speeds/minimum_force_kN"][...] = np.nan
        for name in ("failures/speed_km_h", "failures/reason"):
            if name in opened:
                del opened[name]
        opened["failures/speed_km_h"] = [155.0]
        opened["failures/reason"] = ["the wheel derails"]
    document = check_page(report.speeds(file))
    assert document.tables["speeds"][3][1] == "–"
    assert "No passage at 155.0 km/h: the wheel derails" in document.text
    with h5py.File(file, "r+") as opened:
        opened["speeds/p2_kN"][...] = np.nan
        for name in [name for name in opened["closed_form"]]:
            opened[f"closed_form/{name}/p2_kN"][...] = np.nan
    check_page(report.speeds(file))


def test_long_studies_are_thinned_in_the_table_and_say_so(case, tmp_path):
    found, file = speeds_file(tmp_path, case, [], today=81, proposed=121, step=1)
    document = check_page(report.speeds(file))
    shown = len(document.tables["speeds"]) - 1
    assert shown < 40
    assert f"{len(found.points) - shown} speeds in between are left out here" in document.text
    assert {"81 today", "121 proposed"} <= {row[0] for row in document.tables["speeds"]}


def test_sentences_of_the_program_are_printed_as_prose():
    assert prose('by P2 "worn" and "new" are alike') == "By P2 “worn” and “new” are alike."
    assert prose("Told already.") == "Told already."


def test_command_line_writes_the_page_and_refuses_what_it_cannot_tell(asked, page, tmp_path, capsys):
    target = tmp_path / "new" / "speeds.html"
    assert command.main([str(asked[2]), "-o", str(target)]) == 0
    assert capsys.readouterr().out.strip() == str(target)
    assert target.read_text(encoding="utf-8") == page
    assert command.main([str(tmp_path / "absent.h5")]) == 2
    assert re.search(r'"[^"]*absent.h5" cannot be read as a result: there is no such file', capsys.readouterr().err)
    assert command.main([str(asked[2]), "-o", str(asked[2])]) == 2
    not_hdf5 = tmp_path / "text.h5"
    not_hdf5.write_text("no")
    assert command.main([str(not_hdf5)]) == 2
    assert "cannot be read as a result" in capsys.readouterr().err


def test_a_run_has_no_report(case, result, tmp_path, capsys):
    file = tmp_path / "run.h5"
    wingnose.write_result(file, case, result)
    assert command.main([str(file)]) == 2
    assert "reports of speed studies, comparisons and damage only" in capsys.readouterr().err
    with pytest.raises(wingnose.InputError, match="not a speed study"):
        stored.read_speeds(file)


# --- a real browser ------------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def written(page, tmp_path_factory):
    target = tmp_path_factory.mktemp("page") / "speeds.html"
    target.write_text(page, encoding="utf-8")
    return target


def test_the_browser_would_tell_of_a_page_that_reaches_outside(browser, tmp_path):
    bad = tmp_path / "bad.html"
    bad.write_text("<!doctype html><img src='http://example.invalid/a.png'><script>missing()</script>")
    dom, log = browser(bad, "--dump-dom")
    assert console(log)
    assert outside(Document(dom))


def test_a_browser_shows_title_and_numbers_and_has_nothing_to_complain_about(browser, asked, page, written):
    dom, log = browser(written, "--dump-dom")
    assert console(log) == []
    document = Document(dom)
    assert outside(document) == []
    assert re.search(r"<title>Speed increase: crossing &lt;b&gt;3", dom)
    assert document.tables == Document(page).tables
    # Text of the figures reaches the DOM as text.
    for label in ("speed [km/h]", "P2 [kN]", "at most 190 kN", "closed form, derived", "simulated"):
        assert label in document.text
    with h5py.File(asked[2]) as file:
        permissible = file["permissible/speed_km_h"][()]
    assert f"{math.floor(permissible * 10 + 1e-6) / 10:.1f} km/h" in document.text


def test_a_browser_paints_the_page(browser, written, tmp_path):
    picture = tmp_path / "page.png"
    _, log = browser(written, "--window-size=1100,1800", f"--screenshot={picture}")
    assert console(log) == []
    from matplotlib.image import imread

    seen = imread(picture)
    assert seen.shape[:2] == (1800, 1100)
    # Paper around ink: neither blank nor dark, and the red of limits and alarm is there.
    grey = seen[..., :3].mean(axis=-1)
    assert 0.85 < grey.mean() < 0.99 and grey.min() < 0.3
    red = (seen[..., 0] > 0.6) & (seen[..., 1] < 0.3) & (seen[..., 2] < 0.3)
    assert red.sum() > 500


def test_a_browser_prints_it_on_one_to_three_sheets_of_a4(browser, written, tmp_path):
    target = tmp_path / "page.pdf"
    browser(written, "--no-pdf-header-footer", f"--print-to-pdf={target}")
    content = target.read_bytes()
    assert content.startswith(b"%PDF")
    assert 1 <= len(re.findall(rb"/Type\s*/Page\b", content)) <= 3
    boxes = {tuple(round(float(size)) for size in box.split()[2:]) for box in
             re.findall(rb"/MediaBox\s*\[([^\]]+)\]", content)}  # fmt: skip
    assert boxes and all(abs(width - 595) <= 1 and abs(height - 842) <= 1 for width, height in boxes)
