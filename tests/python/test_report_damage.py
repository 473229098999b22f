"""Report of what a landing, or a traffic, does to the steel: the numbers of the file, and what they say."""

import math
import re
import shutil

import h5py
import numpy as np
import pytest
from report_pages import Document, browser, check_page, console  # noqa: F401  (browser: a fixture)

import wingnose
from wingnose import assess, io, report, stored, study
from wingnose.report import __main__ as command

SHIFTS_MM = (-2.0, 0.5, 1000.0)  # the last one misses the crossing


def one_wheel(target, case, result, steel):
    trail = study.contact_trail(case, result)
    found = io.DamageReport(steel=steel, options=case.damage, trail=trail,
                            damage=assess.damage(trail, steel, case.damage))  # fmt: skip
    io.write_damage(target, case, found)
    return target


@pytest.fixture(scope="module")
def landing(case, result, tmp_path_factory):
    """One wheel over rail steel, under a name that has to be escaped."""
    hostile = case.replace(name='crossing <b>3</b> & "co"')
    return one_wheel(tmp_path_factory.mktemp("landing") / "one.h5", hostile, result, assess.steel("R350HT"))


@pytest.fixture(scope="module")
def traffic(case, result, demo_file, tmp_path_factory):
    """A mixed traffic, one wheel of which cannot be computed, over steel that hardens."""
    classes = [study.WheelClass(name="passenger"), study.WheelClass(name="freight")]
    members = [
        study.Member(name=f"wheel at {shift:g}", wheel_class=number % 2, weight=1.0 + number,
                     values={"wheel.lateral_offset_mm": shift})
        for number, shift in enumerate(SHIFTS_MM)
    ]  # fmt: skip
    population = study.Population(classes=classes, members=members)
    steel = assess.steel("Mn")
    mix = study.traffic(io.read_case_document(demo_file), population, tonnage=2e9, stages=3, steel=steel)
    trail = study.contact_trail(case, result)
    found = io.DamageReport(steel=steel, options=case.damage, trail=trail,
                            damage=assess.damage(trail, steel, case.damage), mix=mix, mix_text="# <wheels>")  # fmt: skip
    target = tmp_path_factory.mktemp("traffic") / "traffic.h5"
    io.write_damage(target, case, found)
    return target


def printed(text):
    """The number a cell shows."""
    return float(text.replace("\N{NARROW NO-BREAK SPACE}", "").replace("−", "-").split()[0])


def shown_as(text, value):
    """Whether a cell shows a value to the digits it has."""
    decimals = len(text.split()[0].partition(".")[2])
    return printed(text) == pytest.approx(value, abs=0.5000001 * 10.0**-decimals)


def rows(document, table):
    """Rows of a table of the page by what stands in their first cell."""
    return {row[0]: row for row in document.tables[table][1:]}


@pytest.mark.parametrize("kind", ["landing", "traffic"])
def test_both_kinds_of_files_give_one_page_without_scripts(kind, request):
    document = check_page(report.damage(request.getfixturevalue(kind)))
    assert ("traffic" in document.tables) == (kind == "traffic")
    assert {"limits", "measures"} <= set(document.tables)


@pytest.mark.parametrize("kind", ["landing", "traffic"])
def test_every_measure_of_the_file_stands_in_the_table_with_its_value_and_place(kind, request):
    file = request.getfixturevalue(kind)
    found = stored.read_damage(file)
    table = rows(Document(report.damage(file)), "measures")
    assert len(table) == len(found.measures())
    for one in found.measures():
        name = one.label[0].upper() + one.label[1:]
        row = table.get(name, table.get(f"{name} †"))
        assert shown_as(row[1], one.value), one.key
        assert ("†" in row[0]) == (one.key.startswith(("wear", "crack"))), "rates are marked as such"
        place = stored.place_of(found, one.key)
        if place is None:
            assert row[3:7] == ["", "", "", ""]
        else:
            assert row[3] == place.body and printed(row[4]) == round(place.x)
            assert shown_as(row[6], place.x / float(found.keys["crossing.rate"]))


def test_places_are_those_of_the_computed_damage(case, result, landing):
    trail = study.contact_trail(case, result)
    damage = assess.damage(trail, assess.steel("R350HT"), case.damage)
    found = stored.read_damage(landing)
    for key, peak, scale in (
        ("peak_pressure_MPa", damage.peak_pressure, 1e-6),
        ("shakedown_exceedance", damage.shakedown, 1.0),
        ("surface_fatigue_index", damage.fatigue_index, 1.0),
        ("longitudinal_creepage_permil", damage.creepage, 1e3),
        ("creep_force_kN", damage.creep_force, 1e-3),
        ("t_gamma_N", damage.t_gamma, 1.0),
        ("change_of_contact_angle_rad", damage.change_of_angle, 1.0),
        ("wear_depth_nm", damage.wear_depth, 1e6),  # the map is in µm
    ):
        place = stored.place_of(found, key)
        assert (place.body, place.x, place.y) == (peak.body, pytest.approx(peak.x * 1e3), pytest.approx(peak.y * 1e3))
        assert place.value == pytest.approx(peak.value * scale, rel=1e-9), key
    assert stored.place_of(found, "friction_energy_J") is None


def test_stretches_hold_all_contacts_beyond_a_limit_and_no_long_run_of_others(landing):
    found = stored.read_damage(landing)
    x, exceedance = found.contacts("nose", "x_mm", "shakedown_exceedance")
    stretches = stored.stretches_above(found, "nose", "shakedown_exceedance", 1.0)
    assert len(stretches) == 2  # the landing, and the second peak of the force
    inside = np.any([(x >= one.first) & (x <= one.last) for one in stretches], axis=0)
    assert np.array_equal(inside, exceedance > 1.0)
    assert stored.stretches_above(found, "nose", "shakedown_exceedance", exceedance.max()) == []


def test_the_answer_says_where_how_much_and_what_governs(landing):
    found = stored.read_damage(landing)
    page = report.damage(landing)
    document = check_page(page)
    worst = stored.place_of(found, "shakedown_exceedance")
    thick = worst.x / float(found.keys["crossing.rate"])
    assert worst.value > 1.0
    headline = re.search(r'id="answer">([^<]*)', page)[1]
    assert headline == (f"The steel yields: every such wheel leaves plastic strain, worst on the nose at station "
                        f"{worst.x:.0f} mm, where it is {thick:.1f} mm thick.")  # fmt: skip
    assert f"the load factor reaches {worst.value:.2f} times what new R350HT" in document.text
    assert "of the limits elastic shakedown governs" in document.text
    limits = rows(document, "limits")
    traction, load = found.contacts(None, "traction_coefficient", "load_factor")
    assert shown_as(limits["Elastic shakedown (governs)"][4], worst.value)
    assert shown_as(limits["Surface flow"][4], (traction * load).max())
    assert "a rate for the shape as given and no forecast" in document.text
    assert "Not said: how long the crossing lasts" in document.text


def test_what_was_asked_and_the_inputs_with_their_checksums_are_told(landing, traffic):
    page = report.damage(landing)
    assert "<b>3</b>" not in page and "crossing &lt;b&gt;3&lt;/b&gt; &amp; &#34;co&#34;" in page
    document = Document(page)
    assert "One wheel S1002 at 108 km/h over steel R350HT, friction 0.3" in document.text
    for file in (landing, traffic):
        found = stored.read_damage(file)
        text = Document(report.damage(file)).text
        assert found.inputs and all(one.sha256 in text for one in found.inputs)
        assert all((note[0].upper() + note[1:]) in text for note in found.notes)
        assert found.trust in text
    text = Document(report.damage(traffic)).text
    assert "and 2 MGT of 3 kinds of wheels over steel Mn, friction 0.3" in text and "# <wheels>" in text


def test_a_traffic_is_told_with_its_classes_its_hardening_and_who_failed(traffic):
    found = stored.read_damage(traffic)
    document = check_page(report.damage(traffic))
    measures = {one.key: one.value for one in found.measures("traffic")}
    table = rows(document, "traffic")
    assert len(table) == len(measures)
    assert printed(table["Wheels"][1]) == round(measures["wheels"])
    assert shown_as(table["Wear depth per wheel †"][1], measures["wear_depth_per_wheel_nm"])
    assert (f"from {measures['shear_yield_first_MPa']:.0f} to {measures['shear_yield_last_MPa']:.0f} MPa"
            in document.text)  # fmt: skip
    with h5py.File(traffic) as opened:
        wheels = opened["traffic/population/wheels"][()]
        energy = np.nan_to_num(opened["traffic/population/friction_energy_J"][()]) * wheels
        exceedance = opened["traffic/population/shakedown_exceedance"][()]
        stages = opened["traffic/stages/shear_yield_MPa"][()]
    classes = rows(document, "classes")
    assert list(classes) == ["passenger", "freight", "all wheels"]
    assert classes["passenger"][1:3] == ["2", "1"]  # the wheel that misses the crossing is one of them
    assert shown_as(classes["freight"][3], 100.0 * wheels[1] / wheels.sum())
    assert shown_as(classes["freight"][4], 100.0 * energy[1] / energy.sum())
    assert shown_as(classes["passenger"][7], exceedance[0])
    assert shown_as(classes["all wheels"][7], np.nanmax(exceedance))
    assert [printed(row[1]) for row in document.tables["stages"][1:]] == pytest.approx(stages, abs=0.5)
    alarm = re.search(r'<section class="alarm" role="alert".*?</section>', report.damage(traffic), re.DOTALL)[0]
    assert "could not be computed" in alarm and "Wear of" in alarm


def test_most_wheels_of_a_place_and_the_stations_they_meet_it_at(traffic):
    found = stored.read_damage(traffic)
    most, stretch = stored.most_wheels(found, "nose", "wheels_beyond_shakedown")
    nose = found.map("nose", "wheels_beyond_shakedown", part="traffic")
    assert most == nose.values.max()
    outside = (nose.x < stretch.first) | (nose.x > stretch.last)
    assert nose.values[outside].max() < 0.9 * most
    assert nose.x[0] <= stretch.first < stretch.last <= nose.x[-1]


def test_a_steel_that_carries_the_wheel_is_told_as_such(landing, tmp_path):
    file = shutil.copy(landing, tmp_path / "kept.h5")
    with h5py.File(file, "r+") as opened:
        for key, value in (("shakedown_exceedance", 0.8), ("load_factor", 2.0), ("surface_fatigue_index", -0.2),
                           ("t_gamma_N", 3.0), ("crack_damage_1e_6", 0.0)):  # fmt: skip
            contacts = opened[f"contacts/{key}"]
            contacts[...] = np.full(contacts.shape, value)
            opened[f"measures/{key}"][...] = value
    document = check_page(report.damage(file))
    assert "The steel carries this wheel: no contact goes beyond elastic shakedown." in document.text
    assert "Elastic shakedown comes closest: 0.80 times" in document.text
    assert "The surface does not flow" in document.text and "too little to start cracks" in document.text
    assert {row[5].strip() for row in document.tables["limits"][1:]} == {"nowhere"}
    assert 'class="answer kept"' in report.damage(file)


def test_a_joint_has_no_nose_and_its_page_speaks_of_none(demo_file, tmp_path):
    case = wingnose.read_case(demo_file.with_name("dipped_joint.toml"))
    file = one_wheel(tmp_path / "joint.h5", case, wingnose.run(case), assess.steel("R260"))
    document = check_page(report.damage(file))
    answer = re.search(r'<section class="answer.*?</section>', report.damage(file), re.DOTALL)[0]
    assert "nose" not in answer and "mm thick" not in answer
    worst = stored.place_of(stored.read_damage(file), "peak_pressure_MPa")
    assert rows(document, "measures")["Peak pressure"][3:7] == ["path", f"{worst.x:.0f}", f"{worst.y:.1f}", "–"]
    assert math.isnan(stored.read_damage(file).nose_thickness(worst.x))


def test_the_command_knows_a_damage_file_and_names_one_mistake(landing, case, result, tmp_path, capsys):
    target = tmp_path / "new" / "damage.html"
    assert command.main([str(landing), "-o", str(target)]) == 0
    assert capsys.readouterr().out.strip() == str(target)
    assert target.read_text(encoding="utf-8") == report.damage(landing)
    run = tmp_path / "run.h5"
    wingnose.write_result(run, case, result)
    assert command.main([str(run), "-o", str(target)]) == 2
    assert "holds a run; there are reports of" in capsys.readouterr().err
    assert target.exists(), "what was there before stays"
    with pytest.raises(wingnose.InputError, match="holds a run, not a damage"):
        report.damage(run)


def test_a_browser_shows_the_page_of_a_traffic_and_prints_it(browser, traffic, tmp_path):  # noqa: F811
    page = report.damage(traffic)
    target = tmp_path / "damage.html"
    target.write_text(page, encoding="utf-8")
    dom, log = browser(target, "--dump-dom")
    assert console(log) == []
    assert Document(dom).tables == Document(page).tables
    paper = tmp_path / "damage.pdf"
    browser(target, "--no-pdf-header-footer", f"--print-to-pdf={paper}")
    assert 1 <= len(re.findall(rb"/Type\s*/Page\b", paper.read_bytes())) <= 7
