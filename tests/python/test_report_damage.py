"""Report of what a landing, or a traffic, does to the steel: the numbers of the answer, and what they say."""

import math
import re

import numpy as np
import pytest
from drawn import changed, with_grave
from report_pages import Document, browser, check_page, console  # noqa: F401  (browser: a fixture)

import wingnose
from wingnose import report, study
from wingnose._reading import contacts_of, keys_of, maps_of
from wingnose.report import __main__ as command
from wingnose.report._damage_words import most_wheels, nose_thickness, place_of, place_on_map, stretches_above

SHIFTS_MM = [-2.0, 0.5, 1000.0]  # the last one misses the crossing


@pytest.fixture(scope="module")
def landing_file(case, tmp_path_factory):
    """One wheel over rail steel, under a name that has to be escaped."""
    target = tmp_path_factory.mktemp("landing") / "one.h5"
    study.damage(case.replace(name='crossing <b>3</b> & "co"').vary({"damage.steel": "R350HT"}), file=target)
    return target


@pytest.fixture(scope="module")
def landing(landing_file):
    return wingnose.open(landing_file)


@pytest.fixture(scope="module")
def traffic(case, tmp_path_factory):
    """A mixed traffic, one wheel of which cannot be computed, over steel that hardens."""
    folder = tmp_path_factory.mktemp("traffic")
    wheels = "\n".join(
        f'[[wheel]]\nname = "wheel at {shift:g}"\nclass = "{of}"\nweight = {weight}\nwheel.lateral_offset_mm = {shift}'
        for shift, of, weight in zip(SHIFTS_MM, ("passenger", "freight", "passenger"), (1.0, 2.0, 3.0), strict=True)
    )
    classes = "\n".join(f'[[class]]\nname = "{name}"\nwheel = {{ profile = "S1002" }}' for name in ("passenger", "freight"))
    (folder / "wheels.toml").write_text(f"# <wheels>\n{classes}\n{wheels}\n", encoding="utf-8")
    return study.damage(case.vary({"damage.steel": "Mn"}), tonnage=2e9, stages=3, wheels=study.read_wheels(folder / "wheels.toml"))


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
def test_every_measure_of_the_steel_stands_in_the_table_with_its_value_and_place(kind, request):
    found = request.getfixturevalue(kind)
    table = rows(Document(report.damage(found)), "measures")
    of_steel = {key: one for key, one in wingnose.quantities.items() if one.of_steel}
    assert len(table) == len(of_steel)
    for key, one in of_steel.items():
        name = one.label[0].upper() + one.label[1:]
        row = table.get(name, table.get(f"{name} †"))
        assert shown_as(row[1], float(found[f"measures/{key}"])), key
        assert ("†" in row[0]) == (key.startswith(("wear", "crack"))), "rates are marked as such"
        place = place_of(found, key)
        if place is None:
            assert row[3:7] == ["", "", "", ""]
        else:
            assert row[3] == place.body and printed(row[4]) == round(place.x)
            assert shown_as(row[6], place.x / float(keys_of(found)["crossing.rate"]))


def test_places_are_those_of_the_computed_damage(case, result, landing):
    x, y, body = (landing[f"contacts/{key}"].values for key in ("x_mm", "y_mm", "body"))
    for key in ("peak_pressure_MPa", "shakedown_exceedance", "surface_fatigue_index", "t_gamma_N", "change_of_contact_angle_rad"):
        place, values = place_of(landing, key), landing[f"contacts/{key}"].values
        at = int(np.argmax(values))
        assert (place.body, place.x, place.y) == (body[at], pytest.approx(x[at]), pytest.approx(y[at]))
        assert float(landing[f"measures/{key}"]) == pytest.approx(values[at], rel=1e-9), key
    deepest = place_on_map(landing, "wear_depth_um", "passage")
    assert place_of(landing, "wear_depth_nm") == deepest
    most = float(maps_of(landing, "wear_depth_um")[deepest.body].sel(x_mm=deepest.x, y_mm=deepest.y))
    assert float(landing["measures/wear_depth_nm"]) == pytest.approx(1e3 * most)
    assert place_of(landing, "friction_energy_J") is None


def test_stretches_hold_all_contacts_beyond_a_limit_and_no_long_run_of_others(landing):
    x, exceedance = contacts_of(landing, "nose", "x_mm", "shakedown_exceedance")
    stretches = stretches_above(landing, "nose", "shakedown_exceedance", 1.0)
    assert len(stretches) == 2  # the landing, and the second peak of the force
    inside = np.any([(x >= one.first) & (x <= one.last) for one in stretches], axis=0)
    assert np.array_equal(inside, exceedance > 1.0)
    assert stretches_above(landing, "nose", "shakedown_exceedance", exceedance.max()) == []


def test_the_answer_says_where_how_much_and_what_governs(landing):
    page = report.damage(landing)
    document = check_page(page)
    worst, value = place_of(landing, "shakedown_exceedance"), float(landing["measures/shakedown_exceedance"])
    thick = worst.x / float(keys_of(landing)["crossing.rate"])
    assert value > 1.0
    headline = re.search(r'id="answer">([^<]*)', page)[1]
    assert headline == (f"The steel yields: every such wheel leaves plastic strain, worst on the nose at station "
                        f"{worst.x:.0f} mm, where it is {thick:.1f} mm thick.")  # fmt: skip
    assert f"the load factor reaches {value:.2f} times what new R350HT" in document.text
    assert "of the limits elastic shakedown governs" in document.text
    limits = rows(document, "limits")
    traction, load = contacts_of(landing, None, "traction_coefficient", "load_factor")
    assert shown_as(limits["Elastic shakedown (governs)"][4], value)
    assert shown_as(limits["Surface flow"][4], (traction * load).max())
    assert "a rate for the shape as given and no forecast" in document.text
    assert "Not said: how long the crossing lasts" in document.text


def test_what_was_asked_and_the_inputs_with_their_checksums_are_told(landing, traffic):
    page = report.damage(landing)
    assert "<b>3</b>" not in page and "crossing &lt;b&gt;3&lt;/b&gt; &amp; &#34;co&#34;" in page
    document = Document(page)
    assert "One wheel S1002 at 108 km/h over steel R350HT, friction 0.3" in document.text
    for found in (landing, traffic):
        text = Document(report.damage(found)).text
        checksums = found["case/inputs/sha256"].values
        assert checksums.size and all(one in text for one in checksums)
        told = text.lower()
        assert all(one.what.lower() in told for one in wingnose.findings(found))
        assert str(found["steel/trust"].item()) in text
    text = Document(report.damage(traffic)).text
    assert "and 2 MGT of 3 kinds of wheels over steel Mn, friction 0.3" in text and "# <wheels>" in text


def test_a_traffic_is_told_with_its_classes_its_hardening_and_who_failed(traffic):
    document = check_page(report.damage(traffic))
    told = {str(one.long_name): float(one) for one in traffic["traffic"].data_vars.values() if one.attrs["detail"] == "printed"}
    table = rows(document, "traffic")
    assert len(table) == len(told)
    assert printed(table["Wheels"][1]) == round(told["wheels"])
    assert shown_as(table["Wear depth per wheel †"][1], told["wear depth per wheel"])
    assert f"from {told['shear yield, first stage']:.0f} to {told['shear yield, last stage']:.0f} MPa" in document.text
    population = traffic["traffic/population"]
    wheels = population["wheels"].values
    energy = np.nan_to_num(population["friction_energy_J"].values) * wheels
    exceedance, pressure = population["shakedown_exceedance"].values, population["peak_pressure_MPa"].values
    heads = [head.strip() for head in document.tables["classes"][0]]
    classes = {row[0]: dict(zip(heads, row, strict=True)) for row in document.tables["classes"][1:]}
    assert list(classes) == ["passenger", "freight", "all wheels"]
    passenger, freight, every = classes.values()
    assert (passenger["kinds"], passenger["failed"]) == ("2", "1")  # the wheel that misses the crossing is one of them
    assert shown_as(freight["share %"], 100.0 * wheels[1] / wheels.sum())
    assert shown_as(freight["friction energy, share"], 100.0 * energy[1] / energy.sum())
    assert shown_as(passenger["peak pressure MPa"], pressure[0]) and shown_as(every["peak pressure MPa"], np.nanmax(pressure))
    assert shown_as(passenger["shakedown"], exceedance[0]) and shown_as(every["shakedown"], np.nanmax(exceedance))
    stages = traffic["traffic/stages/shear_yield_MPa"].values
    assert [printed(row[1]) for row in document.tables["stages"][1:]] == pytest.approx(stages, abs=0.5)
    alarm = re.search(r'<section class="findings \w+" role="alert".*?</section>', report.damage(traffic), re.DOTALL)[0]
    assert "wheel at 1000" in alarm and "Wear is told up to 0.3 mm" in alarm


def test_the_findings_come_first_and_the_grave_ones_before_all(landing):
    page = report.damage(with_grave(landing))
    assert check_page(page).text.count("Grave: flange contact") == page.count("<svg")
    assert page.index('<ul class="grave"') < page.index('<ul class="note') < page.index("<table")
    assert "&lt;hard&gt;" in page


def test_most_wheels_of_a_place_and_the_stations_they_meet_it_at(traffic):
    most, stretch = most_wheels(traffic, "nose", "wheels_beyond_shakedown")
    nose = maps_of(traffic, "wheels_beyond_shakedown", "traffic")["nose"]
    x = nose["x_mm"].values
    assert most == nose.values.max()
    outside = (x < stretch.first) | (x > stretch.last)
    assert nose.values[outside].max() < 0.9 * most
    assert x[0] <= stretch.first < stretch.last <= x[-1]


def test_a_steel_that_carries_the_wheel_is_told_as_such(landing):
    values = {"shakedown_exceedance": 0.8, "load_factor": 2.0, "surface_fatigue_index": -0.2, "t_gamma_N": 3.0,
              "crack_damage_1e_6": 0.0}  # fmt: skip
    kept = changed(landing, {f"contacts/{key}": lambda old, value=value: np.full(old.shape, value) for key, value in values.items()}
                   | {f"measures/{key}": value for key, value in values.items()})  # fmt: skip
    document = check_page(report.damage(kept))
    assert "The steel carries this wheel: no contact goes beyond elastic shakedown." in document.text
    assert "Elastic shakedown comes closest: 0.80 times" in document.text
    assert "The surface does not flow" in document.text and "too little to start cracks" in document.text
    assert {row[5].strip() for row in document.tables["limits"][1:]} == {"nowhere"}
    assert 'class="answer kept"' in report.damage(kept)


def test_a_joint_has_no_nose_and_its_page_speaks_of_none(demo_file):
    found = study.damage(wingnose.read_case(demo_file.with_name("dipped_joint.toml")).vary({"damage.steel": "R260"}))
    page = report.damage(found)
    answer = re.search(r'<section class="answer.*?</section>', page, re.DOTALL)[0]
    assert "nose" not in answer and "mm thick" not in answer
    worst = place_of(found, "peak_pressure_MPa")
    assert rows(check_page(page), "measures")["Peak pressure"][3:7] == ["path", f"{worst.x:.0f}", f"{worst.y:.1f}", "–"]
    assert math.isnan(nose_thickness(found, worst.x))


def test_the_command_knows_a_damage_file_and_names_one_mistake(landing_file, case, tmp_path, capsys):
    target = tmp_path / "new" / "damage.html"
    assert command.main([str(landing_file), "-o", str(target)]) == 0
    assert capsys.readouterr().out.strip() == str(target)
    assert target.read_text(encoding="utf-8") == report.damage(landing_file)
    run = tmp_path / "run.h5"
    wingnose.run(case, file=run)
    assert command.main([str(run), "-o", str(target)]) == 2
    assert "holds a run; there are reports of" in capsys.readouterr().err
    assert target.exists(), "what was there before stays"
    with pytest.raises(wingnose.InputError, match="holds a run; allowed: damage"):
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
