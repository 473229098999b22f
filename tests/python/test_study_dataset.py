"""The Dataset of a sweep: names, units, and what is shown of a sweep not finished."""

import h5py
import numpy as np
import pytest
import xarray as xr
from study_cases import cheap_case

import wingnose
from wingnose import study

SPEED, SIDE, LOAD = "passage.speed_km_h", "passage.direction", "vehicle.static_load_kN"


@pytest.fixture(scope="module")
def case():
    return cheap_case()


@pytest.fixture(scope="module")
def plan(case):
    return study.grid(case, {SPEED: [80, 120], SIDE: ["facing", "trailing"]}, history_every=20)


@pytest.fixture(scope="module")
def file(plan, tmp_path_factory):
    file = tmp_path_factory.mktemp("sweep") / "whole.h5"
    study.sweep(plan, file, chunk=1, progress=False)
    return file


@pytest.fixture(scope="module")
def half(plan, tmp_path_factory):
    """The same with the first and third of four chunks only, but the second half written."""
    file = tmp_path_factory.mktemp("sweep") / "half.h5"
    with study.SweepFile(file, plan, 1) as stored:
        for chunk in stored.missing()[::2]:
            stored.write(chunk, study.answer_cases(plan, chunk.begin, chunk.end))
    return file


def test_every_variable_has_unit_and_meaning(file):
    dataset = study.open_dataset(file)
    told = [quantity for quantity in wingnose.quantities.values() if quantity.swept and not quantity.of_steel
            and not quantity.section.startswith("Vehicle in space")]
    assert len(told) > 20
    for quantity in told:
        name = quantity.key if quantity.key != "speed_km_h" else "result_speed_km_h"
        attrs = dataset[name].attrs
        assert attrs["units"] == quantity.unit
        assert attrs["long_name"] == quantity.label
        assert attrs["description"] == quantity.meaning
    assert dataset["speed_km_h"].attrs == {"units": "km/h", "long_name": "speed", "key": SPEED}
    assert dataset.attrs["caution"] == wingnose.CAUTION
    assert dataset.attrs["version"] == wingnose.__version__
    assert "[crossing]" in dataset.attrs["case_text"]


def test_a_grid_has_a_dimension_per_key_and_points_have_cases(case, file):
    assert study.open_dataset(file)["p2_kN"].dims == ("direction", "speed_km_h")
    points = study.sweep(study.points(case, {SPEED: [80, 90, 85], SIDE: "facing"}), progress=False)
    assert points["p2_kN"].dims == ("case",)
    assert points["speed_km_h"].values.tolist() == [80, 90, 85]
    assert points["case"].values.tolist() == [0, 1, 2]


def test_a_measure_that_has_the_name_of_a_coordinate_keeps_its_values(file):
    dataset = study.open_dataset(file)
    assert dataset["result_speed_km_h"].attrs["measure"] == "speed_km_h"
    for speed in (80, 120):
        assert dataset["result_speed_km_h"].sel(speed_km_h=speed).values == pytest.approx(speed, rel=1e-12)


def test_keys_that_end_alike_are_written_in_full():
    names = study.datasets.coordinate_names(["crossing.kind", "wheel.kind", "passage.speed_km_h", "a.status"])
    assert names == {
        "crossing.kind": "crossing_kind",
        "wheel.kind": "wheel_kind",
        "passage.speed_km_h": "speed_km_h",
        "a.status": "a_status",
    }


def test_flags_are_flags(case):
    plan = study.grid(case, {"passage.probes": [False, True]})
    dataset = study.sweep(plan, progress=False)
    assert dataset["probes"].values.tolist() == [False, True]


def test_what_is_not_done_yet_is_nan(half, file):
    whole, partial = study.open_dataset(file, load=True), study.open_dataset(half, load=True)
    done = xr.DataArray([[True, False], [True, False]], dims=("direction", "speed_km_h"))
    assert (partial["status"] == done).all()
    for name in ("p2_kN", "force_N", "force_nose_N"):
        assert partial[name].where(~done).isnull().all()
        assert np.array_equal(partial[name].where(done), whole[name].where(done), equal_nan=True), name
        assert whole[name].where(~done).notnull().any()


def test_rows_that_reached_the_file_without_their_flag_are_masked(half, tmp_path):
    torn = tmp_path / "torn.h5"
    torn.write_bytes(half.read_bytes())
    with h5py.File(torn, "r+") as opened:  # killed after the histories, before checksum and flag
        assert not opened["chunk_complete"][1]
        opened["history/force_N"][1, :] = 1.0
    xr.testing.assert_identical(study.open_dataset(torn, load=True), study.open_dataset(half, load=True))


def test_histories_are_those_of_the_passage(plan, file):
    dataset = study.open_dataset(file)
    for i in range(len(plan)):
        keys = plan.values(i)
        found = dataset.sel(speed_km_h=keys[SPEED], direction=keys[SIDE])
        [outcome] = study.run_many([plan.case(i)], keep_history=True)
        history = outcome.result.history
        expected = history.force[::20].astype(np.float32)
        force = found["force_N"].values
        assert (force[: len(expected)] == expected).all()
        assert np.isnan(force[len(expected) :]).all()
        station = 1e3 * np.asarray(history.station)[::20]
        assert found["station_mm"].values[: len(expected)] == pytest.approx(station, abs=1e-6)


def test_histories_are_read_when_used_and_only_what_is_used(file):
    lazy, loaded = study.open_dataset(file), study.open_dataset(file, load=True)
    assert "history" not in study.open_dataset(file, histories=False).dims
    assert "force_N" not in study.open_dataset(file, histories=False)
    for pick in (
        {"speed_km_h": 1},
        {"direction": [1, 0], "speed_km_h": 0},
        {"sample": slice(3, 30, 4)},
        {"speed_km_h": slice(None, None, -1), "sample": 5},
        {"direction": 1, "speed_km_h": 0, "sample": [7, 2, 2]},
    ):
        xr.testing.assert_identical(lazy.isel(pick).load(), loaded.isel(pick))


def test_equal_stations_are_one_coordinate(case):
    plan = study.grid(case, {LOAD: [80, 90]}, history_every=20)
    assert study.sweep(plan, progress=False)["station_mm"].dims == ("sample",)


def test_a_sweep_goes_to_pandas_and_netcdf_names(file):
    frame = study.open_dataset(file, histories=False).to_dataframe()
    assert frame.loc[("facing", 80.0), "p2_kN"] > 0


def test_a_file_that_is_no_sweep_is_refused(tmp_path):
    (tmp_path / "no.h5").write_text("no")
    with pytest.raises(wingnose.InputError):
        study.open_dataset(tmp_path / "no.h5")


def test_the_bar_of_a_sweep_tells_the_cases_somebody_should_look_at(case, capsys):
    plan = study.grid(case, {"wheel.lateral_offset_mm": [0, 6]}, probes=False)
    answers = study.sweep(plan, chunk=1, progress=True)
    told = capsys.readouterr().err
    assert f"{int((answers['gravity'] == 2).sum())} grave" in told
