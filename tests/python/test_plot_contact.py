"""Sheets of a contact: pressures, outlines and laws are those of the values they are drawn from."""

import re
import subprocess

import matplotlib.pyplot as plt
import numpy as np
import pytest
from matplotlib.axes import Axes

import wingnose
from wingnose import contact, plot, profile, sheets, stored, study


@pytest.fixture(autouse=True)
def close_figures():
    yield
    plt.close("all")


@pytest.fixture(scope="module")
def by_law(case, result):
    return {law: study.contact_at_instant(case, result, "transfer", law=law, cells=48)
            for law in ("ellipse", "strips", "half-space")}  # fmt: skip


def line(ax, start):
    return next(item for item in ax.get_lines() if item.get_label().startswith(start))


def check_sheet(ax):
    assert isinstance(ax, Axes)
    for label in (ax.get_xlabel(), ax.get_ylabel()):
        assert re.search(r"\[[^\]]+\]$", label), label
    cautions = [text for text in ax.get_figure().texts if text.get_text() == wingnose.CAUTION]
    assert len(cautions) == 1


def test_forces_of_the_fields_are_those_of_the_passage(case, result, by_law):
    now = study.instant(case, result, "transfer")
    assert now.loads["wing"] == pytest.approx(now.loads["nose"], rel=0.005)
    for one in by_law.values():
        assert one.instant == "transfer"
        assert one.station == now.station
        for body in one.bodies:
            assert body.vertical == pytest.approx(now.loads[body.body], rel=1e-8)
            assert body.field.vertical == pytest.approx(now.loads[body.body], rel=2e-5)
            assert body.vertical == pytest.approx(
                sum(patch.force * np.cos(patch.angle) for patch in one.patches if patch.body == body.body), rel=0.01
            )
    with pytest.raises(wingnose.InputError, match="transfer, landing or peak"):
        study.instant(case, result, "middle")


def test_a_standing_wheel_shares_its_static_load(case, result):
    standing = study.contact_standing(case, result.geometry, cells=0)
    assert standing.instant == ""
    assert sum(body.vertical for body in standing.bodies) == pytest.approx(result.measures.static_load, rel=1e-6)
    assert all(body.field is None for body in standing.bodies)
    with pytest.raises(ValueError, match="cells=64"):
        plot.pressure_field(standing)


def test_pressure_field_draws_the_field_and_an_outline_per_law(by_law):
    ax = plot.pressure_field(by_law["half-space"], body="nose", beside=[by_law["strips"], by_law["ellipse"]])
    check_sheet(ax)
    nose = next(body for body in by_law["half-space"].bodies if body.body == "nose")
    drawn = ax.collections[0].get_array()
    assert np.nanmax(drawn) == pytest.approx(nose.field.pressure.max() * 1e-6)
    assert np.nansum(drawn) == pytest.approx(nose.field.pressure.sum() * 1e-6)
    for law in ("strips", "ellipse"):
        strips = next(body for body in by_law[law].bodies if body.body == "nose").strips
        outline = line(ax, law)
        longest = max(strips, key=lambda strip: strip.half_length)
        assert np.max(outline.get_xdata()) >= (longest.dx + longest.half_length) * 1e3 * (1 - 1e-12)
        assert np.ptp(outline.get_ydata()) == pytest.approx(
            (strips[-1].y + strips[-1].width / 2 - strips[0].y + strips[0].width / 2) * 1e3
        )
        assert f"{max(strip.pressure for strip in strips) * 1e-6:.0f} MPa" in outline.get_label()
    with pytest.raises(ValueError, match="nose"):
        plot.pressure_field(by_law["half-space"], body="check rail")


def test_pressure_across_shows_every_law(by_law):
    ax = plot.pressure_across(by_law["half-space"], beside=[by_law["strips"], by_law["ellipse"]], body="wing")
    check_sheet(ax)
    wing = next(body for body in by_law["half-space"].bodies if body.body == "wing")
    assert np.max(line(ax, "half-space").get_ydata()) == pytest.approx(wing.field.peak_pressure * 1e-6)
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


def test_sheets_and_reader_of_a_contact_file(command_line, demo_file, tmp_path, capsys, by_law):
    target = tmp_path / "contact.h5"
    subprocess.run(
        [command_line, "contact", demo_file, "--at", "transfer", "--cells", "48", "-o", target],
        check=True, capture_output=True,
    )  # fmt: skip
    found = stored.read_contact(target)
    assert (found.law, found.instant) == ("strips", "transfer")
    assert found.force == pytest.approx(by_law["strips"].vertical * 1e-3)
    for body in found.bodies:
        ours = next(one for one in by_law["strips"].bodies if one.body == body.body)
        assert body.field.pressure == pytest.approx(ours.field.pressure * 1e-6, rel=1e-6, abs=1e-3)
        assert body.vertical == pytest.approx(ours.vertical * 1e-3)
    assert sheets.main([str(target), str(tmp_path)]) == 0
    names = {path.rsplit("/", 1)[-1] for path in capsys.readouterr().out.split()}
    assert names == {f"contact_{kind}_{body}.png" for kind in ("pressure", "across") for body in ("wing", "nose")}
    with pytest.raises(wingnose.InputError):
        stored.read_contact(demo_file)
