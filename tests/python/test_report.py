"""Reports: one file, the numbers of the study, the answer in words, and what a real browser makes of it."""

import math
import re

import numpy as np
import pytest
from drawn import changed
from report_pages import Document, browser, check_page, console, outside  # noqa: F401  (browser: a fixture)

import wingnose
from wingnose import report, study
from wingnose.report import __main__ as command
from wingnose.report._page import prose


def scanned(case, limits, *, today=80, proposed=120, lowest=60, highest=150, step=10, file=None):
    return study.speeds(case, lowest, highest, step, limits, today_km_h=today, proposed_km_h=proposed, file=file)


@pytest.fixture(scope="module")
def asked(case, tmp_path_factory):
    """A study whose limit on P2 is met within the range, under a name that has to be escaped."""
    hostile = case.replace(name='crossing <b>3</b> & "co"')
    limits = [("p2_kN=190", "rule 7 <i>of the house</i>"), ("peak_nose_kN=400", "")]
    file = tmp_path_factory.mktemp("report") / "speeds.h5"
    return hostile, scanned(hostile, limits, file=file), file


@pytest.fixture(scope="module")
def page(asked):
    return report.speeds(asked[2])


def test_a_report_is_one_file_without_scripts_and_with_texts_for_its_figures(page):
    check_page(page)


def test_the_answer_at_the_top_is_that_of_the_study(asked, page):
    _, found, _ = asked
    document = Document(page)
    permissible = math.floor(float(found["permissible/speed_km_h"]) * 10 + 1e-6) / 10
    assert f"Highest speed that keeps all limits: {permissible:.1f} km/h, governed by P2 at most 190 kN." in document.text
    assert "P2 at most 190 kN (rule 7 <i>of the house</i>) governs" in document.text
    assert "Largest force on nose at most 400 kN source not named not reached in the range" in document.text
    assert "The proposed 120 km/h keeps all limits." in document.text


def test_names_and_sources_are_texts_not_markup(page):
    assert "<b>3</b>" not in page and "<i>of the house</i>" not in page
    assert "crossing &lt;b&gt;3&lt;/b&gt; &amp; &#34;co&#34;" in page


def closed_form_speeds(found):
    return dict(zip(found["lumped_track"].values, found["closed_form/limits/permissible_speed_km_h"].values[0], strict=True))


def test_a_closed_form_that_permits_more_is_told_loudly(asked, page):
    _, found, _ = asked
    permitted = closed_form_speeds(found)
    assert max(permitted.values()) > float(found["permissible/speed_km_h"]) + 1.0
    alarm = re.search(r'<section class="findings warning" role="alert".*?</section>', page, re.DOTALL)[0]
    told = Document(alarm).text
    assert "do not take the higher speed from it" in told
    row = Document(page).tables["limits"][1]
    for track, speed in permitted.items():
        cut = f"{math.floor(speed * 10) / 10:.1f}".removesuffix(".0")
        assert f"the closed form ({track}) would allow {cut}" in told.replace("The closed", "the closed")
        assert f"{track}: {cut} km/h" in row[3]


def test_the_table_of_speeds_is_that_of_the_study(asked, page):
    _, found, _ = asked
    rows = Document(page).tables["speeds"]
    for name, head in (("p2_kN", "P2 kN"), ("peak_total_kN", "largest total force kN")):
        column = next(i for i, one in enumerate(rows[0]) if one == head)
        expected = [f"{value:.2f}" for value in found[f"speeds/{name}"].values]
        assert [row[column].removesuffix(" *") for row in rows[1:]] == expected
    assert [float(row[0].split()[0]) for row in rows[1:]] == pytest.approx(found["speeds/speed_km_h"].values)
    broken = [float(row[1].removesuffix(" *")) for row in rows[1:] if row[1].endswith("*")]
    assert broken and min(broken) > 190.0
    assert {" ".join(row[0].split()[1:]) for row in rows[1:]} == {"", "today", "proposed"}


def test_a_study_and_its_file_give_the_same_page(asked, page):
    _, found, file = asked
    assert report.speeds(found) == page == report.speeds(str(file))


def test_every_key_and_the_checksum_of_the_case_are_in_the_report(asked, page):
    case, _, file = asked
    document = Document(page)
    for item in case.inputs:
        assert item.sha256 in document.text
    keys = wingnose.open(file)["case/keys"]
    for key, value in zip(keys["key"].values, keys["value"].values, strict=True):
        assert f"{key.partition('.')[2]} = {value}" in document.text


def test_limits_that_are_not_reached_say_so(case):
    document = check_page(report.speeds(scanned(case, [("p2_kN=900", "")], step=45)))
    assert "All limits are kept up to 150 km/h, the highest speed scanned." in document.text
    assert "how much more they would allow was not looked for" in document.text


def test_a_limit_broken_at_the_lowest_speed_says_so(case):
    document = check_page(report.speeds(scanned(case, [("p2_kN=95", "")], step=45)))
    assert "No speed from 60 km/h upwards can be permitted: P2 at most 95 kN is broken there already." in document.text
    assert "The proposed 120 km/h breaks P2 at most 95 kN." in document.text


def test_a_proposed_speed_beyond_the_limits_names_those_it_breaks(case):
    limits = [("p2_kN=150", ""), ("minimum_force_kN=5", "")]
    found = scanned(case, limits, step=30)
    at = found["speeds"].sel(speed_km_h=120, method="nearest")
    assert at["p2_kN"] > 150 and at["minimum_force_kN"] < 5
    document = check_page(report.speeds(found))
    assert "The proposed 120 km/h breaks P2 at most 150 kN and least total force at least 5 kN." in document.text


def test_without_limits_and_speeds_to_compare_a_report_still_tells_the_forces(case):
    text = report.speeds(scanned(case, [], today=None, proposed=None, step=45))
    document = check_page(text)
    assert "No limit was given" in document.text
    assert "Speed study: " in document.text and "change" not in document.tables


def test_limits_kept_again_above_the_first_break_are_told_as_not_monotone(asked):
    again = changed(asked[1], {"limits/kept_again_km_h": lambda old: np.append(["140 to 150"], old[1:]).astype(object)})
    assert "is not monotone in speed" in Document(report.speeds(again)).text
    assert "kept again at 140 to 150 km/h" in Document(report.speeds(again)).text
    assert "monotone" not in Document(report.speeds(asked[1])).text


def test_missing_values_leave_dashes_and_gaps(asked):
    none = lambda old: np.full(old.shape, np.nan)  # noqa: E731
    gaps = changed(asked[1], {"speeds/p2_kN": lambda old: np.where(np.arange(old.size) == 2, np.nan, old),
                              "speeds/lost_contact_ms": none, "speeds/minimum_force_kN": none})  # fmt: skip
    document = check_page(report.speeds(gaps))
    assert document.tables["speeds"][3][1] == "–"
    check_page(report.speeds(changed(gaps, {"speeds/p2_kN": none, "closed_form/p2_kN": none})))


def test_a_grave_speed_keeps_no_limit_and_the_page_says_why(demo_file):
    # Far to the side the wheel runs against the nose at every speed.
    beside = wingnose.read_case(demo_file).vary({"wheel.lateral_offset_mm": 6.0})
    found = scanned(beside, ["p2_kN=1e6"], step=30)
    assert wingnose.findings(found, gravity="grave"), "the case was chosen to be grave"
    document = check_page(report.speeds(found))
    assert "can be permitted: P2 at most 1e+06 kN is broken there already" in document.text
    assert "where it is broken first a passage is grave or could not be computed" in document.text
    assert "The proposed 120 km/h is not permitted: a passage at it, or at a lower speed, is grave" in document.text


def test_long_studies_are_thinned_in_the_table_and_say_so(case):
    found = scanned(case, [], today=81, proposed=121, step=1)
    document = check_page(report.speeds(found))
    shown = len(document.tables["speeds"]) - 1
    assert shown < 40
    assert f"{found['speeds/p2_kN'].size - shown} speeds in between are left out here" in document.text
    assert {"81 today", "121 proposed"} <= {" ".join(row[0].split()) for row in document.tables["speeds"]}


def test_sentences_of_the_program_are_printed_as_prose():
    assert prose('by P2 "worn" and "new" are alike') == "By P2 “worn” and “new” are alike."
    assert prose("Told already.") == "Told already."


def test_command_line_writes_the_page_and_refuses_what_it_cannot_tell(asked, page, tmp_path, capsys):
    target = tmp_path / "new" / "speeds.html"
    assert command.main([str(asked[2]), "-o", str(target)]) == 0
    assert capsys.readouterr().out.strip() == str(target)
    assert target.read_text(encoding="utf-8") == page
    assert command.main([str(tmp_path / "absent.h5")]) == 2
    assert re.search(r'"[^"]*absent.h5" does not exist', capsys.readouterr().err)
    assert command.main([str(asked[2]), "-o", str(asked[2])]) == 2
    not_hdf5 = tmp_path / "text.h5"
    not_hdf5.write_text("no")
    assert command.main([str(not_hdf5)]) == 2
    assert "not an HDF5 file" in capsys.readouterr().err


def test_a_run_has_no_report(case, tmp_path, capsys):
    file = tmp_path / "run.h5"
    wingnose.run(case, file=file)
    assert command.main([str(file)]) == 2
    assert "reports of speed studies, comparisons, damage and rides only" in capsys.readouterr().err
    with pytest.raises(wingnose.InputError, match="holds a run; allowed: speeds"):
        report.speeds(file)


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
    permissible = float(asked[1]["permissible/speed_km_h"])
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
