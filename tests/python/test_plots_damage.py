"""Damage read back from its file, and its sheets."""

import matplotlib.pyplot as plt
import numpy as np
import pytest
from matplotlib.axes import Axes

import wingnose
from wingnose import InputError, assess, io, plot, sheets, stored, study

STAGES = 4


@pytest.fixture(autouse=True)
def close_figures():
    yield
    plt.close("all")


def store(target, case, result, steel, tonnage):
    trail = study.contact_trail(case, result)
    mix = assess.for_tonnage([assess.TrafficWheel(trail, 1.0, result.history.static_load)], tonnage)
    traffic = assess.damage_of_traffic(mix, steel, case.damage, stages=STAGES)
    damage = assess.damage(trail, steel, case.damage)
    report = io.DamageReport(steel=steel, options=case.damage, trail=trail, damage=damage, traffic=traffic,
                             tonnage=tonnage)  # fmt: skip
    io.write_damage(target, case, report)
    return target


@pytest.fixture(scope="module")
def manganese(case, result, tmp_path_factory):
    return store(tmp_path_factory.mktemp("mn") / "mn.h5", case, result, assess.steel("Mn"), 3e9)


@pytest.fixture(scope="module")
def rail_steel(case, result, tmp_path_factory):
    return store(tmp_path_factory.mktemp("ht") / "ht.h5", case, result, assess.steel("R350HT"), 3e9)


def check_sheet(ax):
    assert isinstance(ax, Axes)
    assert ax.get_xlabel() and ax.get_ylabel() and ax.get_title(loc="left")
    assert any(wingnose.CAUTION in text.get_text() for text in ax.figure.texts)
    ax.figure.canvas.draw()
    return ax


def test_a_file_is_read_back_with_its_maps_contacts_and_stages(case, result, manganese):
    found = stored.read_damage(manganese)
    assert stored.kind_of(manganese) == "damage"
    assert (found.name, found.steel, found.has_traffic) == (case.name, "Mn", True)
    assert found.bodies == ["wing", "nose"]
    trail = study.contact_trail(case, result)
    on_nose = trail.body == trail.bodies.index("nose")
    x, pressure = found.contacts("nose", "x_mm", "peak_pressure_MPa")
    assert x == pytest.approx(trail.x[on_nose] * 1e3)
    assert pressure == pytest.approx(trail.peak_pressure[on_nose] * 1e-6)
    one = found.map("nose", "wear_depth_um", part="passage")
    assert one.values.shape == (one.x.size, one.y.size) and one.unit == "um"
    assert found.stages["wheels"].size == STAGES
    yields = found.in_stages("nose", "shear_yield_MPa")
    assert yields.shape == (STAGES, x.size)
    assert np.all(np.diff(yields, axis=0) >= 0.0) and yields[-1].max() > found.shear_yield
    measures = {measure.key: measure for measure in found.measures()}
    assert measures["peak_pressure_MPa"].value == pytest.approx(found.contacts(None, "peak_pressure_MPa")[0].max())
    assert {measure.key for measure in found.measures("traffic")} >= {"wheels", "tonnage_MGT"}
    assert found.notes and found.trust


def test_maps_come_as_datasets_with_units(manganese):
    pytest.importorskip("xarray")
    found = stored.read_damage(manganese).maps(part="traffic")
    nose = found["nose"]
    assert nose["wear_depth_um"].dims == ("x_mm", "y_mm")
    assert nose["friction_energy_J_mm2"].attrs["units"] == "J/mm2"
    assert float(nose["wheels"].max()) > 1.0


def test_what_a_file_does_not_hold_is_told(manganese, result, case, tmp_path):
    found = stored.read_damage(manganese)
    with pytest.raises(InputError, match="no map.*wear_depth_um"):
        found.map("nose", "wear")
    with pytest.raises(InputError, match="no column"):
        found.contacts("nose", "pressure")
    wingnose.write_result(tmp_path / "run.h5", case, result)
    with pytest.raises(InputError, match="holds a run"):
        stored.read_damage(tmp_path / "run.h5")
    with pytest.raises(InputError, match="no course.*t_gamma_N"):
        plot.along(found, "t_gamma")


@pytest.mark.parametrize("quantity", ["peak_pressure_MPa", "wheels_beyond_shakedown", "wear_depth_um",
                                      "friction_energy_J_mm2"])  # fmt: skip
def test_maps_are_drawn_with_both_bodies_and_their_running_edges(manganese, quantity):
    ax = check_sheet(plot.damage_map(manganese, quantity))
    assert "3 MGT" in ax.get_title(loc="left")
    labels = [line.get_label() for line in ax.get_lines()]
    assert labels == ["running edge of the wing", "running edge of the nose"]
    found = stored.read_damage(manganese)
    for mesh, body in zip(ax.collections, found.bodies, strict=True):
        drawn = np.ma.filled(mesh.get_array(), np.nan).reshape(mesh.get_coordinates().shape[0] - 1, -1).T
        expected = found.map(body, quantity, part="traffic").values
        wheels = {measure.key: measure.value for measure in found.measures("traffic")}["wheels"]
        if quantity == "wheels_beyond_shakedown":
            expected = expected * 1e-3  # thousand
        elif quantity == "wear_depth_um":
            expected = expected * 1e3 / wheels  # nm per wheel
        elif quantity == "friction_energy_J_mm2":
            expected = expected / wheels
        assert np.nanmax(drawn) == pytest.approx(expected.max())
    low, high = ax.get_xlim()
    assert low < 440.0 < high


def test_the_shakedown_diagram_shows_the_limits_of_the_code_and_every_contact(manganese, case, result):
    ax = check_sheet(plot.shakedown(manganese))
    limit = next(line for line in ax.get_lines() if line.get_label() == "elastic shakedown")
    assert limit.get_ydata() == pytest.approx(assess.ShakedownMap().elastic_shakedown(limit.get_xdata()))
    trail = study.contact_trail(case, result)
    along = assess.steel_along(trail, assess.steel("Mn"), case.damage)
    points = np.concatenate([dots.get_offsets() for dots in ax.collections])
    assert len(points) == len(trail)
    assert points[:, 1].max() == pytest.approx(along.load_factor.max())
    assert ax.get_ylim()[1] > along.load_factor.max()


def test_two_steels_are_drawn_along_the_nose_and_the_one_that_hardens_in_stages(manganese, rail_steel):
    ax = check_sheet(plot.along([manganese, rail_steel], "shakedown_exceedance"))
    labels = [text.get_text() for text in ax.get_legend().get_texts()]
    assert any(label.startswith("Mn, after") for label in labels) and "R350HT" in labels
    by_label = {line.get_label(): line for line in ax.get_lines()}
    after = next(line for label, line in by_label.items() if label.startswith("Mn, after"))
    assert np.nanmax(after.get_ydata()) < np.nanmax(by_label["Mn, new"].get_ydata())
    same = check_sheet(plot.along(manganese, "t_gamma_N"))  # does not depend on the steel
    courses = [line.get_label() for line in same.get_lines() if "R260" not in line.get_label()]
    assert courses == ["Mn"]


def test_sheets_of_a_damage_file_are_drawn(manganese, tmp_path):
    written = sheets.draw(manganese, tmp_path)
    names = {path.stem.removeprefix("mn_") for path in written}
    assert names >= {"pressure_map", "wear_map", "energy_map", "shakedown_map", "shakedown", "nose_fatigue_index",
                     "nose_pressure", "nose_t_gamma"}  # fmt: skip
    assert all(path.stat().st_size > 10_000 for path in written)


def test_wear_and_energy_are_drawn_over_three_decades_that_end_at_the_largest(manganese):
    for quantity in ("wear_depth_um", "friction_energy_J_mm2"):
        ax = check_sheet(plot.damage_map(manganese, quantity, part="passage"))
        mesh = ax.collections[0]
        found = stored.read_damage(manganese)
        most = max(found.map(body, quantity).values.max() for body in found.bodies)
        scale = 1e3 if quantity == "wear_depth_um" else 1.0  # drawn in nm
        assert mesh.norm.vmax == pytest.approx(most * scale)
        assert mesh.norm(mesh.norm.vmax / 10.0) == pytest.approx(2.0 / 3.0)


def test_t_gamma_has_the_limits_of_the_crack_function_that_it_comes_near_to(manganese):
    def limits(ax):
        return {line.get_ydata()[0] for line in ax.get_lines() if "cracks" in line.get_label()}

    function = assess.CrackFunction()
    t_gamma = stored.read_damage(manganese).contacts("nose", "t_gamma_N")[0].max()
    assert t_gamma > function.balance
    assert limits(check_sheet(plot.along(manganese, "t_gamma_N"))) == {function.threshold, function.balance}
    assert limits(check_sheet(plot.along(manganese, "t_gamma_N", body="wing"))) == set()


def test_wheels_of_a_traffic_are_drawn_class_by_class_with_their_shares(case, demo_file, result, tmp_path):
    members = [study.Member(name=f"{shift:g}", wheel_class=number % 2, weight=weight,
                            values={"wheel.lateral_offset_mm": shift})
               for number, (shift, weight) in enumerate([(-2.0, 3.0), (0.0, 1.0), (2.0, 1.0)])]  # fmt: skip
    population = study.Population(classes=[study.WheelClass(name="light"), study.WheelClass(name="heavy")],
                                  members=members)  # fmt: skip
    mix = study.traffic(io.read_case_document(demo_file), population, tonnage=1e9, stages=1, steel=assess.steel("R260"))
    trail = study.contact_trail(case, result)
    damage = assess.damage(trail, assess.steel("R260"), case.damage)
    io.write_damage(tmp_path / "mix.h5", case,
                    io.DamageReport(steel=mix.steel, options=case.damage, trail=trail, damage=damage, mix=mix))  # fmt: skip
    ax = check_sheet(plot.traffic_shares(tmp_path / "mix.h5", "t_gamma_N"))
    lines = {line.get_label(): line for line in ax.get_lines()}
    assert list(lines) == ["all wheels", "light", "heavy"]
    values = [member.t_gamma for member in mix.members]
    light = lines["light"]
    assert light.get_xdata()[1:] == pytest.approx(sorted([values[0], values[2]]))
    assert light.get_ydata()[-1] == pytest.approx(100.0)
    first = 75.0 if values[0] < values[2] else 25.0  # three such wheels against one
    assert light.get_ydata()[1] == pytest.approx(first)
    assert lines["all wheels"].get_xdata()[-1] == pytest.approx(max(values))
    written = {path.stem.removeprefix("mix_") for path in sheets.draw(tmp_path / "mix.h5", tmp_path)}
    assert "traffic_shakedown" in written


def test_shares_need_a_mixed_traffic_and_a_quantity_told_wheel_by_wheel(manganese):
    with pytest.raises(InputError, match="no wheels of a mixed traffic.*--traffic"):
        plot.traffic_shares(manganese)
    with pytest.raises(InputError, match="not told wheel by wheel.*t_gamma_N"):
        plot.traffic_shares(manganese, "wear")


def test_sheets_of_a_joint_are_of_its_rail(demo_file, tmp_path):
    joint = wingnose.read_case(demo_file.with_name("dipped_joint.toml"))
    store(tmp_path / "joint.h5", joint, wingnose.run(joint), assess.steel("R260"), 1e9)
    names = {path.stem for path in sheets.draw(tmp_path / "joint.h5", tmp_path)}
    assert "joint_path_pressure" in names and not any("nose" in name for name in names)
    ax = plot.along(tmp_path / "joint.h5", "peak_pressure_MPa", body="path")
    assert np.nanmax(ax.get_lines()[0].get_ydata()) > 100.0
    assert plot.damage_map(tmp_path / "joint.h5").get_legend() is None  # no running edge to name
