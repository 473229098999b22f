"""Full disks, kills, forks, damaged files and devices: what is written is whole, what is wrong is told in one message."""

import concurrent.futures as cf
import multiprocessing
import os
import random
import resource
import signal
import subprocess
import sys
import time
from contextlib import contextmanager

import pytest
from study_cases import ROOT, cheap_case, long_sweep

import wingnose
from wingnose import report, sheets, study

DEMO = ROOT / "profiles" / "demo.toml"


@contextmanager
def full_disk(after):
    """A disk that is full at a given length of a file; Python ignores the signal that comes with it."""
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (after, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)


@pytest.fixture(scope="module")
def speeds_file(tmp_path_factory):
    file = tmp_path_factory.mktemp("speeds") / "speeds.h5"
    study.speeds(cheap_case(), 80, 120, 20, {"p2_kN": 150}, file=file)
    return file


def test_a_full_disk_is_told_and_leaves_what_was_there(tmp_path):
    file = tmp_path / "run.h5"
    wingnose.run(cheap_case(), file=file)
    before = file.read_bytes()
    with full_disk(10_000), pytest.raises(wingnose.ComputeError, match="File too large; free some space"):
        wingnose.run(cheap_case(), file=file)
    assert file.read_bytes() == before
    assert list(tmp_path.iterdir()) == [file]


def test_python_ends_in_order_after_a_full_disk(tmp_path):
    script = (
        "import resource, sys, wingnose\n"
        "from study_cases import cheap_case\n"
        "case = cheap_case()\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (10000, resource.getrlimit(resource.RLIMIT_FSIZE)[1]))\n"
        "try: wingnose.run(case, file=sys.argv[1])\n"
        "except wingnose.ComputeError: print('told')\n"
    )
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join([str(ROOT / "tests" / "python"), *sys.path])}
    done = subprocess.run(
        [sys.executable, "-c", script, str(tmp_path / "run.h5")], capture_output=True, text=True, env=environment
    )
    assert (done.returncode, done.stdout, done.stderr) == (0, "told\n", "")


def test_a_sweep_keeps_its_chunks_on_a_full_disk_and_goes_on_to_the_same_bytes(tmp_path):
    plan, whole, stopped = long_sweep(), tmp_path / "whole.h5", tmp_path / "stopped.h5"
    study.sweep(plan, whole, chunk=100, progress=False)

    def give_up(done, total):
        if done >= 200:
            raise RuntimeError

    with pytest.raises(RuntimeError):
        study.sweep(plan, stopped, chunk=100, progress=give_up)
    with full_disk(100_000), pytest.raises(wingnose.ComputeError, match="of 600 cases are stored; give the same"):
        study.sweep(plan, stopped, progress=False)
    with study.SweepFile(stopped, plan, 100) as file:
        assert file.cases_complete >= 100
    study.sweep(plan, stopped, progress=False)
    assert stopped.read_bytes() == whole.read_bytes()


@pytest.mark.parametrize("how", ["fork", "spawn"])
def test_a_pool_forked_beside_an_open_sweep_ends_well(how, tmp_path):
    plan = study.grid(cheap_case(), {"passage.speed_km_h": [80, 90, 100, 110]})
    study.sweep(plan, tmp_path / "threads.h5", chunk=1, progress=False)
    with cf.ProcessPoolExecutor(2, mp_context=multiprocessing.get_context(how)) as workers:
        study.sweep(plan, tmp_path / "pool.h5", chunk=1, executor=workers, progress=False)
        assert (study.open_dataset(tmp_path / "pool.h5")["status"] == 1).all()  # while the workers live
    assert (tmp_path / "pool.h5").read_bytes() == (tmp_path / "threads.h5").read_bytes()


def test_a_process_forked_beside_an_open_sweep_may_not_write_it(tmp_path):
    plan = study.grid(cheap_case(), {"passage.speed_km_h": [80, 90]})
    with study.SweepFile(tmp_path / "s.h5", plan, 1) as file:
        rows = study.answer_cases(plan, 0, 1)
        child = os.fork()
        if child == 0:
            try:
                file.write(file.missing()[0], rows)
            except wingnose.InputError as error:
                os._exit(0 if "let the process that opened it write" in str(error) else 2)
            os._exit(1)
        assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0
        file.write(file.missing()[0], rows)
    assert study.open_dataset(tmp_path / "s.h5")["status"].values.tolist() == [1, 0]


def test_a_report_killed_at_any_moment_is_the_old_one_or_the_new_one(speeds_file, tmp_path):
    target, dice = tmp_path / "speeds.html", random.Random(20)
    report.write(speeds_file, target)
    new, old = target.read_bytes(), b"<!doctype html>the one before"
    started = time.monotonic()
    report.write(speeds_file, target)
    took = time.monotonic() - started
    killed = seen = 0
    while killed < 20:
        target.write_bytes(old)
        child = os.fork()
        if child == 0:
            for _ in range(50):
                report.write(speeds_file, target)
            os._exit(0)
        time.sleep(dice.uniform(0.2, 2.5) * took)
        os.kill(child, signal.SIGKILL)
        killed += os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == -signal.SIGKILL
        now = target.read_bytes()
        assert now in (old, new)
        seen += now == new
    assert 0 < seen < 20  # both were met


def test_a_report_on_a_full_disk_is_told_and_the_one_before_stays(speeds_file, tmp_path):
    target = tmp_path / "speeds.html"
    target.write_text("the one before")
    with full_disk(5_000), pytest.raises(wingnose.ComputeError, match="report .*speeds.html' could not be written"):
        report.write(speeds_file, target)
    assert target.read_text() == "the one before"
    assert list(tmp_path.iterdir()) == [target]


def test_pictures_on_a_full_disk_are_told(speeds_file, tmp_path):
    with full_disk(5_000), pytest.raises(wingnose.ComputeError, match="picture .*png' could not be written"):
        sheets.draw(speeds_file, tmp_path)
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("read", [wingnose.open, study.open_dataset, report.write, lambda f: sheets.draw(f, f.parent)])
def test_every_reader_refuses_a_damaged_file_by_its_name(read, speeds_file, tmp_path):
    file, dice = tmp_path / "speeds.h5", random.Random(3)
    sound = speeds_file.read_bytes()
    for _ in range(10):
        damaged = bytearray(sound)
        damaged[dice.randrange(len(sound))] ^= 1 << dice.randrange(8)
        file.write_bytes(damaged)
        with pytest.raises(wingnose.InputError, match=r'speeds\.h5" is '):
            read(file)
    file.write_bytes(sound[: len(sound) // 2])
    with pytest.raises(wingnose.InputError, match=r'speeds\.h5" '):
        read(file)


@pytest.mark.parametrize("module", ["report", "sheets"])
def test_the_shell_tells_of_a_damaged_file_in_one_line(module, speeds_file, tmp_path):
    file = tmp_path / "speeds.h5"
    file.write_bytes(speeds_file.read_bytes()[:-1000] + bytes(1000))
    done = subprocess.run(
        [sys.executable, "-m", f"wingnose.{module}", str(file)],
        capture_output=True, text=True, env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
    )  # fmt: skip
    assert done.returncode == 2
    assert done.stderr.count("\n") == 1
    assert "speeds.h5" in done.stderr


def test_a_file_that_lacks_what_its_kind_holds_is_refused_by_its_name(speeds_file, tmp_path):
    h5py = pytest.importorskip("h5py")
    file = tmp_path / "lacking.h5"
    with h5py.File(speeds_file) as whole, h5py.File(file, "w") as made:  # without a checksum, as of version 0.1
        for name in ("format", "schema_version", "version"):
            made.attrs[name] = whole.attrs[name]
    for make in (report.write, lambda f: sheets.draw(f, tmp_path)):
        with pytest.raises(wingnose.InputError, match=r'lacking\.h5" lacks what a speeds holds'):
            make(file)


@pytest.mark.parametrize("bad", ["", "no_such_folder/a.h5", "."])
def test_where_nothing_can_be_stored_is_found_before_anything_is_computed(bad, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    missing = tmp_path / "no_such_case.toml"  # would be refused as soon as it is read
    for answer in (study.run, study.damage, lambda case, file: study.speeds(case, 80, 90, file=file)):
        with pytest.raises(wingnose.InputError) as told:
            answer(missing, file=bad)
        assert "no_such_case" not in str(told.value)


def test_devices_and_pipes_are_not_read(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    for name in ("/dev/zero", tmp_path / "pipe"):
        for read in (wingnose.read_case, wingnose.open):
            with pytest.raises(wingnose.InputError, match="is a device, a pipe or a socket"):
                read(name)


def test_control_characters_in_errors_are_made_visible(tmp_path):
    with pytest.raises(wingnose.InputError) as told:
        wingnose.read_case(tmp_path / "a\x1b[31m\nb.toml")
    assert "a\\x1b[31m\\nb.toml" in str(told.value)


def test_a_study_of_speeds_tells_how_far_it_is():
    told = []
    study.speeds(cheap_case(), 80, 120, 10, progress=lambda *now: told.append(now))
    assert told[-1] == (5, 5)
