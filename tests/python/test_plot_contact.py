"""Sheets of a contact: pressures, outlines and laws are those of the values they are drawn from."""

import matplotlib.pyplot as plt
import numpy as np
import pytest
from drawn import check_sheet, line

import wingnose
from wingnose import contact, plot, profile, sheets, study


@pytest.fixture(autouse=True)
def close_figures():
    yield
    plt.close("all")


@pytest.fixture(scope="module")
def by_law(case):
    return {law: study.contact(case, at="transfer", law=law, cells=48) for law in ("ellipse", "strips", "half-space")}


def forces(found):
    return dict(zip(found["bodies/body"].values, found["bodies/vertical_force_kN"].values, strict=True))


def test_forces_of_the_fields_are_those_of_the_passage(case, result, by_law):
    now = study.instant(case, result, "transfer")
    assert now.loads["wing"] == pytest.approx(now.loads["nose"], rel=0.005)
    for one in by_law.values():
        assert one.attrs["instant"] == "transfer"
        assert float(one["place/station_mm"]) == pytest.approx(now.station * 1e3)
        patches = one["patches"]
        carried = patches["normal_force_kN"].values * np.cos(patches["contact_angle_mrad"].values * 1e-3)
        for body, force in forces(one).items():
            assert force == pytest.approx(now.loads[body] * 1e-3, rel=1e-8)
            assert force == pytest.approx(carried[patches["body"].values == body].sum(), rel=0.01)
            field = one[f"{body}/field"]
            # Rows lie side by side on the surface; their widths in plan are known to the differences of their middles.
            across = field["pressure_MPa"].values.sum(axis=1) * np.gradient(field["y_mm"].values)
            assert across.sum() * np.diff(field["x_mm"].values[:2])[0] * 1e-3 == pytest.approx(force, rel=2e-4)
    with pytest.raises(wingnose.InputError, match='"transfer", "landing" or "peak"'):
        study.instant(case, result, "middle")


def test_a_standing_wheel_shares_its_static_load(case, result):
    standing = study.contact(case, cells=0)
    assert standing.attrs["instant"] == "standing"
    assert sum(forces(standing).values()) == pytest.approx(result.measures["static_load_kN"], rel=1e-6)
    assert not any("field" in standing[body].children for body in forces(standing))
    check_sheet(plot.pressure_across(standing))
    geometry = result.geometry
    at = contact.contact_at(geometry.crossing, geometry.wheel, geometry.kinematics.transfer_station, 90e3, cells=48)
    for body in at.bodies:
        assert body.field.vertical == pytest.approx(body.vertical, rel=2e-5)
    with pytest.raises(wingnose.InputError, match="cells=64"):
        plot.pressure_field(standing)


def test_pressure_field_draws_the_field_and_an_outline_per_law(by_law):
    ax = check_sheet(plot.pressure_field(by_law["half-space"], body="nose", beside=[by_law["strips"], by_law["ellipse"]]))
    pressure = by_law["half-space"]["nose/field/pressure_MPa"].values
    drawn = ax.collections[0].get_array()
    assert np.nanmax(drawn) == pytest.approx(pressure.max())
    assert np.nansum(drawn) == pytest.approx(pressure.sum())
    for law in ("strips", "ellipse"):
        strips = by_law[law]["nose/strips"]
        y, width, ahead, half = (strips[key].values for key in ("y_mm", "width_mm", "ahead_of_axle_mm", "half_length_mm"))
        outline, longest = line(ax, law), int(np.argmax(half))
        assert np.max(outline.get_xdata()) >= (ahead[longest] + half[longest]) * (1 - 1e-12)
        assert np.ptp(outline.get_ydata()) == pytest.approx(y[-1] + width[-1] / 2 - y[0] + width[0] / 2)
        assert f"{strips['pressure_MPa'].values.max():.0f} MPa" in outline.get_label()
    with pytest.raises(wingnose.InputError, match="nose"):
        plot.pressure_field(by_law["half-space"], body="check rail")


def test_pressure_across_shows_every_law(by_law):
    ax = check_sheet(plot.pressure_across(by_law["half-space"], beside=[by_law["strips"], by_law["ellipse"]], body="wing"))
    most = by_law["half-space"]["wing/field/pressure_MPa"].values.max()
    assert np.max(line(ax, "half-space").get_ydata()) == pytest.approx(most)
    assert {text.get_text() for text in ax.get_legend().get_texts()} == {"half-space", "strips", "ellipse"}


def test_deviations_of_the_laws_are_percent_of_the_half_space():
    shifts = np.array([-4e-3, 0.0, 3e-3, 6e-3])
    found = contact.law_deviations(profile.s1002(), profile.rail_head("60E1", 1 / 40), shifts, 90e3, cells=48)
    ax = plot.law_deviations(found)
    check_sheet(ax)
    strips = line(ax, "strips")
    assert strips.get_xdata() == pytest.approx(shifts * 1e3, abs=1e-9)
    assert strips.get_ydata()[1] == pytest.approx(
        100 * (found[1].strips.peak_pressure / found[1].half_space.peak_pressure - 1)
    )
    check_sheet(plot.law_deviations(found, quantity="area"))
    with pytest.raises(ValueError, match="half_width"):
        plot.law_deviations(found, quantity="colour")


def test_creep_laws_tell_how_far_each_is_from_exact_rolling():
    axes = plot.creep_laws(points=4, cells=8)
    assert axes.shape == (2, 3)
    for ax in axes.flat:
        check_sheet(ax)
    ellipse = contact.rolling_contact(6e-3, 6e-3, 80e3)
    exact = line(axes[0, 0], "exact")
    curves = plot.creep_law_differences(ellipse, "longitudinal", exact.get_xdata() * 1e-3, cells=8)
    assert exact.get_ydata() == pytest.approx(curves.forces["exact"])
    for law in ("cubic", "Polach", "simplified"):
        off = np.max(np.abs(curves.forces[law] - curves.forces["exact"]))
        assert line(axes[0, 0], law).get_label() == f"{law}, at most {off:.2f} off"
    # Small creepage: all laws and the exact solver start alike, as the linear theory has it.
    small = plot.creep_law_differences(ellipse, "lateral", [2e-5])
    for law in ("cubic", "Polach", "simplified", "exact"):
        assert small.forces[law][0] == pytest.approx(small.forces["linear"][0], rel=0.06)


def test_sheets_of_a_contact_file(case, demo_file, tmp_path, capsys, by_law):
    target = tmp_path / "contact.h5"
    study.contact(case, at="transfer", cells=48, file=target)
    found = wingnose.open(target)
    assert (found.attrs["law"], found.attrs["instant"]) == ("strips", "transfer")
    for path in ("nose/field/pressure_MPa", "wing/strips/pressure_MPa", "bodies/vertical_force_kN"):
        assert np.array_equal(found[path].values, by_law["strips"][path].values)
    assert sheets.main([str(target), str(tmp_path)]) == 0
    names = {path.rsplit("/", 1)[-1] for path in capsys.readouterr().out.split()}
    assert names == {f"contact_{kind}_{body}.png" for kind in ("pressure", "across") for body in ("wing", "nose")}
    with pytest.raises(wingnose.InputError):
        plot.pressure_across(demo_file)
