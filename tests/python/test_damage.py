"""What a landing does to the steel, from Python."""

import h5py
import numpy as np
import pytest

import wingnose
from wingnose import InputError, assess, study


@pytest.fixture(scope="module")
def options():
    return assess.DamageOptions()


@pytest.fixture(scope="module")
def trail(case, result, options):
    landing = wingnose.study.landing_station(result.geometry)
    return assess.contact_trail(result.history, result.geometry.path, case.profile, landing, case.material, options)


@pytest.fixture(scope="module")
def damage(trail, options):
    return assess.damage(trail, assess.steel("R350HT"), options)


def test_a_grade_is_known_by_name_and_a_misspelt_one_is_answered_with_the_list():
    assert "R260" in assess.steel_names()
    steel = assess.steel("R350HT")
    assert steel.hardness == pytest.approx(assess.from_brinell(350))
    assert assess.shear_yield(steel) == pytest.approx(steel.proof_stress / np.sqrt(3))
    with pytest.raises(InputError, match="R350TH.*R350HT"):
        assess.steel("R350TH")


def test_manganese_steel_hardens_between_its_two_states_and_rail_steel_does_not():
    wheels = np.linspace(0.0, 1e6, 50)
    manganese = assess.steel("Mn")
    yields = assess.shear_yield(manganese, wheels)
    assert np.all(np.diff(yields) > 0)
    assert yields[0] < yields[-1] <= manganese.hardening.shear_yield
    assert np.ptp(assess.shear_yield(assess.steel("R260"), wheels)) == 0.0


def test_a_steel_of_ones_own_is_checked_where_it_is_used(trail, options):
    soft = assess.Steel(name="lead", proof_stress=10e6, tensile_strength=20e6, hardness=50e6)
    with pytest.raises(InputError, match="lead.*50 to 5000 MPa"):
        assess.damage(trail, soft, options)


def test_laws_answer_arrays_as_they_answer_numbers():
    limits = assess.ShakedownMap()
    traction = np.linspace(0.0, 0.6, 13)
    together = limits.elastic_shakedown(traction)
    assert together == pytest.approx([limits.elastic_shakedown(f) for f in traction])
    assert np.all(limits.first_yield(traction) <= together + 1e-12)
    function = assess.CrackFunction()
    top = assess.crack_damage(np.array([function.threshold, function.peak, function.balance]), function)
    assert top == pytest.approx([0.0, function.top, 0.0], abs=1e-18)
    half_length, half_width, force, shear_yield = 6e-3, 5e-3, 100e3, 400e6
    pressure = 1.5 * force / (np.pi * half_length * half_width)
    index = assess.surface_fatigue_index(0.3, half_length, half_width, shear_yield, force)
    assert index == pytest.approx(0.3 - shear_yield / pressure)
    coefficient = assess.wear_coefficient(0.4, 1e9, 3e9)
    assert coefficient == assess.WearMap().wear_severe
    assert assess.archard_volume(coefficient, 1e5, 0.1, 3e9) == pytest.approx(coefficient * 1e5 * 0.1 / 3e9)
    assert assess.energy_wear_rate(5e6) > 0.0


def test_columns_of_contacts_are_views_that_cannot_be_written_to(trail):
    assert len(trail) == trail.x.size == trail.body.size == trail.peak_pressure.size
    assert set(np.unique(trail.body)) <= set(range(len(trail.bodies)))
    assert not trail.x.flags.writeable
    with pytest.raises(ValueError, match="read-only"):
        trail.normal_force[0] = 0.0
    kept = trail.normal_force
    assert kept.base is not None
    hertz = 1.5 * trail.normal_force / (np.pi * trail.half_length * trail.half_width)
    assert trail.peak_pressure == pytest.approx(hertz)


def test_columns_outlive_the_trail(case, result):
    landing = wingnose.study.landing_station(result.geometry)
    column = assess.contact_trail(result.history, result.geometry.path, case.profile, landing).normal_force
    again = assess.contact_trail(result.history, result.geometry.path, case.profile, landing).normal_force
    assert np.array_equal(column, again)


def test_energy_of_the_maps_is_that_of_the_contacts_and_the_total(trail, damage):
    of_maps = sum(map_.friction_energy.sum() * map_.cell_area for map_ in damage.maps)
    assert of_maps == pytest.approx(damage.friction_energy, rel=1e-9)
    assert float((trail.friction_power * trail.duration).sum()) == pytest.approx(damage.friction_energy, rel=1e-9)
    worn = sum(map_.wear_depth.sum() * map_.cell_area for map_ in damage.maps)
    assert worn == pytest.approx(damage.wear_volume, rel=1e-9)


def test_maps_are_arrays_of_stations_and_lateral_places(damage):
    assert [map_.body for map_ in damage.maps] == ["wing", "nose"]
    for map_ in damage.maps:
        assert map_.peak_pressure.shape == (map_.x.size, map_.y.size)
        assert not map_.wear_depth.flags.writeable
        assert np.all(np.diff(map_.x) > 0) and np.all(np.diff(map_.y) > 0)
    nose = damage.maps[1]
    i, _ = np.unravel_index(nose.peak_pressure.argmax(), nose.peak_pressure.shape)
    body, x, _, _ = damage.places["peak_pressure_MPa"]
    assert body in ("wing", "nose")
    if body == "nose":
        assert nose.x[i] == pytest.approx(x, abs=0.01)


def test_contact_by_contact_the_largest_values_are_the_peaks(trail, damage, options):
    along = assess.steel_along(trail, assess.steel("R350HT"), options)
    told = {"load_factor": "load_factor", "shakedown": "shakedown_exceedance", "fatigue_index": "surface_fatigue_index",
            "t_gamma": "t_gamma_N", "crack_damage": "crack_damage_1e_6", "traction": "traction_coefficient"}  # fmt: skip
    for name, key in told.items():
        values = getattr(along, name)
        assert values.size == len(trail)
        assert values.max() * wingnose.quantities[key].per_si == damage.measures[key]
    assert along.shakedown == pytest.approx(along.load_factor / along.shakedown_limit)


def test_twice_the_wheels_do_twice_the_damage_to_a_steel_that_does_not_harden(trail, damage):
    steel = assess.steel("R350HT")
    options = assess.DamageOptions(wear_depth_limit=1.0)
    once = assess.damage_of_traffic([assess.TrafficWheel(trail, 1000.0)], steel, options, stages=3)
    twice = assess.damage_of_traffic([assess.TrafficWheel(trail, 2000.0)], steel, options)
    assert once.friction_energy == pytest.approx(1000.0 * damage.friction_energy)
    assert twice.wear_volume == pytest.approx(2.0 * once.wear_volume)
    for one, two in zip(once.maps, twice.maps, strict=True):
        assert two.wear_depth == pytest.approx(2.0 * one.wear_depth)
        assert np.array_equal(two.peak_pressure, one.peak_pressure)
    assert len(once.stages) == 3


def test_traffic_hardens_manganese_steel_where_it_rolls(trail, options):
    traffic = [assess.TrafficWheel(trail, 100e3)]
    told = assess.damage_of_traffic(traffic, assess.steel("Mn"), options, stages=4)
    yields = [stage.shear_yield for stage in told.stages]
    assert yields == sorted(yields) and yields[0] < yields[-1]
    later = assess.steel_along(trail, assess.steel("Mn"), options, before=told.maps)
    half = assess.steel_along(trail, assess.steel("Mn"), options, before=told.maps, share=0.5)
    fresh = assess.steel_along(trail, assess.steel("Mn"), options)
    assert np.all(later.shear_yield >= half.shear_yield) and np.all(half.shear_yield >= fresh.shear_yield)
    assert later.shakedown.max() < fresh.shakedown.max()
    again = assess.damage(trail, assess.steel("Mn"), options, before=told.maps)
    assert again.measures["shakedown_exceedance"] == later.shakedown.max()


def test_a_tonnage_is_that_of_all_axles(trail, result):
    load = result.history.static_load
    (scaled,) = assess.for_tonnage([assess.TrafficWheel(trail, 1.0, load)], 1e9)
    assert scaled.wheels * 2.0 * load / 9.81 == pytest.approx(1e9)
    with pytest.raises(InputError, match="load of every wheel"):
        assess.for_tonnage([assess.TrafficWheel(trail)], 1e9)
    with pytest.raises(TypeError):
        assess.TrafficWheel(None)


def test_options_out_of_range_are_told_with_value_and_range(trail, options):
    with pytest.raises(InputError, match="friction: 1.5.*0 to 1"):
        assess.damage(trail, assess.steel("R260"), options.replace(friction=1.5))
    with pytest.raises(InputError, match="stages of the traffic.*0.*1 to 1000"):
        assess.damage_of_traffic([assess.TrafficWheel(trail)], assess.steel("R260"), stages=0)
    with pytest.raises(InputError, match="2 bodies"):
        assess.damage(trail, assess.steel("Mn"), options, before=[])


def test_an_answer_tells_and_stores_what_the_steps_compute(case, result, trail, damage, options, tmp_path):
    steel = assess.steel("R350HT")
    mix = assess.for_tonnage([assess.TrafficWheel(trail, 1.0, result.history.static_load)], 2e9)
    traffic = assess.damage_of_traffic(mix, steel, options, stages=2)
    file = tmp_path / "damage.h5"
    told = study.damage(case, tonnage=2e9, stages=2, file=file)
    assert told["steel/name"] == "R350HT"
    assert float(told["measures/friction_energy_J"]) == pytest.approx(damage.friction_energy, rel=1e-5)
    assert float(told["traffic/wheels"]) == pytest.approx(traffic.wheels, rel=1e-5)
    assert float(told["traffic/tonnage_MGT"]) == pytest.approx(2.0)
    assert told.attrs["caution"] == wingnose.CAUTION
    with h5py.File(file) as opened:
        depth = opened["passage/nose/wear_depth_um"][()]
        assert depth * 1e-6 == pytest.approx(damage.maps[1].wear_depth)
    assert wingnose.open(file)["traffic/wheels"] == told["traffic/wheels"]


def test_a_case_names_its_steel_and_options_and_study_joins_them(case, result, trail):
    assert case.steel == assess.steel("R350HT")
    assert case["damage.steel"] == "R350HT"
    assert np.array_equal(study.contact_trail(case, result).peak_pressure, trail.peak_pressure)
    manganese = case.replace(steel=assess.steel("Mn")).vary({"damage.friction": 0.1})
    told = study.steel_damage(manganese, result).measures
    assert told["load_factor"] > study.steel_damage(case, result).measures["load_factor"]
    assert told["traction_coefficient"] <= 0.1 + 1e-9


def wheels(offsets, weights):
    names = [f"at {offset:g}" for offset in offsets]
    return study.Wheels({"name": names, "weight": weights, "wheel.lateral_offset_mm": offsets})


def test_a_mixed_traffic_rolls_wheel_by_wheel_and_names_those_that_failed(case, tmp_path):
    told = []
    manganese = case.vary({"damage.steel": "Mn"})
    found = study.damage(manganese, tonnage=1e9, stages=2, wheels=wheels([-2.0, 1.0, 1000.0], [1.0, 2.0, 1.0]),
                         progress=lambda *done: told.append(done), file=tmp_path / "mix.h5")  # fmt: skip
    assert told and told[-1][0] == told[-1][1]
    traffic, members = found["traffic"], found["traffic/population"]
    assert traffic["failed"] == 1
    assert float(traffic["failed_share"]) == pytest.approx(0.25)
    assert members["failure"].values[2]
    assert members["wheels"].values[2] == 0.0
    assert members["wheels"].values[1] == pytest.approx(2.0 * members["wheels"].values[0])
    assert any("at 1000" in str(finding) for finding in wingnose.findings(found))
    energy = float((members["wheels"] * members["friction_energy_J"])[:2].sum())
    maps = [found[f"traffic/{body}"] for body in ("wing", "nose")]
    of_maps = sum(float(node["friction_energy_J_mm2"].sum()) * cell_mm2(node) for node in maps)
    assert energy == pytest.approx(of_maps)
    assert float(traffic["tonnage_MGT"]) == pytest.approx(1.0)
    with h5py.File(tmp_path / "mix.h5") as opened:
        assert opened["traffic/population/wheels"][()] == pytest.approx(members["wheels"].values)


def cell_mm2(node):
    return float(np.diff(node["x_mm"])[0] * np.diff(node["y_mm"])[0])


def test_wheels_of_a_file_are_those_of_a_comparison_without_crossings(demo_file, tmp_path):
    file = demo_file.with_name("traffic.toml")
    population = study.read_wheels(file)
    assert f"count = {len(population)}\n" in file.read_text(encoding="utf-8")
    assert len({row["class"] for row in population.table}) == 3
    listed = tmp_path / "wheels.toml"
    listed.write_text("[[wheel]]\nweight = 1\n", encoding="utf-8")
    assert len(study.read_wheels(listed)) == 1
    listed.write_text("[compare]\nseed = 1\n[population]\ncount = 2\n", encoding="utf-8")
    with pytest.raises(InputError, match="belongs to a comparison"):
        study.read_wheels(listed)
