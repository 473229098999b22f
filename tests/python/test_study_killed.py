"""Sweeps stopped on the way, by force or by Ctrl-C, go on where they were and end with the same bytes."""

import random
import signal
import time

import pytest
from study_cases import CHUNK, long_sweep, start, wait_until_done

from wingnose import study

SWEEP = "wingnose.study.sweep(plan, file, chunk=CHUNK, progress=tell)\n"


@pytest.fixture(scope="module")
def whole(tmp_path_factory):
    """Bytes of the sweep not interrupted, on one thread."""
    file = tmp_path_factory.mktemp("whole") / "sweep.h5"
    study.sweep(long_sweep(), file, threads=1, chunk=CHUNK, progress=False)
    return file.read_bytes()


def test_a_sweep_killed_seven_times_at_random_moments_ends_with_the_same_bytes(whole, tmp_path):
    file, dice, plan = tmp_path / "sweep.h5", random.Random(20), long_sweep()
    before = 0
    for _ in range(7):
        process = start(file, SWEEP)
        wait_until_done(process, before + dice.randint(1, 60))
        time.sleep(dice.uniform(0, 0.02))
        process.kill()
        process.communicate()
        assert process.returncode == -signal.SIGKILL
        with study.SweepFile(file, plan, CHUNK) as stored:
            done = stored.cases_complete
        assert before <= done < len(plan)
        assert done % CHUNK == 0
        before = done
    assert before > 0
    study.sweep(plan, file, threads=2, progress=False)
    assert file.read_bytes() == whole


def test_ctrl_c_says_how_to_go_on_and_leaves_a_file_that_goes_on(whole, tmp_path):
    file = tmp_path / "sweep.h5"
    process = start(file, SWEEP)
    wait_until_done(process, 100)
    process.send_signal(signal.SIGINT)
    _, said = process.communicate(timeout=30)
    assert process.returncode != 0
    assert "KeyboardInterrupt: stopped: " in said
    assert f'of 600 cases are stored in "{file}". Call the same again to go on from there' in said
    with study.SweepFile(file, long_sweep(), CHUNK) as stored:
        assert 100 - CHUNK <= stored.cases_complete < 600
    study.sweep(long_sweep(), file, progress=False)
    assert file.read_bytes() == whole


def test_ctrl_c_stops_a_sweep_on_worker_processes_too(whole, tmp_path):
    file = tmp_path / "sweep.h5"
    process = start(
        file,
        "from concurrent.futures import ProcessPoolExecutor\n"
        "with ProcessPoolExecutor(2) as workers:\n"
        "    wingnose.study.sweep(plan, file, chunk=CHUNK, progress=tell, executor=workers)\n",
    )
    wait_until_done(process, 50)
    process.send_signal(signal.SIGINT)  # to the caller alone; its workers finish what they have
    _, said = process.communicate(timeout=60)
    assert "Call the same again to go on from there" in said
    study.sweep(long_sweep(), file, progress=False)
    assert file.read_bytes() == whole
