"""Which inputs a measure depends on."""

import matplotlib.pyplot as plt
import numpy as np
import pytest
from scipy import stats
from study_cases import cheap_case

import wingnose
from wingnose import sensitivity, study, to_datatree

SPEED, LOAD, DEPTH = "passage.speed_km_h", "vehicle.static_load_kN", "crossing.nose_start_depth_mm"
RANGES = {SPEED: (80, 140), LOAD: (60, 110), DEPTH: (4, 7)}


@pytest.fixture(scope="module")
def case():
    return cheap_case()


@pytest.fixture(scope="module")
def sobol(case):
    return sensitivity.sobol_design(case, RANGES, n=64, seed=1)


@pytest.fixture(scope="module")
def answers(sobol):
    return study.sweep(sobol.plan, progress=False)


def with_formula(design, formula, measure="p2_kN"):
    """Answers of a design in which a formula of the unit cube stands for a measure."""
    rows = {f"measures/{measure}": formula(*design.unit.T), "status": np.ones(len(design.plan))}
    answer = to_datatree(design.plan.tree(rows))
    answer.attrs["fingerprint"] = design.plan.fingerprint
    return study.to_dataset(answer)


def ishigami(a, b, c):
    x, y, z = (np.pi * (2 * u - 1) for u in (a, b, c))
    return np.sin(x) + 7 * np.sin(y) ** 2 + 0.1 * z**4 * np.sin(x)


def test_indices_of_a_function_known_in_closed_form_are_found(case):
    # Ishigami and Homma 1990; shares of its variance follow by integration.
    design = sensitivity.sobol_design(case, RANGES, n=512, seed=1)
    indices = sensitivity.analyse(design, with_formula(design, ishigami), ["p2_kN"]).sel(measure="p2_kN")
    a, b = 7.0, 0.1
    first = np.array([0.5 * (1 + b * np.pi**4 / 5) ** 2, a**2 / 8, 0.0])
    joint = b**2 * np.pi**8 * (1 / 18 - 1 / 50)
    variance = first.sum() + joint
    assert indices["first"].values == pytest.approx(first / variance, abs=0.05)
    assert indices["total"].values == pytest.approx((first + [joint, 0, joint]) / variance, abs=0.05)
    # An interval of 95 % misses now and then; twice its half-width does not here.
    assert (abs(indices["first"] - first / variance) < 2 * indices["first_confidence"]).all()


def test_a_straight_line_has_its_slopes_as_changes_and_no_spread(case):
    design = sensitivity.morris_design(case, RANGES, trajectories=10, seed=1)
    dataset = with_formula(design, lambda a, b, c: 3 * a - 2 * b + 0 * c)
    indices = sensitivity.analyse(design, dataset, ["p2_kN"]).sel(measure="p2_kN")
    assert indices["mean"].values == pytest.approx([3, -2, 0], abs=1e-9)
    assert indices["mean_absolute"].values == pytest.approx([3, 2, 0], abs=1e-9)
    assert indices["spread"].values == pytest.approx([0, 0, 0], abs=1e-9)


def test_the_dip_angle_does_not_depend_on_speed_or_load(sobol, answers):
    indices = sensitivity.analyse(sobol, answers, ["dip_angle_mrad", "p2_kN"])
    dip = indices["total"].sel(measure="dip_angle_mrad")
    assert dip.sel(factor="speed_km_h") == 0
    assert dip.sel(factor="static_load_kN") == 0
    assert dip.sel(factor="nose_start_depth_mm") > 0.9
    assert (indices["total"].sel(measure="p2_kN") > 0.001).all()
    assert indices.attrs["caution"] == wingnose.CAUTION


def test_a_measure_that_does_not_vary_has_no_indices(case):
    design = sensitivity.morris_design(case, {SPEED: (80, 140)}, trajectories=4, seed=1)
    indices = sensitivity.analyse(design, study.sweep(design.plan, progress=False), ["dip_angle_mrad"])
    assert indices["mean_absolute"].isnull().all()


@pytest.mark.parametrize("make", [sensitivity.sobol_design, sensitivity.morris_design])
def test_the_same_seed_gives_the_same_design_and_indices(case, make):
    first, again = make(case, RANGES, 16, seed=4), make(case, RANGES, 16, seed=4)
    assert first.plan.fingerprint == again.plan.fingerprint
    dataset = study.sweep(first.plan, progress=False)
    one, two = (sensitivity.analyse(design, dataset, ["p2_kN"]) for design in (first, again))
    assert one.identical(two)


def test_distributions_and_choices_serve_as_inputs(case):
    ranges = {SPEED: stats.norm(110, 10), "passage.direction": ["facing", "trailing"]}
    for make in (sensitivity.sobol_design, sensitivity.morris_design):
        plan = make(case, ranges, 8, seed=1).plan
        assert set(plan.columns["passage.direction"]) == {"facing", "trailing"}
        assert np.isfinite(plan.columns[SPEED]).all()


@pytest.mark.parametrize("make", [sensitivity.sobol_design, sensitivity.morris_design])
def test_failed_cases_are_refused_or_left_out_with_all_that_belongs_to_them(case, make):
    design = make(case, RANGES, 16, seed=1)
    dataset = study.sweep(design.plan, progress=False)
    whole = sensitivity.analyse(design, dataset, ["p2_kN"], failed="drop")
    assert whole["dropped"] == 0
    dataset["p2_kN"].values[design.block] = np.nan  # one case of the second block
    dataset["failure"].values[design.block] = "the wheel has left the rail"
    with pytest.raises(wingnose.InputError, match="1 of .* cases have no value.*the wheel has left the rail"):
        sensitivity.analyse(design, dataset, ["p2_kN"])
    dropped = sensitivity.analyse(design, dataset, ["p2_kN", "peak_total_kN"], failed="drop")
    assert dropped["dropped"].values.tolist() == [1, 0]
    assert dropped.sel(measure="p2_kN").to_array().notnull().all()
    dataset["p2_kN"].values[:] = np.nan
    with pytest.raises(wingnose.InputError, match="only 0 of 16"):
        sensitivity.analyse(design, dataset, ["p2_kN"], failed="drop")


def test_answers_of_another_sweep_are_refused(sobol, case):
    other = study.sweep(study.grid(case, {SPEED: [80, 90]}), progress=False)
    with pytest.raises(wingnose.InputError, match="another sweep"):
        sensitivity.analyse(sobol, other, ["p2_kN"])


@pytest.mark.parametrize(("measure", "said"), [("p3_kN", "no measure"), ("status", "no measure")])
def test_measures_that_do_not_exist_are_refused(sobol, answers, measure, said):
    with pytest.raises(wingnose.InputError, match=said):
        sensitivity.analyse(sobol, answers, [measure])


@pytest.mark.parametrize("arguments", [{"n": 100}, {"n": 0}])
def test_numbers_of_points_that_lose_the_balance_are_refused(case, arguments):
    with pytest.raises(wingnose.InputError, match="powers of two"):
        sensitivity.sobol_design(case, RANGES, **arguments)


@pytest.mark.parametrize("method", ["sobol", "morris"])
def test_the_ranking_shows_the_strongest_input_on_top(case, sobol, answers, method):
    design, dataset = sobol, answers
    if method == "morris":
        design = sensitivity.morris_design(case, RANGES, 8, seed=1)
        dataset = study.sweep(design.plan, progress=False)
    indices = sensitivity.analyse(design, dataset, ["p2_kN"])
    ax = sensitivity.ranking(indices, "p2_kN")
    shown = [label.get_text() for label in ax.get_yticklabels()]
    by = indices["total" if method == "sobol" else "mean_absolute"].sel(measure="p2_kN")
    assert shown[-1] == str(by["factor"].values[int(np.argmax(by.values))])
    assert any(wingnose.CAUTION in text.get_text() for text in ax.figure.texts)
    plt.close(ax.figure)
