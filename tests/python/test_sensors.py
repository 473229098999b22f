"""Records of sensors as DataTrees, and their filters against SciPy's."""

import numpy as np
import pytest

import wingnose
from wingnose import study

CASE = """
[crossing]
kind = "joint"
dip_angle_mrad = 10
[track]
method = "chain"
[passage]
from_m = -1.5
to_m = 1.5
[[sensor]]
name = "bearer"
station_m = 0.0
low_Hz = 20
high_Hz = 400
order = 3
sampling_Hz = 2000
"""


@pytest.fixture(scope="module")
def answer(tmp_path_factory):
    folder = tmp_path_factory.mktemp("sensor")
    (folder / "case.toml").write_text(CASE)
    tree = study.run(wingnose.read_case(folder / "case.toml"), file=folder / "run.h5")
    return tree, wingnose.open(folder / "run.h5")


def test_a_record_is_the_same_in_its_file(answer):
    tree, stored = answer
    for each in answer:
        record = each["sensors/bearer"]
        assert record["acceleration_m_s2"].attrs["units"] == "m/s2"
        assert record["acceleration_m_s2"].sizes["time_s"] == 201  # 3 m at 30 m/s, 2 kHz
    np.testing.assert_array_equal(tree["sensors/bearer"]["displacement_mm"], stored["sensors/bearer"]["displacement_mm"])
    assert float(tree["measures"]["seat_force_max_kN"]) == pytest.approx(float(tree["bearers"]["seat_force_max_kN"].max()))


def test_the_band_is_that_of_scipy(answer):
    signal = pytest.importorskip("scipy.signal")
    record = answer[0]["sensors/bearer"]
    for what in ("acceleration_{}m_s2", "velocity_{}mm_s", "displacement_{}mm"):
        sampled = record[what.format("sampled_")].values
        sections = [signal.butter(3, 20, "highpass", fs=2000, output="sos"), signal.butter(3, 400, fs=2000, output="sos")]
        expected = sampled
        for sos in sections:  # from the steady state of the first sample
            expected, _ = signal.sosfilt(sos, expected, zi=signal.sosfilt_zi(sos) * expected[0])
        np.testing.assert_allclose(record[what.format("")].values, expected, rtol=1e-6, atol=1e-6 * np.abs(sampled).max())


def test_the_indicator_and_the_shares_are_those_of_scipy(answer):
    signal = pytest.importorskip("scipy.signal")
    tree, _ = answer
    record, speed, rate = tree["sensors/bearer"], 30.0, 2000.0
    sampled = record["acceleration_sampled_m_s2"].values
    low = signal.butter(8, speed / 1.0, "highpass", fs=rate, output="sos")
    high = signal.butter(8, speed / 0.2, fs=rate, output="sos")
    def both_ways(sos, x, cut_off):
        pad = min(len(x) - 1, int(3.0 * rate / cut_off) + 1)
        return signal.sosfiltfilt(sos, x, padlen=pad)
    band = both_ways(high, both_ways(low, sampled, speed), speed / 0.2)
    assert float(tree["sensors"]["indicator_acceleration_m_s2"][0]) == pytest.approx(np.sqrt(np.mean(band**2)), rel=0.01)
    slow = both_ways(signal.butter(4, speed, fs=rate, output="sos"), record["displacement_sampled_mm"].values, speed)
    np.testing.assert_allclose(record["quasi_static_mm"].values, slow, atol=1e-3 * np.abs(slow).max())
