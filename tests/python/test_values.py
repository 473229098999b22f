"""Values: made by keyword, changed by replace(), compared, printed and copied."""

import copy
import pickle

import numpy as np
import pytest

import wingnose
from wingnose import _core, layout, passage, track, vehicle

ROOMS = ("profile", "crossing", "contact", "track", "vehicle", "closedform", "passage", "assess", "study", "io")


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


def test_lists_of_values_are_tuples():
    assert isinstance(vehicle.preset("bogie").wheels, tuple)


def classes_of(room):
    return [item for item in vars(getattr(_core, room)).values() if isinstance(item, type)]


@pytest.mark.parametrize("room", ROOMS)
def test_every_class_field_and_function_is_documented(room):
    module = getattr(_core, room)
    assert module.__doc__
    for name, item in vars(module).items():
        if name.startswith("_") or not callable(item):
            continue
        assert item.__doc__, f"{room}.{name}"
    for kind in classes_of(room):
        for name, item in vars(kind).items():
            if isinstance(item, property):
                assert item.__doc__, f"{room}.{kind.__name__}.{name}"
