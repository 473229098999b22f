"""Sheets of damage show what the answer holds."""

import matplotlib.pyplot as plt
import numpy as np
import pytest
from drawn import check_sheet, with_grave, words

import wingnose
from wingnose import InputError, assess, plot, sheets, study
from wingnose._reading import contacts_of, maps_of

STAGES = 4


@pytest.fixture(autouse=True)
def close_figures():
    yield
    plt.close("all")


@pytest.fixture(scope="module")
def manganese(case, tmp_path_factory):
    target = tmp_path_factory.mktemp("mn") / "mn.h5"
    study.damage(case.vary({"damage.steel": "Mn"}), tonnage=3e9, stages=STAGES, file=target)
    return target


@pytest.fixture(scope="module")
def rail_steel(case):
    return study.damage(case.vary({"damage.steel": "R350HT"}), tonnage=3e9, stages=STAGES)


def test_maps_and_contacts_are_those_of_the_computed_damage(case, result, manganese):
    found = wingnose.open(manganese)
    trail = study.contact_trail(case, result)
    on_nose = trail.body == trail.bodies.index("nose")
    x, pressure = contacts_of(found, "nose", "x_mm", "peak_pressure_MPa")
    assert x == pytest.approx(trail.x[on_nose] * 1e3)
    assert pressure == pytest.approx(trail.peak_pressure[on_nose] * 1e-6)
    assert list(maps_of(found, "wear_depth_um")) == ["wing", "nose"]
    assert found["traffic/stages/wheels"].size == STAGES
    yields = found["traffic/contacts/shear_yield_MPa"].values
    assert np.all(np.diff(yields, axis=0) >= 0.0) and yields[-1].max() > float(found["steel/shear_yield_MPa"])


def test_what_an_answer_does_not_hold_is_told(manganese, case):
    found = wingnose.open(manganese)
    with pytest.raises(InputError, match="no map.*wear_depth_um"):
        plot.damage_map(found, "wear")
    with pytest.raises(InputError, match="traffic where there was one"):
        plot.damage_map(study.damage(case), part="traffic")
    with pytest.raises(InputError, match="holds a run; allowed: damage"):
        plot.shakedown(wingnose.run(case))
    with pytest.raises(InputError, match="no course.*t_gamma_N"):
        plot.along(found, "t_gamma")


@pytest.mark.parametrize("quantity", ["peak_pressure_MPa", "wheels_beyond_shakedown", "wear_depth_um",
                                      "friction_energy_J_mm2"])  # fmt: skip
def test_maps_are_drawn_with_both_bodies_and_their_running_edges(manganese, quantity):
    ax = check_sheet(plot.damage_map(manganese, quantity))
    assert "3 MGT" in ax.get_title(loc="left")
    labels = [line.get_label() for line in ax.get_lines()]
    assert labels == ["running edge of the wing", "running edge of the nose"]
    found = wingnose.open(manganese)
    wheels = float(found["traffic/wheels"])
    for mesh, one in zip(ax.collections, maps_of(found, quantity, "traffic").values(), strict=True):
        drawn = np.ma.filled(mesh.get_array(), np.nan).reshape(mesh.get_coordinates().shape[0] - 1, -1).T
        expected = one.values
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
    assert names >= {"peak_pressure_map", "wear_depth_map", "friction_energy_map", "wheels_beyond_shakedown_map", "shakedown",
                     "nose_surface_fatigue_index", "nose_peak_pressure", "nose_t_gamma"}  # fmt: skip
    assert all(path.stat().st_size > 10_000 for path in written)


def test_wear_and_energy_are_drawn_over_three_decades_that_end_at_the_largest(manganese):
    for quantity in ("wear_depth_um", "friction_energy_J_mm2"):
        ax = check_sheet(plot.damage_map(manganese, quantity, part="passage"))
        mesh = ax.collections[0]
        found = wingnose.open(manganese)
        most = max(one.values.max() for one in maps_of(found, quantity).values())
        scale = 1e3 if quantity == "wear_depth_um" else 1.0  # drawn in nm
        assert mesh.norm.vmax == pytest.approx(most * scale)
        assert mesh.norm(mesh.norm.vmax / 10.0) == pytest.approx(2.0 / 3.0)


def test_t_gamma_has_the_limits_of_the_crack_function_that_it_comes_near_to(manganese):
    def limits(ax):
        return {line.get_ydata()[0] for line in ax.get_lines() if "cracks" in line.get_label()}

    function = assess.CrackFunction()
    t_gamma = contacts_of(wingnose.open(manganese), "nose", "t_gamma_N")[0].max()
    assert t_gamma > function.balance
    assert limits(check_sheet(plot.along(manganese, "t_gamma_N"))) == {function.threshold, function.balance}
    assert limits(check_sheet(plot.along(manganese, "t_gamma_N", body="wing"))) == set()


def test_wheels_of_a_traffic_are_drawn_class_by_class_with_their_shares(case, tmp_path):
    wheels = study.Wheels({"class": ["light", "heavy", "light"], "weight": [3.0, 1.0, 1.0],
                           "wheel.lateral_offset_mm": [-2.0, 0.0, 2.0]}, {"light": case, "heavy": case})  # fmt: skip
    mix = study.damage(case.vary({"damage.steel": "R260"}), tonnage=1e9, stages=1, wheels=wheels, file=tmp_path / "mix.h5")
    ax = check_sheet(plot.traffic_shares(tmp_path / "mix.h5", "t_gamma_N"))
    lines = {line.get_label(): line for line in ax.get_lines()}
    assert list(lines) == ["all wheels", "light", "heavy"]
    values = mix["traffic/population/t_gamma_N"].values
    light = lines["light"]
    assert light.get_xdata()[1:] == pytest.approx(sorted([values[0], values[2]]))
    assert light.get_ydata()[-1] == pytest.approx(100.0)
    first = 75.0 if values[0] < values[2] else 25.0  # three such wheels against one
    assert light.get_ydata()[1] == pytest.approx(first)
    assert lines["all wheels"].get_xdata()[-1] == pytest.approx(max(values))
    written = {path.stem.removeprefix("mix_") for path in sheets.draw(tmp_path / "mix.h5", tmp_path)}
    assert "traffic_shakedown_exceedance" in written
    with pytest.raises(InputError, match="not told wheel by wheel.*t_gamma_N"):
        plot.traffic_shares(mix, "wear")


def test_shares_need_a_mixed_traffic(manganese):
    with pytest.raises(InputError, match="no wheels of a mixed traffic.*--traffic"):
        plot.traffic_shares(manganese)


def test_figures_of_several_answers_say_what_is_grave_in_any_of_them(manganese, rail_steel):
    said = "Grave: flange contact; see the findings first"
    assert said in words(check_sheet(plot.along([manganese, with_grave(rail_steel)], "t_gamma_N")))
    for draw in (plot.damage_map, plot.shakedown, plot.along):
        assert said in words(draw(with_grave(rail_steel))) and said not in words(draw(rail_steel))


def test_sheets_of_a_joint_are_of_its_rail(demo_file, tmp_path):
    joint = wingnose.read_case(demo_file.with_name("dipped_joint.toml")).vary({"damage.steel": "R260"})
    study.damage(joint, file=tmp_path / "joint.h5")
    names = {path.stem for path in sheets.draw(tmp_path / "joint.h5", tmp_path)}
    assert "joint_path_peak_pressure" in names and not any("nose" in name for name in names)
    ax = plot.along(tmp_path / "joint.h5", "peak_pressure_MPa", body="path")
    assert np.nanmax(ax.get_lines()[0].get_ydata()) > 100.0
    assert plot.damage_map(tmp_path / "joint.h5").get_legend() is None  # no running edge to name
