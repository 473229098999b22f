"""Answers as DataTrees: the same from a function and from its file, with units, meaning and findings."""

import subprocess

import numpy as np
import pytest
import xarray as xr
from study_cases import ROOT, cheap_case

import wingnose
from wingnose import study

STORED = sorted((ROOT / "tests" / "data").glob("*_0_1.h5"))
BESIDE = {"wheel.lateral_offset_mm": 20}  # the flange carries the wheel
OFFSETS = {"name": ["middle", "left"], "wheel.lateral_offset_mm": [0.0, -2.0]}

KINDS = {
    "run": lambda case, file: study.run(case, file=file),
    "geometry": lambda case, file: study.geometry(case, file=file),
    "estimate": lambda case, file: study.estimate(case, file=file),
    "track": lambda case, file: study.track_response(case, file=file),
    "contact": lambda case, file: study.contact(case, cells=16, file=file),
    "speeds": lambda case, file: study.speeds(case, 80, 120, 20, {"p2_kN": 160}, file=file),
    "damage": lambda case, file: study.damage(case, tonnage=1e9, stages=2, file=file),
    "comparison": lambda case, file: study.compare(
        {"a": case, "b": case.vary({"crossing.nose_start_depth_mm": 5})}, study.Wheels(OFFSETS), file=file
    ),
}


@pytest.fixture(scope="module")
def short():
    return cheap_case()


@pytest.fixture(scope="module", params=KINDS)
def told(request, short, tmp_path_factory):
    """An answer of each kind, and its file."""
    file = tmp_path_factory.mktemp("answers") / f"{request.param}.h5"
    return KINDS[request.param](short, file), file


def check_attributes(answer):
    seen = 0
    for node in answer.subtree:
        for name, variable in node.to_dataset(inherit=False).variables.items():
            of = f"{node.path}/{name}"
            assert variable.attrs["long_name"], of
            assert variable.attrs["description"], of
            assert (variable.dtype == object) == ("units" not in variable.attrs), of
            seen += 1
    return seen


def test_an_answer_and_its_file_are_one_tree_with_units_and_meaning(told):
    answer, file = told
    stored = wingnose.open(file)
    assert isinstance(stored, xr.DataTree)
    assert stored.name == answer.attrs["answer"] == stored.attrs["answer"] == file.stem
    assert stored.attrs["caution"] == answer.attrs["caution"] == wingnose.CAUTION
    assert stored.attrs["version"] == answer.attrs["version"] == wingnose.__version__
    assert check_attributes(stored) > 10
    assert set(stored.groups) == set(answer.groups)
    for group in answer.groups:
        xr.testing.assert_equal(stored[group].to_dataset(inherit=False), answer[group].to_dataset(inherit=False))
    assert wingnose.findings(stored) == wingnose.findings(answer)


@pytest.mark.parametrize("kind", ["run", "geometry", "estimate", "contact", "speeds", "damage"])
def test_the_program_lists_what_an_answer_holds(kind, short):
    reference, bodies = wingnose.reference(), {"wing", "nose"}
    for node in KINDS[kind](short, None).subtree:
        for name, variable in node.to_dataset(inherit=False).data_vars.items():
            if variable.attrs["detail"] != "stored" and not bodies & {*node.path.split("/")}:
                assert str(name) in reference, f"{node.path}/{name}"


@pytest.mark.parametrize("command", [["run"], ["contact"], ["damage"], ["speeds", "--from", "80", "--to", "90"]])
def test_files_of_the_program_open_alike(command, command_line, demo_file, tmp_path):
    file = tmp_path / "answer.h5"
    command = [command_line, command[0], str(demo_file), *command[1:], "-o", str(file)]
    subprocess.run(command, check=True, capture_output=True)
    answer = wingnose.open(file)
    assert answer.attrs["answer"] == command[1]
    assert "findings" in answer.children
    assert check_attributes(answer) > 10


@pytest.mark.parametrize("file", STORED, ids=lambda file: file.stem)
def test_files_of_version_0_1_open_with_units_and_labels(file):
    answer = wingnose.open(file)
    assert answer.attrs["version"] == "0.1.0"
    assert check_attributes(answer) > 10


def test_a_file_that_is_no_answer_is_refused(tmp_path):
    (tmp_path / "no.h5").write_text("no")
    with pytest.raises(wingnose.InputError, match="not an HDF5 file"):
        wingnose.open(tmp_path / "no.h5")
    with pytest.raises(wingnose.InputError, match="does not exist"):
        wingnose.open(tmp_path / "absent.h5")


def test_labels_and_units_are_those_of_the_one_table(short):
    measures = study.run(short)["measures"]
    told = [key for key in measures.data_vars if key in wingnose.quantities]
    assert len(told) > 25
    for key in told:
        quantity, attrs = wingnose.quantities[key], measures[key].attrs
        assert (attrs["units"], attrs["long_name"]) == (quantity.unit, quantity.label)
        assert attrs["decimals"] == quantity.decimals
    for key, quantity in wingnose.quantities.items():
        assert key == quantity.key
        assert quantity.label and quantity.meaning and quantity.section
        assert quantity.per_si > 0
    limited = {key for key, quantity in wingnose.quantities.items() if quantity.limited}
    assert {"p2_kN", "peak_nose_kN"} <= limited
    with pytest.raises(wingnose.InputError, match="no quantity that can be limited"):
        study.speeds(short, 80, 90, limits={next(iter(set(wingnose.quantities) - limited)): 1.0})


def test_every_answer_carries_its_findings(short):
    beside = short.vary(BESIDE)
    wheels = study.Wheels({"name": ["beside"], **{key: [value] for key, value in BESIDE.items()}})
    answers = {
        "run": study.run(beside),
        "geometry": study.geometry(beside),
        "speeds": study.speeds(beside, 80, 100, 20),
        "damage": study.damage(beside),
        "contact": study.contact(beside, cells=16),
        "comparison": study.compare({"a": short, "b": short}, study.Wheels({**OFFSETS, "wheel.lateral_offset_mm": [0, 20]})),
        "traffic": study.damage(short, tonnage=1e9, stages=1, wheels=wheels),
    }
    for name, answer in answers.items():
        grave = wingnose.findings(answer, gravity="grave")
        assert grave, name
        assert {finding.gravity for finding in grave} == {"grave"}, name
        assert all(finding.what and finding.advice for finding in grave), name
        kinds = answer["findings/kind"].values.tolist()
        assert {finding.kind for finding in grave} <= {*kinds}, name
    assert wingnose.findings(study.run(short), gravity="grave") == []
    aside = short.vary({"wheel.lateral_offset_mm": 7})  # high on the flange's root, where the wheel turns most
    stretched = study.contact(aside, station=0.3, load=200e3, cells=16)
    assert float(stretched["half_space/change_of_angle_rad"].max()) > 0.15
    found = wingnose.findings(stretched)  # those of the wheel path, and of the contact itself
    assert [finding.kind for finding in found if finding.kind == "theory_stretched"] == ["theory_stretched"]
    with pytest.raises(wingnose.InputError, match="note, warning or grave"):
        wingnose.findings(answers["run"], gravity="deadly")


def test_a_sweep_carries_the_findings_of_its_cases(short, tmp_path):
    plan = study.points(short, {"wheel.lateral_offset_mm": [0, 20]})
    for answers in (study.sweep(plan, progress=False), study.sweep(plan, tmp_path / "s.h5", progress=False)):
        assert answers["gravity"].values[0] < 2
        assert answers["gravity"].attrs["flag_meanings"].split()[answers["gravity"].values[1]] == "grave"
        assert "flange_contact" in answers["findings"].values[1]
        assert "flange_contact" not in answers["findings"].values[0]


def test_a_speed_with_a_grave_finding_keeps_no_limit(short):
    easy = {"p2_kN": 1000}
    assert study.speeds(short, 80, 100, 20, easy)["permissible/outcome"] == "not_reached"
    beside = study.speeds(short.vary(BESIDE), 80, 100, 20, easy)
    assert beside["permissible/outcome"] == "broken_at_lowest"
    assert np.isnan(beside["permissible/speed_km_h"])


def test_attitude_and_place_of_a_standing_wheel_are_asked_for(short):
    told = study.contact(short, station=1.0, load=50e3, law="ellipse", cells=0, roll=0.01)
    assert float(told["place/station_mm"]) == 1000
    assert float(told["place/roll_mrad"]) == 10
    assert float(told["place/force_kN"]) == pytest.approx(50)
    with pytest.raises(wingnose.InputError, match="those of the passage"):
        study.contact(short, at="peak", station=1.0)
    with pytest.raises(wingnose.InputError, match='"transfer", "landing" or "peak"'):
        study.contact(short, at="noon")
    with pytest.raises(wingnose.InputError, match="ellipse.*strips.*half-space"):
        study.contact(short, law="hertz")
