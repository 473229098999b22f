"""Every room answers from Python: one fact each that can be checked by hand."""

import math
import re

import numpy as np
import pytest

import wingnose
from wingnose import assess, closedform, contact, layout, passage, profile, study, track, vehicle


def test_wheel_profile_is_zero_at_the_taping_line_and_grows_to_the_flange():
    wheel = profile.s1002()
    assert wheel.height(np.array([0.0]))[0] == pytest.approx(0.0, abs=1e-9)
    assert wheel.height(-0.055) > 0.020
    assert wheel.at(0.0).slope < 0.0
    assert (wheel.y_min, wheel.y_max) == pytest.approx((-0.070, 0.060))
    assert wheel.curve.front == wheel.y_min
    assert wheel.curve(0.01) == wheel.height(0.01)


def test_a_cone_falls_by_its_conicity():
    assert profile.cone(1 / 20).height(0.040) == pytest.approx(-0.002)


def test_a_hollow_takes_its_depth_at_its_centre():
    base = profile.s1002()
    worn = profile.hollow_worn(base, profile.Hollow(depth=0.001, width=0.06, centre=0.005))
    assert base.height(0.005) - worn.height(0.005) == pytest.approx(0.001)
    bumped = base.curve.with_bump(profile.Bump(depth=0.001, width=0.06, centre=0.005))
    assert bumped(0.005) == worn.height(0.005)
    assert bumped.back == base.y_max


def test_a_measured_wheel_comes_back_within_its_noise():
    base = profile.s1002()
    y = np.linspace(base.y_min + 0.002, base.y_max, 400)
    fitted = profile.measured_wheel(y, base.height(y), 5e-6, "copy")
    tread = np.linspace(-0.025, 0.045, 50)
    assert fitted.height(tread) == pytest.approx(base.height(tread), abs=15e-6)
    assert fitted.name == "copy"


def test_rail_heads_and_sections():
    head = profile.rail_head("60E1", math.atan(1 / 40))
    assert head.status == "verified"
    assert head.curve(0.0) == pytest.approx(0.0, abs=1e-3)
    section = profile.rail_section("60E1")
    assert section.mass_per_m == pytest.approx(section.area * 7850, rel=0.01)
    assert section.name in profile.rail_section_names()
    with pytest.raises(wingnose.InputError, match="60E1"):
        profile.rail_head("61E1")


def test_contact_of_two_equal_crossed_cylinders_is_round():
    # The same curvature both ways; a^3 = 3 F / (4 E* k) with k the curvature (Johnson 1985, eq. 4.22).
    steel = contact.Elastic(young=210e9, poisson=0.3)
    patch = contact.hertz_patch(1e5, 2.0, 2.0, steel)
    assert patch.a_x == pytest.approx(patch.a_y)
    assert patch.a_x == pytest.approx((3 * 1e5 / (4 * steel.combined() * 2.0)) ** (1 / 3), rel=1e-9)
    assert contact.hertz_stiffness(2.0, 2.0) * patch.approach**1.5 == pytest.approx(1e5)
    assert contact.hertz_shape(1.0, 1.0).ratio == pytest.approx(1.0)


def test_track_deflects_like_a_beam_on_its_foundation():
    described = track.Track(bays=60)
    assembly = track.assemble(described)
    seat = described.seat
    k = 1 / (1 / seat.pad_stiffness + 1 / seat.ballast_stiffness) / described.spacing
    beam = closedform.FoundationBeam(EI=described.rail.EI, k=k)
    deflection = track.static_deflection(assembly, 1e5, 0.0, [0.0, 3.0])
    # A closed form without shear and with the foundation smeared out: a few per cent.
    assert deflection[0] == pytest.approx(closedform.deflection(beam, 1e5, 0.0), rel=0.06)
    assert assembly.dofs > 2 * assembly.node.size - 1
    assert np.diff(assembly.seat_station) == pytest.approx(described.spacing)


def test_receptance_tends_to_the_static_compliance():
    assembly = track.assemble(track.Track())
    answer = track.receptance(assembly, 0.0, [0.1])
    assert answer.dtype == np.complex128
    static = track.static_deflection(assembly, 1.0, 0.0, [0.0])
    assert abs(answer[0]) == pytest.approx(static[0], rel=1e-3)


def test_modes_answer_like_the_matrices():
    modal = track.modal_track(track.Track())
    direct = track.receptance(modal.assembly, 0.1, [200.0])[0]
    assert track.modal_receptance(modal, 0.1, 200.0) == pytest.approx(direct, rel=0.01)
    assert modal.begin < 0.0 < modal.end
    assert np.all(modal.decay < 0.0)
    assert modal.residual_at(0.0) >= 0.0
    assert modal.modes > 0
    assert modal.highest_frequency > 1000.0
    assert modal.bilinearity_error < 0.01


def test_steel_rail_of_a_section():
    section = profile.rail_section("60E1")
    rail = track.steel_rail(section.area, section.inertia, section.mass_per_m)
    assert rail.EI == pytest.approx(210e9 * section.inertia)
    zone = track.RailZone(begin=-1.0, end=1.0, rail=rail)
    softer = track.SeatOverride(station=0.6, seat=track.Seat(ballast_stiffness=20e6))
    changed = track.assemble(track.Track(zones=[zone], overrides=[softer]))
    assert track.static_deflection(changed, 1e5, 0.6, [0.6])[0] > 0.0


def test_vehicle_loads_add_up_to_its_weight():
    for name in vehicle.preset_names():
        table = vehicle.preset(name)
        model = vehicle.assemble(table)
        mass = sum(body.mass for body in table.bodies) + sum(wheel.unsprung_mass for wheel in table.wheels)
        assert sum(model.static_load) == pytest.approx(9.81 * mass, rel=1e-9)
        assert model.wheels == len(table.wheels)
        assert model.M.shape == model.K.shape == model.C.shape


def test_modes_of_a_wheel_under_its_primary_suspension():
    table = vehicle.single_wheel(9e4, 900.0, 1e6, 1e4, 0.46)
    model = vehicle.assemble(table)
    sprung = 9e4 / 9.81 - 900.0
    frequency = math.sqrt(1e6 / sprung) / (2 * math.pi)
    assert vehicle.undamped_frequencies(model, wheels_held=True)[0] == pytest.approx(frequency)
    assert any(0.0 < mode.damping_ratio < 1.0 for mode in vehicle.modes(model))


def test_joint_forces_and_their_inverses():
    lumps = closedform.LumpedTrack(m_T2=250.0, k_T2=60e6, c_T2=55e3)
    joint = closedform.JointCase(static_load=1e5, unsprung_mass=900.0, speed=40.0, dip_angle=0.02, track=lumps)
    forces = closedform.joint_forces(joint)
    assert forces.P2 == pytest.approx(1e5 + 0.02 * 40.0 * forces.M * forces.C * forces.K)
    assert closedform.permissible_speed(joint, forces.P2) == pytest.approx(40.0)
    assert closedform.permissible_dip_angle(joint, forces.P2) == pytest.approx(0.02)
    assert closedform.lumped_peaks(joint).contact > 1e5
    assert closedform.P1_hertz(joint, 9e10) > 1e5
    named = closedform.constant_sets()
    assert closedform.constant_set(named[0].name) == named[0]


def test_beam_on_elastic_foundation():
    beam = closedform.FoundationBeam(EI=6e6, k=40e6)
    length = closedform.characteristic_length(beam)
    assert length == pytest.approx((4 * 6e6 / 40e6) ** 0.25)
    assert closedform.deflection(beam, 1e5, 0.0) == pytest.approx(1e5 / (2 * 40e6 * length))
    assert closedform.moment(beam, 1e5, 0.0) == pytest.approx(1e5 * length / 4)
    assert closedform.point_stiffness(beam) == pytest.approx(1e5 / closedform.deflection(beam, 1e5, 0.0))
    speed = closedform.critical_speed(beam, 300.0)
    assert closedform.moving_load_factor(0.0, speed) == pytest.approx(1.0)
    assert closedform.moving_load_factor(0.5 * speed, speed) > 1.0
    assert closedform.lumped_track(beam, 300.0, 1e5).k_T2 == pytest.approx(closedform.point_stiffness(beam))
    assert 500.0 < closedform.pinned_pinned_frequency(6.4e6, 2.5e8, 60.0, 0.24, 0.6) < 1500.0


def test_linear_crossing_dip_angle_is_the_sum_of_its_slopes():
    level = closedform.LinearCrossing(
        rate=15.0, conicity=1 / 20, ramp_slope=0.006, wing_height_at_0=0.0, nose_height_at_0=-0.006, wheel_radius=0.46
    )
    answer = closedform.linear_crossing(level)
    assert answer.dip_angle == pytest.approx(1 / 20 / 15 + 0.006, rel=1e-3)


def test_crossing_surfaces_and_rolling():
    generated = layout.generate(layout.CrossingShape())
    assert {body.name for body in generated.bodies} == {"wing", "nose"}
    assert generated.nose_thickness(0.3) == pytest.approx(0.3 / generated.rate)
    nose = next(body for body in generated.bodies if body.name == "nose")
    y, z = nose.section(1.0)
    assert y.size == z.size == 401
    assert nose.height(1.0, y[200]) == pytest.approx(z[200], abs=1e-5)
    assert math.isnan(nose.height(nose.x_end + 1.0, 0.7))
    options = contact.PathOptions(from_=-0.5, to=1.5, pitch=0.005)
    path = contact.roll(generated, profile.s1002(), options)
    found = contact.kinematics(path, generated, profile.s1002(), contact.KinematicsOptions())
    assert 0.0 < found.transfer_station < 1.5
    assert found.nose_thickness == pytest.approx(generated.nose_thickness(found.transfer_station), rel=1e-6)
    assert found.dip_angle == pytest.approx(abs(found.slope_before) + abs(found.slope_after))


def test_sections_of_a_generated_crossing_make_nearly_the_same_crossing():
    shape = layout.CrossingShape()
    bodies = []
    for body in layout.generate(shape).bodies:
        stations = np.linspace(max(body.x_begin, -0.6) + 1e-6, min(body.x_end, 1.8) - 1e-6, 49)
        sections = [layout.Section(station=x, y=body.section(x)[0], z=body.section(x)[1]) for x in stations]
        bodies.append(layout.SectionedBody(name=body.name, sections=sections))
    lofted = layout.from_sections(layout.SectionedShape(rate=shape.rate, gauge=shape.gauge, bodies=bodies))
    assert lofted.rate == shape.rate


def test_prescribed_paths():
    touch = contact.plain_contact(profile.s1002(), profile.rail_head("60E1", 1 / 40), 0.46)
    options = contact.PathOptions(from_=-2.0, to=2.0)
    kink = layout.DippedJoint(dip_angle=0.01, half_length=1.0, shape=layout.JointShape.kink)
    path = contact.dipped_joint(kink, touch, options)
    found = contact.kinematics(path, None, profile.s1002())
    assert found.dip_angle == pytest.approx(0.01, rel=0.01)
    given = layout.GivenPath(station=[-2.0, 0.0, 2.0], height=[0.0, -0.01, 0.0])
    assert contact.given_path(given, touch, options).landing == pytest.approx(0.0)


def test_the_steps_of_a_run_one_by_one_give_the_run(case, result):
    rolled = study.geometry_of(case)
    modal = track.modal_track(study.track_for(case))
    run = study.run_of(case, rolled)
    history = passage.simulate(study.plan_of(case, rolled, modal), run)
    assert history.force == pytest.approx(result.history.force, abs=1e-6)
    landing = study.landing_station(rolled)
    assert run.probe_station == pytest.approx(landing)
    measures = assess.measure(history, landing, case.measures)
    for key, value in measures.items():
        if value is not None:
            assert value == pytest.approx(result.measures[key], rel=1e-12), key
    assert measures["dip_angle_mrad"] is None  # of the wheel path
    assert measures["p2_kN"] == result.measures["p2_kN"]
    assert measures["peak_nose_kN"] == result.measures["peak_nose_kN"]
    shared = study.result_of(case, modal)
    assert shared.measures["p2_kN"] == pytest.approx(result.measures["p2_kN"])


def test_one_plan_serves_every_speed_and_load(case, result):
    modal = track.modal_track(study.track_for(case))
    begin, end, step = case["passage.from_m"], case["passage.to_m"], 1e-6 * case["passage.step_us"]
    plan = passage.make_plan(
        [result.geometry.path], modal, vehicle.assemble(case.vehicle), case.material, begin, end, step
    )
    speed = case["passage.speed_km_h"] / 3.6
    run = passage.Run(speed=speed, probe_station=study.landing_station(result.geometry))
    # A plan made by hand takes no long steps.
    short = study.result_of(case.vary({"passage.longest_step_us": case["passage.step_us"]}), modal)
    assert passage.simulate(plan, run).force == pytest.approx(short.history.force, abs=1e-6)
    slower = passage.simulate(plan, run.replace(speed=0.5 * speed))
    assert len(slower.time) == pytest.approx(2 * len(result.history.time), abs=2)
    heavier = passage.simulate(plan, run.replace(load=120e3))
    assert heavier.static_load == pytest.approx(120e3)


def test_events_are_in_order_and_name_their_body(result):
    times = [event.time for event in result.history.events]
    assert times == sorted(times)
    landings = [e for e in result.history.events if e.kind is passage.EventKind.touch and e.body == "nose"]
    assert landings


def test_low_pass_keeps_a_constant_and_halves_the_cut_off():
    step, cut_off = 1e-4, 100.0
    time = np.arange(20000) * step
    smooth = assess.low_pass_zero_phase(np.full(1000, 3.0), step, cut_off)
    assert smooth == pytest.approx(3.0)
    passed = assess.low_pass_zero_phase(np.sin(2 * math.pi * cut_off * time), step, cut_off)
    assert np.max(np.abs(passed[8000:12000])) == pytest.approx(0.5, rel=0.01)


def test_closed_forms_beside_a_run(case, result):
    estimates = study.estimates_of(case, result.geometry)
    assert len(estimates) == len(result.estimates) >= 1
    told = study.estimate(case)["closed_form"]
    assert told["p2_kN"].values == pytest.approx([1e-3 * estimate.forces.P2 for estimate in estimates])
    assert estimates[0].forces.P2 > estimates[0].input.static_load
    assert estimates[0].assumptions


def test_case_text_and_references(case, demo_file):
    text = demo_file.read_text(encoding="utf-8")
    parsed = wingnose.parse_case(text, "demo.toml", demo_file.parent)
    assert parsed == case
    assert parsed.all_keys() == case.all_keys()
    assert parsed.vehicle == case.vehicle
    assert "speed_km_h" in wingnose.reference()
    assert "history/force_N" in wingnose.reference()
    assert set(wingnose.quantities) <= {*re.findall(r"\w+", wingnose.reference())}


def test_an_independent_reader_finds_units_on_every_dataset(case, result, tmp_path):
    h5py = pytest.importorskip("h5py")
    target = tmp_path / "r.h5"
    wingnose.run(case, file=target)
    checked = []

    def check(name, item):
        if isinstance(item, h5py.Dataset):
            assert item.attrs["unit"] is not None, name
            assert len(item.attrs["description"]) > 0, name
            checked.append(name)

    with h5py.File(target) as file:
        file.visititems(check)
        assert file["history/force_N"][:] == pytest.approx(result.history.force)
        assert file.attrs["version"] in (wingnose.__version__, wingnose.__version__.encode())
    assert "history/force_N" in checked
    with pytest.raises(wingnose.InputError):
        wingnose.open(tmp_path / "absent.h5")
