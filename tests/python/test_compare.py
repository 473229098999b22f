"""Crossings compared from Python: the same answer as the program gives."""

import json
import subprocess

import numpy as np
import pytest

import wingnose
from wingnose import _core, study

NAMES = ("demo", "worn")
POPULATION = """
[population]
count = 12
seed = 5

[[population.vary]]
key = "wheel.lateral_offset_mm"
distribution = "uniform"
from = -3
to = 3

[[class]]
name = "new"
share = 60
wheel = { profile = "S1002" }

[[class]]
name = "hollow"
share = 40
wheel = { profile = "S1002", hollow_depth_mm = 2 }
"""


def crossings_of(folder):
    return "".join(f'[[crossing]]\nname = "{name}"\ncase = "{(folder / name).as_posix()}.toml"\n' for name in NAMES)


@pytest.fixture(scope="module")
def crossings(demo_file):
    return {name: wingnose.read_case(demo_file.with_name(f"{name}.toml")) for name in NAMES}


@pytest.fixture(scope="module")
def wheels(tmp_path_factory):
    file = tmp_path_factory.mktemp("wheels") / "wheels.toml"
    file.write_text(POPULATION, encoding="utf-8")
    return study.read_wheels(file)


@pytest.fixture(scope="module")
def comparison(crossings, wheels):
    return study.compare(crossings, wheels)


def test_a_comparison_answers_every_wheel_on_every_crossing(comparison):
    assert comparison["crossing"].values.tolist() == ["demo", "worn"]
    p2 = comparison["passages/p2_kN"]
    assert p2.dims == ("crossing", "wheel")
    assert p2.shape == (2, 12)
    assert np.all(p2.values > 60)
    assert comparison["about/dropped_share"] == 0.0
    assert comparison["ranking"].sizes["criterion"] >= 5
    assert comparison["differences/crossing_1"].sizes["difference"] > 0


def test_one_wheel_of_a_comparison_is_the_case_run_by_itself(crossings, wheels, comparison):
    rows = wheels.table
    new = next(i for i, row in enumerate(rows) if row["class"] == "new")
    values = {key: value for key, value in rows[new].items() if "." in key}
    outcome = study.run_many([crossings["worn"].vary(values)])[0]
    assert comparison["passages/p2_kN"].values[1, new] == outcome.measures["p2_kN"]


def test_the_number_of_threads_changes_nothing(crossings, wheels, comparison):
    again = study.compare(crossings, wheels, threads=1)
    assert again.identical(comparison)


def test_a_stored_comparison_says_what_the_program_says(crossings, wheels, comparison, command_line, demo_file, tmp_path):
    file = tmp_path / "compare.toml"
    file.write_text(crossings_of(demo_file.parent) + POPULATION, encoding="utf-8")
    ours = study.compare(file, file=tmp_path / "ours.h5")
    assert all(np.array_equal(ours[f"passages/{key}"], comparison[f"passages/{key}"], equal_nan=True)
               for key in ("p2_kN", "dip_angle_mrad", "lost_contact_ms"))  # fmt: skip
    subprocess.run([command_line, "compare", file, "-o", tmp_path / "theirs.h5"], capture_output=True, check=True)
    stored = [_core.json(_core.read_tree(tmp_path / name, all=False)) for name in ("ours.h5", "theirs.h5")]
    ours, theirs = (json.loads(text) for text in stored)
    assert theirs.keys() == ours.keys()
    changed = {key for key in ours if theirs[key] != ours[key]}
    assert changed <= {"commit", "created"}, changed
    assert len(ours) - len(changed) > 5
    again = wingnose.open(tmp_path / "ours.h5")
    assert np.array_equal(again["statistics/p2_kN"], comparison["statistics/p2_kN"])


def test_an_impossible_comparison_is_refused(crossings, wheels, tmp_path):
    file = tmp_path / "compare.toml"
    file.write_text('[[crosing]]\nname = "a"\n', encoding="utf-8")
    with pytest.raises(wingnose.InputError, match="Did you mean"):
        study.compare(file)
    with pytest.raises(wingnose.InputError, match="options: compare.thin_nose_mm: -1"):
        study.compare(crossings, wheels, thin_nose_mm=-1.0)
    with pytest.raises(wingnose.InputError, match="stand in the comparison file"):
        study.compare(file, wheels)


def test_what_the_landings_do_to_the_steel_is_told_when_asked_for_and_changes_nothing_else(crossings, wheels, comparison):
    on = study.compare(crossings, wheels, steel=True)
    for key in ("p2_kN", "lost_contact_ms", "nose_thickness_at_transfer_mm"):
        assert np.array_equal(on["passages"][key], comparison["passages"][key])
    assert "wear_volume_mm3" not in comparison["passages"]
    assert np.all(on["passages/wear_volume_mm3"].values > 0.0)
    exceeds = on["passages/shakedown_exceedance"].values > wingnose.quantities["shakedown_exceedance"].mark
    share = np.average(exceeds, axis=1, weights=on["wheels/share"].values)
    assert on["steel/beyond_shakedown_percent"].values == pytest.approx(100.0 * share)
    assert on["ranking"].sizes["criterion"] == comparison["ranking"].sizes["criterion"] + 3
    assert any("runs straight" in text for text in on["assumptions/steel/sentence"].values)
    assert "assumptions" not in comparison.children


def test_the_steel_under_one_wheel_is_that_of_the_damage_command(command_line, demo_file, tmp_path):
    file = tmp_path / "one.toml"
    text = crossings_of(demo_file.parent) + "[[wheel]]\nweight = 1\n[compare]\nsteel = true\n"
    file.write_text(text, encoding="utf-8")
    subprocess.run([command_line, "compare", file, "-o", tmp_path / "one.h5"], capture_output=True, check=True)
    compared = wingnose.open(tmp_path / "one.h5")
    for crossing in NAMES:
        target = tmp_path / f"{crossing}.h5"
        command = [command_line, "damage", demo_file.with_name(f"{crossing}.toml"), "-o", target]
        subprocess.run(command, capture_output=True, check=True)
        damage = wingnose.open(target)["measures"]
        keys = [key for key in compared["statistics"].data_vars if wingnose.quantities[key].of_steel]
        assert len(keys) == 8
        for key in keys:
            mean = compared["statistics"][key].sel(crossing=crossing, statistic="mean")
            # Comparisons advance passages eight at a time, which rounds otherwise.
            assert float(mean) == pytest.approx(float(damage[key]), rel=1e-6), key


def test_a_comparison_names_the_files_it_rests_on(crossings, comparison):
    inputs = comparison["case/inputs"]
    told = dict(zip(zip(inputs["role"].values, inputs["file"].values, strict=True), inputs["sha256"].values, strict=True))
    for name in NAMES:
        for item in crossings[name].inputs:
            assert told[f"crossing {name}: {item.role}", item.path] == item.sha256
    assert ("crossing demo: case", "demo.toml") in told
    assert all(len(checksum) == 64 for checksum in told.values())


def test_a_wheel_with_a_grave_finding_is_told_and_counts_as_the_worst(crossings):
    # Far enough to the side the flange carries the wheel.
    wheels = study.Wheels({"name": ["middle", "beside"], "wheel.lateral_offset_mm": [0.0, 20.0]})
    told = study.compare(crossings, wheels)
    grave = wingnose.findings(told, gravity="grave")
    assert grave
    assert "beside" in " ".join(map(str, grave))
    assert told["passages/state"].sel(crossing="demo").values.tolist() == ["done", "grave"]
    assert told["ranking/value"].notnull().all()
    of_forces = np.array(["_kN_" in key for key in told["ranking/key"].values])
    assert of_forces.any()
    assert told["ranking/worst_value"][of_forces].isnull().all()  # no number stands for a wheel that cannot pass
