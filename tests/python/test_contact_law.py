"""The passage's law of contact, from Python."""

import pickle

import numpy as np
import pytest

import wingnose
from wingnose import contact, layout, study


@pytest.fixture(scope="module")
def cases(demo_file):
    case = wingnose.read_case(demo_file)
    case = case.replace(passage=case.passage.replace(from_=-0.8, to=1.0, probes=False))
    return case, case.replace(normal_law=contact.Strips())


def test_a_case_carries_its_law(cases):
    ellipse, strips = cases
    assert ellipse.normal_law == contact.Ellipse()
    assert strips.normal_law == contact.Strips() != contact.Ellipse()
    assert pickle.loads(pickle.dumps(strips.normal_law)) == contact.Strips()
    assert study.geometry(ellipse).law is None


def test_strips_hardly_change_p2_but_the_depth_that_carries_it(cases):
    ellipse, strips = (wingnose.run(case) for case in cases)
    assert strips.measures.p2 == pytest.approx(ellipse.measures.p2, rel=0.01)
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
    g = study.geometry(strips)
    law = contact.strips_law(g.path, g.crossing, strips.wheel)
    np.testing.assert_array_equal(law.force(0, 1e-4), g.law.force(0, 1e-4))


def test_searched_at_every_step_the_passage_is_the_same(cases):
    for case in cases:
        stepwise = case.replace(contact_search=contact.SearchAt.step)
        assert case.contact_search == contact.SearchAt.path != stepwise.contact_search
        along, at_steps = wingnose.run(case), wingnose.run(stepwise)
        assert at_steps.measures.p2 != along.measures.p2
        assert at_steps.measures.p2 == pytest.approx(along.measures.p2, rel=0.001)


def test_a_yawed_wheel_touches_ahead_where_the_contact_is_inclined(cases):
    strips = cases[1].replace(lateral_offset=0.002)
    yawed = strips.replace(yaw=0.01)
    assert (yawed.yaw, yawed.roll) == (0.01, 0)
    a, b = (study.geometry(case) for case in (strips, yawed))
    assert (b.path.yaw, b.path.roll, b.path.lateral_offset) == (0.01, 0, 0.002)
    nose, before = b.path.bodies[1], a.path.bodies[1]
    x = 0.6  # behind the transfer, on the nose
    i, j = (int(np.searchsorted(g.path.station, x)) for g in (b, a))
    ahead = 0.01 * ((b.path.wheel_radius * np.tan(nose.angle[i])) - nose.wheel_y[i])
    assert abs(ahead) > 2e-4
    assert nose.contact_dx[i] - before.contact_dx[j] == pytest.approx(ahead, rel=0.2)
    law = contact.strips_law(b.path, b.crossing, yawed.wheel)
    np.testing.assert_array_equal(law.force(1, 1e-4), b.law.force(1, 1e-4))
    # the contact at an instant follows the case unless told otherwise
    result = wingnose.run(yawed)
    dx = [
        study.contact_at_instant(yawed, result, "peak", cells=0, **attitude).patches[0].dx
        for attitude in ({}, {"yaw": 0.01}, {"yaw": 0.0})
    ]
    assert dx[0] == dx[1] != dx[2]


def test_a_turned_wheel_needs_a_surface(cases):
    with pytest.raises(wingnose.InputError, match="-0.03 to 0.03"):
        study.geometry(cases[0].replace(yaw=0.5))
    joint = cases[0].replace(excitation=layout.DippedJoint(dip_angle=0.01, half_length=1.0))
    with pytest.raises(wingnose.InputError, match="yaw_mrad"):
        study.geometry(joint.replace(yaw=0.005))
    with pytest.raises(wingnose.InputError, match="contact.search"):
        study.geometry(joint.replace(contact_search=contact.SearchAt.step))


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
