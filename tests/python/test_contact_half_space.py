"""The half-space solver and the stresses in the steel from Python."""

import numpy as np
import pytest

from wingnose import InputError, contact

CURVATURES = (1 / 0.46, 1 / 0.3)  # 1/m, wheel R 460 mm on rail R 300 mm


def solved():
    patch = contact.hertz_patch(1e5, *CURVATURES)
    grid = contact.grid_for_hertz(48, 64, patch)
    gap = contact.quadratic_gap(grid, *CURVATURES)
    return patch, grid, gap, contact.solve_for_force(grid, gap, 1e5)


def test_fields_have_rows_across_and_columns_along_and_carry_the_load():
    patch, grid, gap, solution = solved()
    assert gap.shape == solution.pressure.shape == (grid.ny, grid.nx) == (64, 48)
    assert solution.pressure.sum() * grid.dx * grid.dy == pytest.approx(1e5)
    assert solution.peak_pressure == pytest.approx(patch.peak_pressure, rel=2e-3)
    assert not solution.touches_edge
    half_length = np.abs(grid.x[solution.pressure.max(axis=0) > 0]).max()
    assert half_length == pytest.approx(patch.a_x, abs=2 * grid.dx)


def test_the_approach_found_gives_back_the_load():
    _, grid, gap, solution = solved()
    back = contact.solve_for_approach(grid, gap, solution.approach, initial_pressure=solution.pressure)
    assert back.force == pytest.approx(1e5, rel=1e-4)


def test_friction_raises_the_worst_stress_to_the_surface():
    _, grid, _, solution = solved()
    depths = np.linspace(0.0, 8e-3, 9)
    free = contact.subsurface_stress(grid, solution.pressure, depths)
    sliding = contact.subsurface_stress(grid, solution.pressure, depths, shear_x=0.5 * solution.pressure)
    assert free.worst_shear.depth > 1e-3
    assert sliding.worst_shear.depth == 0.0
    assert sliding.worst_shear.value > free.worst_shear.value
    point = contact.stress_at(grid, solution.pressure, 0.0, 0.0, depths[3])
    assert contact.max_shear(point) <= free.max_shear[3] * (1 + 1e-3)


def test_line_contact_is_in_plane_strain():
    stress = contact.line_contact_stress(1e9, 1e-3, 0.2e-3, 0.5e-3)
    assert stress.yy == pytest.approx(0.3 * (stress.xx + stress.zz))


def test_a_field_of_the_wrong_shape_and_a_pulling_load_are_refused():
    _, grid, gap, _ = solved()
    with pytest.raises(ValueError, match=r"shape \(64, 48\)"):
        contact.solve_for_force(grid, gap.T, 1e5)
    with pytest.raises(InputError, match="greater than 0"):
        contact.solve_for_force(grid, gap, -1.0)
