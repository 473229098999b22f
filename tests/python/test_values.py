"""Values: made by keyword, changed by replace(), compared, printed and copied."""

import copy
import pickle

import numpy as np
import pytest

import wingnose
from wingnose import _core, layout, passage, profile, track, vehicle

ROOMS = ("profile", "layout", "contact", "track", "vehicle", "closedform", "passage", "assess", "study", "answers")


def test_replace_changes_a_copy_and_leaves_the_value_alone():
    settings = passage.Settings(speed=30.0)
    faster = settings.replace(speed=40.0, direction=wingnose.Direction.trailing)
    assert (settings.speed, faster.speed) == (30.0, 40.0)
    assert faster.direction is wingnose.Direction.trailing
    assert faster.step == settings.step


def test_a_value_cannot_be_changed_in_place():
    with pytest.raises(AttributeError):
        passage.Settings().speed = 40.0


def test_an_unknown_field_is_refused_with_the_known_ones():
    with pytest.raises(TypeError, match="sped.*speed"):
        passage.Settings().replace(sped=40.0)


def test_needed_fields_must_be_given():
    with pytest.raises(TypeError):
        vehicle.Wheel(name="wheel 1")


def test_repr_reads_like_the_call_that_makes_it():
    seat = track.Seat(pad_stiffness=1e8)
    text = repr(seat)
    assert text.startswith("Seat(pad_stiffness=100000000.0")
    assert eval(text, {"Seat": track.Seat}) == seat


def test_long_arrays_are_not_printed_out(result):
    assert f"array of {result.history.force.size}" in repr(result.history)
    assert len(repr(result)) < 2000


def test_equal_values_are_equal_and_changed_ones_are_not():
    shape = layout.CrossingShape()
    assert shape == layout.CrossingShape()
    assert shape != shape.replace(rate=12.0)
    given = layout.GivenPath(station=[0.0, 1.0], height=[0.0, 0.001])
    assert given == layout.GivenPath(station=np.array([0.0, 1.0]), height=np.array([0.0, 0.001]))


def test_values_survive_copy_and_pickle():
    table = vehicle.preset("coach")
    again = pickle.loads(pickle.dumps(table))
    assert again == table
    assert copy.deepcopy(table).wheels[1].x == table.wheels[1].x


def test_a_case_survives_copy_and_pickle_with_all_that_was_changed(case):
    changed = case.vary({"passage.speed_km_h": 120, "wheel.lateral_offset_mm": 2}).replace(
        name="bogie on a cone", vehicle=vehicle.preset("bogie"), profile=profile.cone(0.05)
    )
    for one in (case, changed, wingnose.Case()):
        assert pickle.loads(pickle.dumps(one)) == one
        assert copy.deepcopy(one).all_keys() == one.all_keys()
    assert changed != case
    assert changed.inputs == case.inputs
    assert pickle.loads(pickle.dumps(changed)).profile == profile.cone(0.05)


def test_a_key_of_a_case_is_read_in_its_unit_and_a_wrong_one_answered_with_the_likely_one(case):
    assert case["passage.speed_km_h"] == 108
    assert case["passage.direction"] == "facing"
    assert case["passage.probes"] is True
    assert case.key("passage.speed_km_h").unit == "km/h"
    assert {info.key for info in case.keys()} <= set(case.all_keys())
    with pytest.raises(wingnose.InputError, match="Did you mean \"passage.speed_km_h\""):
        case["passage.sped_km_h"]
    with pytest.raises(wingnose.InputError, match="1000 km/h is not allowed; allowed: 1 to 500 km/h"):
        case.vary({"passage.speed_km_h": 1000})


def test_a_part_of_the_wrong_kind_is_refused_by_name(case):
    with pytest.raises(TypeError, match="vehicle cannot be a int"):
        case.replace(vehicle=3)
    with pytest.raises(TypeError, match="no field 'vehicel'"):
        case.replace(vehicel=vehicle.preset("bogie"))


def test_findings_are_values(result):
    [finding] = result.findings
    assert pickle.loads(pickle.dumps(finding)) == finding
    assert finding.kind == "no_first_peak"
    assert finding.gravity == "note"
    assert "first peak" in str(finding)


def test_lists_of_values_are_tuples():
    assert isinstance(vehicle.preset("bogie").wheels, tuple)


def classes_of(module):
    return [item for item in vars(module).values() if isinstance(item, type)]


@pytest.mark.parametrize("room", ROOMS)
def test_every_class_field_and_function_is_documented(room):
    check_documented(getattr(_core, room), room)


def test_what_stands_above_the_rooms_is_documented():
    check_documented(_core, "wingnose")


def check_documented(module, room):
    assert module.__doc__
    for name, item in vars(module).items():
        if name.startswith("_") or not callable(item):
            continue
        assert item.__doc__, f"{room}.{name}"
    for kind in classes_of(module):
        for name, item in vars(kind).items():
            if isinstance(item, property):
                assert item.__doc__, f"{room}.{kind.__name__}.{name}"
