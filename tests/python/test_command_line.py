"""Python and the command line are two doors to one house."""

import json
import math
import subprocess

import pytest

import wingnose
from wingnose import _core, study

HOUSE = {"version", "commit"}  # of a program built a commit earlier


def ask(command_line, *arguments):
    done = subprocess.run([command_line, *map(str, arguments)], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_run_gives_the_numbers_the_command_line_prints(command_line, case, result, answer, demo_file):
    theirs = json.loads(ask(command_line, "run", demo_file, "--json"))
    ours = json.loads(_core.json(_core.answers.run(case)))
    assert theirs.keys() == ours.keys()
    assert theirs["measures"].keys() == ours["measures"].keys()
    numbers = [key for key, value in ours["measures"].items() if isinstance(value, float)]
    assert len(numbers) >= 10
    for key in numbers:
        assert theirs["measures"][key] == pytest.approx(ours["measures"][key], rel=1e-9), key
        assert float(answer["measures"][key]) == pytest.approx(ours["measures"][key], rel=1e-9), key
    assert ours["measures"]["p2_kN"] == pytest.approx(result.measures["p2_kN"], rel=1e-9)
    station = result.geometry.kinematics.transfer_station
    assert ours["measures"]["transfer_station_mm"] == pytest.approx(station * 1e3, rel=1e-9)


@pytest.mark.parametrize("kind", ["geometry", "estimate"])
def test_geometry_and_estimate_agree_with_the_command_line(command_line, case, demo_file, kind):
    theirs = json.loads(ask(command_line, kind, demo_file, "--json"))
    ours = json.loads(_core.json(getattr(_core.answers, kind)(case)))
    assert {key: value for key, value in theirs.items() if key not in HOUSE} == {
        key: value for key, value in ours.items() if key not in HOUSE
    }


def test_a_file_the_command_line_wrote_reads_like_the_run(command_line, result, demo_file, tmp_path):
    target = tmp_path / "demo.h5"
    ask(command_line, "run", demo_file, "-o", target)
    stored = wingnose.open(target)
    assert stored.attrs["version"] == wingnose.__version__
    assert stored["history/force_N"].values == pytest.approx(result.history.force, rel=1e-9, abs=1e-3)
    assert float(stored["measures/p2_kN"]) == pytest.approx(result.measures["p2_kN"], rel=1e-9)


def test_a_mistake_in_the_case_is_the_same_sentence_in_both(command_line, tmp_path):
    bad = tmp_path / "bad.toml"
    bad.write_text("[passage]\nspede_km_h = 100\n", encoding="utf-8")
    done = subprocess.run([command_line, "run", str(bad)], capture_output=True, text=True, check=False)
    assert done.returncode == 2
    with pytest.raises(wingnose.InputError) as refused:
        wingnose.read_case(bad)
    assert "spede_km_h" in str(refused.value)
    assert str(refused.value) in done.stderr


def test_measures_that_do_not_exist_are_none_in_values_and_nan_in_answers(case):
    joint = case.replace(excitation=wingnose.layout.DippedJoint(dip_angle=0.01, half_length=2.0))
    smooth = study.result_of(joint)
    assert smooth.measures["peak_nose_kN"] is None
    assert smooth.geometry.crossing is None
    assert math.isfinite(smooth.measures["p2_kN"])
    assert math.isnan(study.speeds(joint, 80, 90)["speeds/peak_nose_kN"][0])
