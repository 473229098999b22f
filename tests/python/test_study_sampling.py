"""Which cases a sweep holds."""

import pickle

import numpy as np
import pandas as pd
import pytest
from scipy import stats
from study_cases import cheap_case

import wingnose
from wingnose import study

SPEED, OFFSET, SIDE = "passage.speed_km_h", "wheel.lateral_offset_mm", "passage.direction"


@pytest.fixture(scope="module")
def case():
    return cheap_case()


def test_all_that_the_compiled_room_offers_is_still_there():
    compiled = {name for name in vars(wingnose._core.study) if not name.startswith("_")}
    assert compiled <= set(study.__all__)
    for name in study.__all__:
        assert hasattr(study, name), name


def test_a_grid_holds_every_combination(case):
    sweep = study.grid(case, {SPEED: np.array([80, 100]), SIDE: np.array(["facing", "trailing"])})
    held = {(sweep.values(i)[SPEED], sweep.values(i)[SIDE]) for i in range(len(sweep))}
    assert held == {(v, d) for v in (80.0, 100.0) for d in ("facing", "trailing")}


def test_points_are_the_rows_of_a_table(case):
    table = {SPEED: [80, 90.5], SIDE: ["trailing", "facing"]}
    for sweep in (study.points(case, table), study.points(case, pd.DataFrame(table))):
        assert not sweep.grid
        assert [sweep.values(i) for i in range(2)] == [
            {SPEED: 80.0, SIDE: "trailing"},
            {SPEED: 90.5, SIDE: "facing"},
        ]
    assert study.points(case, {SPEED: [80, 90], SIDE: "facing"}).values(1)[SIDE] == "facing"


def test_a_file_serves_as_well_as_a_case(demo_file):
    assert len(study.grid(str(demo_file), {SPEED: [80]})) == 1


def test_every_slice_of_a_latin_hypercube_holds_one_case(case):
    n = 40
    sweep = study.latin_hypercube(case, {SPEED: (80, 140), OFFSET: (-4, 4)}, n=n, seed=3)
    for key, (low, high) in {SPEED: (80, 140), OFFSET: (-4, 4)}.items():
        slices = np.floor((np.array(sweep.columns[key]) - low) / (high - low) * n)
        assert sorted(slices) == list(range(n))


def test_sobol_points_fill_every_cell_of_a_dyadic_grid_equally(case):
    sweep = study.sobol(case, {SPEED: (80, 144), OFFSET: (-4, 4)}, n=64, seed=3)
    speed = np.floor((np.array(sweep.columns[SPEED]) - 80) / 8).astype(int)
    offset = np.floor(np.array(sweep.columns[OFFSET]) + 4).astype(int)
    counts = np.zeros((8, 8), int)
    np.add.at(counts, (speed, offset), 1)
    assert (counts == 1).all()


def test_a_sweep_of_a_file_is_the_same_where_it_is_sent(demo_file, tmp_path):
    # The case names a base and sections beside it, the sweep stands elsewhere.
    file = tmp_path / "sweep.toml"
    case = demo_file.with_name("demo_sections.toml").as_posix()
    text = f'case = "{case}"\n[[vary]]\nkey = "{SPEED}"\nvalues = [80, 120]\n'
    file.write_text(text, encoding="utf-8")
    plan = study.read_sweep(file)
    sent = pickle.loads(pickle.dumps(plan))
    assert sent.fingerprint == plan.fingerprint
    assert sent.base == plan.base == wingnose.read_case(case)
    assert sent.case(1) == plan.case(1)
    assert plan.case(1)[SPEED] == 120


@pytest.mark.parametrize("sample", [study.latin_hypercube, study.sobol])
def test_the_same_seed_gives_the_same_cases(case, sample):
    ranges = {SPEED: (80, 140), SIDE: ["facing", "trailing"]}
    first, again, other = (sample(case, ranges, n=16, seed=seed) for seed in (5, 5, 6))
    assert first.fingerprint == again.fingerprint != other.fingerprint


def test_choices_are_equally_frequent_and_whole_numbers_reach_both_ends(case):
    sweep = study.latin_hypercube(case, {SIDE: ["facing", "trailing"], "track.bays": (18, 21)}, n=80, seed=1)
    assert np.unique_counts(sweep.columns[SIDE]).counts.tolist() == [40, 40]
    values, counts = np.unique(sweep.columns["track.bays"], return_counts=True)
    assert values.tolist() == [18, 19, 20, 21]
    assert counts.tolist() == [20] * 4


def test_a_distribution_of_scipy_is_followed(case):
    sweep = study.latin_hypercube(case, {SPEED: stats.norm(100, 5)}, n=1000, seed=1)
    assert stats.kstest(sweep.columns[SPEED], stats.norm(100, 5).cdf).statistic < 1e-3 + 1 / 1000


@pytest.mark.parametrize(
    ("ranges", "said"),
    [
        ({SPEED: (140, 80)}, "low must be below high"),
        ({SPEED: 80}, "a list of choices"),
        ({SPEED: []}, "at least one"),
        ({SIDE: (0, 1)}, "takes a list of choices"),
        ({"passage.sped_km_h": (80, 140)}, "speed_km_h"),
        ({}, "at least one key"),
    ],
)
def test_what_cannot_be_sampled_is_refused_with_advice(case, ranges, said):
    with pytest.raises(wingnose.InputError, match=said):
        study.latin_hypercube(case, ranges, n=4, seed=1)


def test_a_sobol_sample_that_would_lose_its_balance_is_refused(case):
    with pytest.raises(wingnose.InputError, match="Take 64 or 128"):
        study.sobol(case, {SPEED: (80, 140)}, n=100)
