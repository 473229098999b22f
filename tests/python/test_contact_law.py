"""The passage's law of contact, from Python."""

import pickle

import numpy as np
import pytest

import wingnose
from wingnose import contact, layout, study


@pytest.fixture(scope="module")
def cases(demo_file):
    short = {"passage.from_m": -0.8, "passage.to_m": 1.0, "passage.probes": False}
    case = wingnose.read_case(demo_file).vary(short)
    return case, case.vary({"contact.law": "strips"})


def test_a_case_carries_its_law(cases):
    ellipse, strips = cases
    assert ellipse.normal_law == contact.Ellipse()
    assert strips.normal_law == contact.Strips() != contact.Ellipse()
    assert pickle.loads(pickle.dumps(strips.normal_law)) == contact.Strips()
    assert (ellipse["contact.law"], strips["contact.law"]) == ("ellipse", "strips")
    assert study.geometry_of(ellipse).law is None


def test_strips_hardly_change_p2_but_the_depth_that_carries_it(cases):
    ellipse, strips = (study.result_of(case) for case in cases)
    assert strips.measures["p2_kN"] == pytest.approx(ellipse.measures["p2_kN"], rel=0.01)
    law, hertz = strips.geometry.law, contact.ellipse_law(ellipse.geometry.path)
    assert law.searched > 0 and hertz.searched == 0
    station = ellipse.geometry.path.station
    behind = station > 0.5  # on the nose
    a, b = (one.depth(1, 90e3)[behind] for one in (law, hertz))
    assert np.all(np.isfinite(a)) and np.all(a > 0)
    assert np.max(np.abs(a / b - 1)) > 0.01
    assert np.max(np.abs(a / b - 1)) < 0.5
    # what the depth was asked for is what it carries
    np.testing.assert_allclose([law.force(1, d)[i] for d, i in zip(a[:5], np.flatnonzero(behind)[:5])], 90e3, rtol=1e-6)


def test_a_law_made_by_hand_is_the_one_of_the_case(cases):
    strips = cases[1]
    g = study.geometry_of(strips)
    law = contact.strips_law(g.path, g.crossing, strips.profile)
    np.testing.assert_array_equal(law.force(0, 1e-4), g.law.force(0, 1e-4))


def test_searched_at_every_step_the_passage_is_the_same(cases):
    for case in cases:
        stepwise = case.vary({"contact.search": "step"})
        assert (case["contact.search"], stepwise["contact.search"]) == ("path", "step")
        along, at_steps = (float(wingnose.run(one)["measures/p2_kN"]) for one in (case, stepwise))
        assert at_steps != along
        assert at_steps == pytest.approx(along, rel=0.001)


def test_a_yawed_wheel_touches_ahead_where_the_contact_is_inclined(cases):
    strips = cases[1].vary({"wheel.lateral_offset_mm": 2})
    yawed = strips.vary({"wheel.yaw_mrad": 10})
    assert (yawed["wheel.yaw_mrad"], yawed["wheel.roll_mrad"]) == (10, 0)
    a, b = (study.geometry_of(case) for case in (strips, yawed))
    assert (b.path.yaw, b.path.roll, b.path.lateral_offset) == (0.01, 0, 0.002)
    nose, before = b.path.bodies[1], a.path.bodies[1]
    x = 0.6  # behind the transfer, on the nose
    i, j = (int(np.searchsorted(g.path.station, x)) for g in (b, a))
    ahead = 0.01 * ((b.path.wheel_radius * np.tan(nose.angle[i])) - nose.wheel_y[i])
    assert abs(ahead) > 2e-4
    assert nose.contact_dx[i] - before.contact_dx[j] == pytest.approx(ahead, rel=0.2)
    law = contact.strips_law(b.path, b.crossing, yawed.profile)
    np.testing.assert_array_equal(law.force(1, 1e-4), b.law.force(1, 1e-4))
    # the contact at an instant follows the case unless told otherwise
    dx = [
        float(study.contact(yawed, at="peak", cells=0, **attitude)["patches/ahead_of_axle_mm"][0])
        for attitude in ({}, {"yaw": 0.01}, {"yaw": 0.0})
    ]
    assert dx[0] == dx[1] != dx[2]


def test_a_turned_wheel_needs_a_surface(cases):
    with pytest.raises(wingnose.InputError, match="yaw_mrad: 500 mrad.*-30 to 30"):
        cases[0].vary({"wheel.yaw_mrad": 500})
    joint = cases[0].replace(excitation=layout.DippedJoint(dip_angle=0.01, half_length=1.0))
    with pytest.raises(wingnose.InputError, match="yaw_mrad"):
        study.geometry(joint.vary({"wheel.yaw_mrad": 5}))
    with pytest.raises(wingnose.InputError, match="contact.search"):
        study.geometry(joint.vary({"contact.search": "step"}))


def test_force_laws_take_arrays_and_refuse_what_cannot_be():
    depth = np.array([20e-6, 50e-6, 100e-6, 300e-6])
    law = contact.fit_force_law(depth, 9e10 * depth**1.5)
    np.testing.assert_allclose(law.force(depth), 9e10 * depth**1.5, rtol=1e-6)
    assert law.stiffness(1e-4) == pytest.approx(1.5 * 9e10 * 1e-2, rel=1e-6)
    assert law.force(-1e-5) == 0
    with pytest.raises(wingnose.InputError, match="three or more"):
        contact.fit_force_law(depth[:2], depth[:2])
    with pytest.raises(wingnose.InputError, match="only press"):
        law.depth(-1.0)


def test_every_number_of_a_generated_crossing_can_be_set():
    shape = layout.CrossingShape(nose_ramp_end_depth=0.002, head_width=0.07)
    assert (shape.nose_ramp_end_depth, shape.head_width) == (0.002, 0.07)
