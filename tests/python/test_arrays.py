"""Arrays are views of the C++ data: not copied, not writable, alive as long as anybody looks at them."""

import gc

import numpy as np
import pytest

import wingnose
from wingnose import study


def test_two_looks_at_the_force_are_the_same_memory(result):
    first, second = result.history.force, result.history.force
    assert first.__array_interface__["data"][0] == second.__array_interface__["data"][0]
    assert np.shares_memory(first, second)
    assert not first.flags.owndata


def test_body_forces_and_path_columns_are_views_too(result):
    history, path = result.history, result.geometry.path
    assert np.shares_memory(history.body_force[0], history.body_force[0])
    assert np.shares_memory(path.bodies[0].height, result.geometry.path.bodies[0].height)
    assert np.shares_memory(path.station, result.geometry.path.station)


def test_views_cannot_be_written_through(result):
    with pytest.raises(ValueError, match="read-only"):
        result.history.force[0] = 0.0


def test_a_view_keeps_its_result_alive(case):
    path = study.geometry_of(case).path
    kept = path.bodies[0].height
    expected = kept.copy()
    del path
    gc.collect()
    # New allocations would overwrite memory that had been given back.
    _ = [np.full(kept.size, -1.0) for _ in range(64)]
    assert np.array_equal(kept, expected)


def test_arrays_of_an_answer_outlive_it_and_are_not_copied(case, result, tmp_path):
    target = tmp_path / "r.h5"
    wingnose.run(case, file=target)
    stored = wingnose.open(target)
    array = stored["history/force_N"]
    del stored
    gc.collect()
    assert np.shares_memory(array.values, array.values)
    assert array.values == pytest.approx(result.history.force)
    assert array.attrs["units"] == "N"


def test_body_forces_add_up_to_the_total(result):
    assert np.sum(result.history.body_force, axis=0) == pytest.approx(result.history.force, abs=1e-6)


def test_an_array_of_the_wrong_shape_is_refused():
    with pytest.raises(ValueError, match="one-dimensional"):
        wingnose.layout.GivenPath(station=np.zeros((2, 2)), height=np.zeros(4))
