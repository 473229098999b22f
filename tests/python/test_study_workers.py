"""Sweeps on workers: processes, threads, and a cluster of several processes; and what happens when workers fail."""

import concurrent.futures as cf
import os
import signal
import threading

import numpy as np
import pytest
import xarray as xr
from study_cases import cheap_case

import wingnose
from wingnose import study

dask = pytest.importorskip("dask.distributed")


@pytest.fixture(scope="module")
def plan():
    ranges = {"passage.speed_km_h": (80, 140), "crossing.nose_start_depth_mm": (4, 7), "track.bays": [20, 22]}
    return study.latin_hypercube(cheap_case(), ranges, n=24, seed=2, history_every=100)


@pytest.fixture(scope="module")
def expected(plan):
    return study.sweep(plan, threads=2, progress=False)


@pytest.fixture(scope="module")
def cluster():
    with dask.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, worker_dashboard_address=None
    ) as made:
        yield made


def test_worker_processes_give_the_same_bits(plan, expected):
    with cf.ProcessPoolExecutor(2) as workers:
        xr.testing.assert_identical(study.sweep(plan, chunk=5, executor=workers, progress=False), expected)


def test_worker_threads_give_the_same_bits(plan, expected):
    with cf.ThreadPoolExecutor(3) as workers:
        xr.testing.assert_identical(study.sweep(plan, chunk=5, executor=workers, progress=False), expected)


def test_a_cluster_of_processes_writes_the_same_bytes_as_threads(plan, cluster, tmp_path):
    told = []
    study.sweep(plan, tmp_path / "threads.h5", threads=2, chunk=5, progress=False)
    with dask.Client(cluster) as client:
        study.sweep(plan, tmp_path / "cluster.h5", chunk=5, executor=client, progress=lambda *now: told.append(now))
    assert (tmp_path / "cluster.h5").read_bytes() == (tmp_path / "threads.h5").read_bytes()
    assert told[-1] == (24, 24)


def test_a_cluster_goes_on_with_a_file_begun_on_threads(plan, cluster, expected, tmp_path):
    def give_up(done, total):
        if done >= 5:
            raise RuntimeError

    with pytest.raises(RuntimeError):
        study.sweep(plan, tmp_path / "s.h5", chunk=5, progress=give_up)
    with dask.Client(cluster) as client:
        found = study.sweep(plan, tmp_path / "s.h5", executor=client, progress=False)
    xr.testing.assert_identical(found.isel(sample=slice(0, expected.sizes["sample"])), expected)


def test_a_cluster_worker_that_is_killed_costs_nothing_but_time(plan, cluster, expected):
    with dask.Client(cluster) as client:
        victim = next(iter(client.run(os.getpid).values()))
        killed = []

        def kill_once(done, total):
            if not killed:
                killed.append(os.kill(victim, signal.SIGKILL))

        found = study.sweep(plan, chunk=2, executor=client, progress=kill_once)
    assert killed
    xr.testing.assert_identical(found, expected)


class Troubled(cf.ThreadPoolExecutor):
    """Raises on the chunk that begins with a given case, so many times."""

    def __init__(self, case, times):
        super().__init__(2)
        self.case, self.left, self.lock = case, times, threading.Lock()

    def submit(self, function, parcel, identity, begin, end):
        return super().submit(self.trip, function, parcel, identity, begin, end)

    def trip(self, function, parcel, identity, begin, end):
        with self.lock:
            if begin == self.case and self.left > 0:
                self.left -= 1
                raise OSError("node 7 has gone")
        return function(parcel, identity, begin, end)


def test_a_chunk_that_fails_once_is_sent_again(plan, expected):
    with Troubled(10, times=1) as workers:
        xr.testing.assert_identical(study.sweep(plan, chunk=5, executor=workers, progress=False), expected)


def test_a_chunk_that_fails_twice_is_left_out_with_a_warning_and_done_by_the_next_call(plan, expected, tmp_path):
    file = tmp_path / "s.h5"
    with (
        Troubled(10, times=2) as workers,
        pytest.warns(study.IncompleteSweepWarning, match="cases 10 to 14: OSError: node 7 has gone"),
    ):
        found = study.sweep(plan, file, chunk=5, executor=workers, progress=False)
    assert np.flatnonzero(found["status"] == 0).tolist() == [10, 11, 12, 13, 14]
    assert found["p2_kN"].isnull().values.tolist() == (found["status"] == 0).values.tolist()
    again = study.sweep(plan, file, progress=False)
    xr.testing.assert_identical(again.isel(sample=slice(0, expected.sizes["sample"])), expected)


def test_in_memory_too_the_cases_of_a_failed_chunk_hold_nan(plan):
    with Troubled(0, times=2) as workers, pytest.warns(study.IncompleteSweepWarning, match="5 cases were not answered"):
        found = study.sweep(plan, chunk=5, executor=workers, progress=False)
    assert found["p2_kN"].isnull().values.tolist() == [True] * 5 + [False] * 19


def test_a_pool_whose_process_died_is_said_to_be_broken(plan):
    with cf.ProcessPoolExecutor(1) as workers:
        workers.submit(os.getpid).result()
        os.kill(next(iter(workers._processes)), signal.SIGKILL)
        with pytest.warns(study.IncompleteSweepWarning, match="BrokenProcessPool"):
            found = study.sweep(plan, chunk=5, executor=workers, progress=False)
    assert (found["status"] == 0).all()


class Elsewhere(cf.ThreadPoolExecutor):
    """Workers that compare what they run with another version, commit or fingerprint."""

    def __init__(self, changed):
        super().__init__(1)
        self.changed = changed

    def submit(self, function, parcel, identity, begin, end):
        identity = tuple("other" if i == self.changed else part for i, part in enumerate(identity))
        return super().submit(function, parcel, identity, begin, end)


@pytest.mark.parametrize(("changed", "said"), [(0, "runs wingnose"), (1, "runs wingnose"), (2, "reads other files")])
def test_workers_that_would_mix_numbers_are_refused(plan, changed, said):
    with Elsewhere(changed) as workers, pytest.raises(wingnose.InputError, match=said):
        study.sweep(plan, chunk=5, executor=workers, progress=False)
