"""Python and the command line are two doors to one house."""

import json
import math
import subprocess

import pytest

import wingnose


def ask(command_line, *arguments):
    done = subprocess.run([command_line, *map(str, arguments)], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_run_gives_the_numbers_the_command_line_prints(command_line, case, result, demo_file):
    theirs = json.loads(ask(command_line, "run", demo_file, "--json"))
    ours = json.loads(wingnose.measures_json(case, result))
    assert theirs.keys() == ours.keys()
    numbers = [key for key, value in ours.items() if isinstance(value, float)]
    assert len(numbers) >= 10
    for key in numbers:
        assert theirs[key] == pytest.approx(ours[key], rel=1e-9), key
    assert ours["p2_kN"] == pytest.approx(result.measures.p2 * 1e-3, rel=1e-9)
    assert ours["transfer_station_mm"] == pytest.approx(result.geometry.kinematics.transfer_station * 1e3, rel=1e-9)


def test_geometry_and_estimate_agree_with_the_command_line(command_line, case, result, demo_file):
    theirs = json.loads(ask(command_line, "geometry", demo_file, "--json"))
    assert theirs == json.loads(wingnose.io.geometry_json(case, result.geometry))
    theirs = json.loads(ask(command_line, "estimate", demo_file, "--json"))
    estimates = wingnose.estimate(case, result.geometry)
    assert theirs == json.loads(wingnose.io.estimates_json(case, result.geometry, estimates))


def test_a_file_the_command_line_wrote_reads_like_the_run(command_line, result, demo_file, tmp_path):
    target = tmp_path / "demo.h5"
    ask(command_line, "run", demo_file, "-o", target)
    stored = wingnose.read_result(target)
    assert stored.version == wingnose.__version__
    assert stored.arrays["history/force_N"].values == pytest.approx(result.history.force, rel=1e-9, abs=1e-3)
    assert stored.measures["p2_kN"] == pytest.approx(result.measures.p2 * 1e-3, rel=1e-9)


def test_a_mistake_in_the_case_is_the_same_sentence_in_both(command_line, tmp_path):
    bad = tmp_path / "bad.toml"
    bad.write_text("[passage]\nspede_km_h = 100\n", encoding="utf-8")
    done = subprocess.run([command_line, "run", str(bad)], capture_output=True, text=True, check=False)
    assert done.returncode == 2
    with pytest.raises(wingnose.InputError) as refused:
        wingnose.read_case(bad)
    assert "spede_km_h" in str(refused.value)
    assert str(refused.value) in done.stderr


def test_measures_that_do_not_exist_are_none_not_nan(case):
    joint = wingnose.layout.DippedJoint(dip_angle=0.01, half_length=2.0)
    smooth = wingnose.run(case.replace(excitation=joint))
    assert smooth.measures.peak_nose is None
    assert smooth.geometry.crossing is None
    assert math.isfinite(smooth.measures.p2)
