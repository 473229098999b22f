"""The search for a nose shape: never worse than the start, within its bounds, the same again with the same seed."""

import matplotlib.pyplot as plt
import numpy as np
import pytest
from study_cases import cheap_case

import wingnose
from wingnose import _design, optimise, study

DEPTH, END, LIFT = "crossing.nose_start_depth_mm", "crossing.nose_ramp_end_thickness_mm", "crossing.wing_lift_mm"
BOUNDS = {DEPTH: (4.0, 8.0), END: (35.0, 60.0)}
START = {DEPTH: 6.0, END: 45.0}
NEW, HOLLOW = {"wheel.hollow_depth_mm": 0}, {"wheel.hollow_depth_mm": 2}
WHEELS = [optimise.Wheel(NEW, weight=2, group="new"), optimise.Wheel(HOLLOW, weight=1, group="hollow")]
SMALL = {"generations": 2, "population": 6, "refine": 5}


@pytest.fixture(scope="module")
def case():
    return cheap_case()


@pytest.fixture(scope="module")
def problem(case):
    return optimise.Problem(case, BOUNDS, START, WHEELS)


@pytest.fixture(scope="module")
def found(problem):
    return optimise.minimise(problem, seed=3, **SMALL)


@pytest.fixture(scope="module")
def trade_off(problem):
    objectives = (optimise.Objective(group="new"), optimise.Objective(group="hollow"))
    return optimise.front(problem, *objectives, n=8, directions=2, generations=1, population=5, seed=3)


def test_the_design_found_is_better_than_the_start_and_within_its_bounds(case, found):
    assert found.value < found.start_value
    for key, (low, high) in BOUNDS.items():
        assert low <= found.best[key] <= high
    # Answered again, wheel by wheel.
    for design, value in ((found.best, found.value), (START, found.start_value)):
        table = {key: [number] * 2 for key, number in design.items()} | {"wheel.hollow_depth_mm": [0, 2]}
        new, hollow = study.sweep(study.points(case, table), progress=False)["peak_nose_kN"].values
        assert value == pytest.approx((2 * new + hollow) / 3, rel=1e-14)


def test_the_history_holds_every_design_and_never_gets_worse(found):
    history = found.history
    best = history["best_so_far"].values
    assert (np.diff(best) <= 0).all()
    assert best[0] == found.start_value
    assert best[-1] == found.value
    assert history.sizes["design"] > 3 * 6
    assert history["nose_start_depth_mm"].attrs["units"] == "mm"
    for key, (low, high) in BOUNDS.items():
        assert history[key.rpartition(".")[2]].values.min() >= low
        assert history[key.rpartition(".")[2]].values.max() <= high


def test_the_same_seed_finds_the_same_design(problem, found):
    again = optimise.minimise(problem, seed=3, threads=1, **SMALL)
    assert again.best == found.best
    assert again.history.identical(found.history)


def test_no_design_looked_at_beats_the_front_in_both(trade_off):
    names = trade_off.attrs["objectives"]
    assert names == ["peak_nose_kN_new", "peak_nose_kN_hollow"]
    values = np.stack([trade_off[name].values for name in names], axis=1)
    chosen = trade_off["on_front"].values
    assert 1 <= chosen.sum() < len(values)
    for row, on_front in zip(values, chosen, strict=True):
        better = (values <= row).all(axis=1) & (values < row).any(axis=1)
        assert better.any() != on_front


def test_the_front_ends_at_the_best_of_each_objective(trade_off):
    for name in trade_off.attrs["objectives"]:
        assert trade_off[name].where(trade_off["on_front"]).min() == trade_off[name].min()


def test_the_front_is_drawn_with_the_start_beside_it(trade_off):
    ax = optimise.front_plot(trade_off)
    assert "new wheels" in ax.get_xlabel()
    assert "[kN]" in ax.get_ylabel()
    labels = [text.get_text() for text in ax.get_legend().get_texts()]
    assert labels == ["looked at", "front", "start"]
    assert any(wingnose.CAUTION in text.get_text() for text in ax.figure.texts)
    plt.close(ax.figure)


def test_non_dominated_rows_of_a_known_set():
    values = np.array([[1.0, 5.0], [2.0, 2.0], [5.0, 1.0], [3.0, 3.0], [2.0, 2.0], [1.0, 6.0]])
    assert optimise.non_dominated(values).tolist() == [True, True, True, False, True, False]


def test_the_steepest_rise_of_the_nose_is_that_of_its_drawing(case):
    # 6 mm to 1 mm below rail level while the nose of 1:15 thickens from 10 to 45 mm, the ends rounded over 200 mm.
    assert _design.ramp_slope(case) == pytest.approx(5 / (15 * 35), rel=1e-3)
    lifted = case.vary({LIFT: 3, "crossing.wing_lift_run_mm": 400})
    assert _design.wing_lift_slope(lifted) == pytest.approx(3 / 400)


def test_limits_of_manufacture_are_kept(case):
    problem = optimise.Problem(
        case, {**BOUNDS, LIFT: (0.0, 10.0)}, {**START, LIFT: 0.0}, WHEELS, optimise.Limits(ramp_slope=0.0097)
    )
    found = optimise.minimise(problem, seed=3, **SMALL)
    best = case.vary(found.best)
    assert _design.ramp_slope(best) <= 0.0097
    assert _design.wing_lift_slope(best) <= 0.010
    assert not found.history["allowed"].all()
    refused = found.history.where(~found.history["allowed"], drop=True)
    assert all("over their limits" in reason for reason in refused["failure"].values)
    assert refused["peak_nose_kN"].isnull().all()  # not run


def test_limits_of_use_are_kept_under_every_wheel(case):
    thick = optimise.Limits(measures={"nose_thickness_at_transfer_mm": (26.0, np.inf)})
    found = optimise.minimise(optimise.Problem(case, BOUNDS, START, WHEELS, thick), seed=3, **SMALL)
    table = {key: [number] * 2 for key, number in found.best.items()} | {"wheel.hollow_depth_mm": [0, 2]}
    answers = study.sweep(study.points(case, table), progress=False)
    assert (answers["nose_thickness_at_transfer_mm"] >= 26.0).all()


def test_an_optimum_says_at_which_bound_it_lies(case):
    # A nose that begins deeper bears later, at every depth between these: the best lies at the end.
    depths = {DEPTH: (6.0, 6.5)}
    found = optimise.minimise(optimise.Problem(case, depths, {DEPTH: 6.2}, WHEELS), seed=3, **SMALL)
    ends = [said for said in found.governed_by if said.startswith(f"{DEPTH} lies at its ")]
    at_end = min(found.best[DEPTH] - 6.0, 6.5 - found.best[DEPTH]) <= 5e-4
    assert len(ends) == int(at_end)
    assert at_end


def test_any_number_told_may_be_a_constraint(case):
    def margin(design):
        table = {key: [number] * 2 for key, number in design.items()} | {"wheel.hollow_depth_mm": [0, 2]}
        return float(study.sweep(study.points(case, table), progress=False)["rim_margin_mm"].min())

    asked = optimise.Limits(measures={"rim_margin_mm": (0.99 * margin(START), np.inf)})
    found = optimise.minimise(optimise.Problem(case, BOUNDS, START, WHEELS, asked), seed=3, **SMALL)
    assert margin(found.best) >= 0.99 * margin(START)


def test_designs_that_cannot_be_made_are_recorded_and_passed_over(case):
    # From a ramp end of 85 mm on there is no room left before the full height at 85 mm.
    problem = optimise.Problem(case, {END: (60.0, 120.0)}, {END: 60.0}, WHEELS)
    found = optimise.minimise(problem, seed=1, **SMALL)
    assert found.best[END] < 85
    impossible = found.history.where(found.history[END.rpartition(".")[2]] >= 85, drop=True)
    assert impossible.sizes["design"] > 0
    assert not impossible["allowed"].any()
    assert all(impossible["failure"].values)


def test_a_start_that_breaks_a_limit_is_refused(case):
    problem = optimise.Problem(case, BOUNDS, START, WHEELS, optimise.Limits(ramp_slope=0.005))
    with pytest.raises(wingnose.InputError, match="start: slopes are over their limits"):
        optimise.minimise(problem, **SMALL)


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"start": {DEPTH: 6}}, "the same keys"),
        ({"start": {DEPTH: 9, END: 45}}, "start 9"),
        ({"bounds": {DEPTH: (8, 4), END: (35, 60)}}, "bounds 8 to 4"),
        ({"wheels": []}, "at least one"),
        ({"wheels": [optimise.Wheel({DEPTH: 5})]}, "belong to the design"),
        ({"wheels": [optimise.Wheel(NEW), optimise.Wheel({"passage.speed_km_h": 90})]}, "the same keys"),
        ({"wheels": [optimise.Wheel(NEW, weight=0)]}, "weight 0"),
    ],
)
def test_problems_that_do_not_hang_together_are_refused(case, changes, said):
    arguments = {"bounds": BOUNDS, "start": START, "wheels": WHEELS} | changes
    with pytest.raises(wingnose.InputError, match=said):
        optimise.Problem(case, **arguments)


def test_groups_and_measures_that_do_not_exist_are_refused(problem):
    with pytest.raises(wingnose.InputError, match="allowed: hollow, new"):
        optimise.minimise(problem, optimise.Objective(group="worn"), **SMALL)
    with pytest.raises(wingnose.InputError, match="no measure"):
        optimise.minimise(problem, optimise.Objective("p3_kN"), **SMALL)


def test_the_worst_wheel_counts_when_asked(case):
    wheels = tuple(WHEELS)
    answers = np.array([[1.0, 4.0], [3.0, 2.0]])
    assert optimise.Objective(statistic="worst").over(answers, wheels).tolist() == [4.0, 3.0]
    assert optimise.Objective().over(answers, wheels) == pytest.approx([2.0, 8 / 3])
    assert optimise.Objective(group="hollow").over(answers, wheels).tolist() == [4.0, 2.0]


def test_a_design_that_some_wheel_hits_is_no_design_however_good_its_numbers_look(case):
    # The shallower the nose begins, the sooner it bears - until the wheel runs against its first metal.
    problem = optimise.Problem(case, {DEPTH: (0.0, 8.0)}, {DEPTH: 6.0}, WHEELS)
    found = optimise.minimise(problem, seed=3, **SMALL)
    grave = np.array(["grave" in reason for reason in found.history["failure"].values])
    assert grave.any()
    assert not found.history["allowed"].values[grave].any()
    assert np.isfinite(found.history["peak_nose_kN"].values[grave]).any()  # told, not counted
    smaller = found.history["peak_nose_kN"].values[grave] < found.value
    assert any("refused" in said and "grave" in said for said in found.governed_by) == smaller.any()
    for wheel in WHEELS:
        best = study.run(case.vary({**found.best, **wheel.values}))
        assert wingnose.findings(best, gravity="grave") == []
    with pytest.raises(wingnose.InputError, match="start: grave under some wheel: .*flange_contact"):
        beside = [optimise.Wheel({"wheel.lateral_offset_mm": 20})]
        optimise.minimise(optimise.Problem(case, BOUNDS, START, beside), **SMALL)
