"""Sweeps answered on this machine: the numbers of single runs, whatever the threads, chunks and failures."""

import subprocess
import sys

import numpy as np
import pytest
import xarray as xr
from study_cases import ROOT, cheap_case

import wingnose
from wingnose import study

SPEED, LOAD, DEPTH = "passage.speed_km_h", "vehicle.static_load_kN", "crossing.nose_start_depth_mm"
RAMP_END = "crossing.nose_ramp_end_thickness_mm"  # the demo's full height is at 85 mm
# What needs the probes, off unless asked for.
UNANSWERED = {"rail_acceleration_m_s2", "bearer_acceleration_m_s2", "bearer_deflection_max_mm", "seat_force_max_kN",
              "seat_uplift_max_kN", "ballast_force_max_kN"}  # fmt: skip


@pytest.fixture(scope="module")
def case():
    return cheap_case()


@pytest.fixture(scope="module")
def plan(case):
    return study.grid(case, {SPEED: [80, 101.5, 130], LOAD: [80, 95], DEPTH: [5, 6]}, history_every=50)


@pytest.fixture(scope="module")
def answers(plan):
    return study.sweep(plan, threads=1, progress=False)


def of_case(plan, dataset, i):
    keys = plan.values(i)
    return dataset.sel({name: keys[dataset[name].attrs["key"]] for name in dataset["p2_kN"].dims})


def test_a_case_of_a_sweep_has_the_numbers_of_many_cases_run_at_once(plan, answers):
    cases = [plan.case(i) for i in range(len(plan))]
    for i, outcome in enumerate(study.run_many(cases)):
        found = of_case(plan, answers, i)
        for key in ("p2_kN", "peak_total_kN"):
            assert float(found[key]) == outcome.measures[key]


def test_a_case_of_a_sweep_has_the_numbers_of_a_single_run(plan, answers):
    for i in (0, 7):
        case = plan.case(i)
        single = wingnose.run(case)["measures"]
        found = of_case(plan, answers, i)
        compared = 0
        for variable in found.data_vars.values():
            name = variable.attrs.get("measure")
            if name in single and name not in UNANSWERED:
                # Sweeps advance passages eight at a time, which rounds otherwise.
                assert float(variable) == pytest.approx(float(single[name]), rel=1e-9, abs=1e-9, nan_ok=True), name
                compared += 1
        assert compared > 20


def test_threads_and_chunks_change_no_bit(plan, answers):
    for threads, chunk in ((2, 256), (2, 5), (3, 1)):
        xr.testing.assert_identical(study.sweep(plan, threads=threads, chunk=chunk, progress=False), answers)


def test_a_sweep_in_a_file_is_that_in_memory(plan, answers, tmp_path):
    stored = study.sweep(plan, tmp_path / "s.h5", threads=2, chunk=5, progress=False)
    longest = answers.sizes["sample"]
    assert np.isnan(stored["force_N"][..., longest:]).all()
    xr.testing.assert_identical(stored.isel(sample=slice(0, longest)), answers)
    xr.testing.assert_identical(study.to_dataset(wingnose.open(tmp_path / "s.h5")), answers.drop_dims("sample"))


def test_python_and_the_program_write_the_same_bytes(tmp_path, command_line):
    text = 'case = "profiles/demo.toml"\n[[vary]]\nkey = "passage.speed_km_h"\nvalues = [80, 120]\n'
    plan = study.read_sweep(write(tmp_path / "sweep.toml", text.replace("profiles", str(ROOT / "profiles"))))
    command = [command_line, "sweep", str(tmp_path / "sweep.toml"), "-o", str(tmp_path / "program.h5")]
    subprocess.run(command, check=True, capture_output=True)
    study.sweep(plan, tmp_path / "python.h5", progress=False)
    ours, theirs = ((tmp_path / name).read_bytes() for name in ("python.h5", "program.h5"))
    stored = wingnose.open(tmp_path / "program.h5").attrs
    for theirs_says, ours_says in ((stored["commit"], wingnose.__commit__), (stored["fingerprint"], plan.fingerprint)):
        theirs = theirs.replace(theirs_says.encode(), ours_says.encode())  # a program built a commit earlier will do
    assert ours == theirs


def write(file, text):
    file.write_text(text, encoding="utf-8")
    return file


def test_a_failing_case_in_the_middle_says_why_and_spoils_no_other(case):
    good = [30.0, 45.0, 50.0, 60.0]
    alone = study.sweep(study.points(case, {RAMP_END: good}), progress=False)
    mixed = study.sweep(study.points(case, {RAMP_END: [30, 45, 95, 50, 60]}), threads=2, progress=False)
    assert mixed["status"].values.tolist() == [1, 1, 2, 1, 1]
    assert "nose" in str(mixed["failure"].values[2])
    assert mixed["failure"].values.tolist().count("") == 4
    assert np.isnan(mixed["p2_kN"].values[2])
    xr.testing.assert_equal(mixed.isel(case=[0, 1, 3, 4]).drop_vars("case"), alone.drop_vars("case"))


def test_progress_is_told_from_the_cases_stored_to_all(plan, tmp_path):
    told = []
    study.sweep(plan, tmp_path / "s.h5", chunk=5, progress=lambda done, total: told.append((done, total)))
    assert told == sorted(told)
    assert told[-1] == (12, 12)
    assert {5, 10} <= {done for done, _ in told}


def test_what_a_progress_call_raises_stops_the_sweep_and_keeps_the_file_sound(plan, tmp_path, answers):
    def give_up(done, total):
        if done >= 5:
            raise RuntimeError("enough")

    with pytest.raises(RuntimeError, match="enough"):
        study.sweep(plan, tmp_path / "s.h5", chunk=5, progress=give_up)
    stored = study.sweep(plan, tmp_path / "s.h5", progress=False)
    xr.testing.assert_identical(stored.isel(sample=slice(0, answers.sizes["sample"])), answers)


def test_a_bar_shows_the_rate_and_the_time_left(plan, capfd):
    study.sweep(plan, progress=True)
    shown = capfd.readouterr().err
    assert "12/12" in shown
    assert "case/s" in shown or "s/case" in shown


@pytest.mark.parametrize(("changes", "said"), [({"threads": -1}, "threads"), ({"chunk": 0}, "chunk"), ({"executor": 3}, "executor")])
def test_arguments_out_of_range_are_refused(plan, changes, said):
    with pytest.raises(wingnose.InputError, match=said):
        study.sweep(plan, progress=False, **changes)


@pytest.mark.parametrize(
    ("missing", "call"),
    [
        ("SALib", "wingnose.sensitivity.sobol_design(plan.base, {'passage.speed_km_h': (80, 90)}, n=4)"),
        ("tqdm", "study.sweep(plan, progress=True)"),
        ("scipy", "study.sobol('profiles/demo.toml', {'passage.speed_km_h': (80, 90)}, n=4)"),
        ("scipy", "study.latin_hypercube('profiles/demo.toml', {'passage.speed_km_h': (80, 90)}, n=4)"),
    ],
)
def test_without_the_extra_the_advice_is_how_to_install_it(missing, call):
    script = (
        f"import sys\nsys.modules['{missing}'] = None\n"
        "import wingnose.sensitivity\n"
        "from wingnose import study\n"  # imports without any extra
        "plan = study.grid('profiles/demo.toml', {'passage.speed_km_h': [80]})\n"
        f"try:\n    {call}\nexcept ModuleNotFoundError as error:\n    print(error)\n"
    )
    said = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True, cwd=ROOT).stdout
    assert f"needs {missing}" in said
    assert 'pip install "wingnose[study]"' in said
