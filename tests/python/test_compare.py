"""Crossings compared from Python: the same answer as the program gives."""

import json
import subprocess

import numpy as np
import pytest

import wingnose
from wingnose import io, study

POPULATION = """
[population]
count = 12
seed = 5

[[population.vary]]
key = "wheel.lateral_offset_mm"
distribution = "uniform"
from = -3
to = 3

[[class]]
name = "new"
share = 60
wheel = { profile = "S1002" }

[[class]]
name = "hollow"
share = 40
wheel = { profile = "S1002", hollow_depth_mm = 2 }
"""


@pytest.fixture(scope="module")
def asked(demo_file):
    crossings = "".join(f'[[crossing]]\nname = "{name}"\ncase = "{name}.toml"\n' for name in ("demo", "worn"))
    return io.parse_comparison(crossings + POPULATION, folder=demo_file.parent)


@pytest.fixture(scope="module")
def comparison(asked):
    return study.compare(asked.crossings, study.draw(asked.wheels), options=asked.options)


def test_a_comparison_answers_every_wheel_on_every_crossing(comparison):
    assert comparison.crossings == ["demo", "worn"]
    for crossing in range(2):
        p2 = comparison.observed(crossing, study.Observed.p2)
        assert p2.shape == (12,)
        assert np.all(p2 > 60e3)
    assert comparison.dropped == 0.0
    assert len(comparison.rankings) >= 5
    assert comparison.differences


def test_one_wheel_of_a_comparison_is_the_case_run_by_itself(asked, comparison):
    document = asked.crossings[1].document
    new = next(i for i, member in enumerate(comparison.population.members) if member.wheel_class == 0)
    case = document.vary(dict(comparison.population.members[new].values))
    outcome = study.run_many([case])[0]
    assert comparison.observed(1, study.Observed.p2)[new] == outcome.result.measures.p2


def test_the_number_of_threads_changes_nothing(asked, comparison):
    again = study.compare(asked.crossings, study.draw(asked.wheels), options=asked.options.replace(threads=1))
    assert io.comparison_json(again) == io.comparison_json(comparison)


def test_a_stored_comparison_says_what_the_program_says(asked, comparison, command_line, demo_file, tmp_path):
    io.write_comparison(tmp_path / "ours.h5", asked.crossings, comparison, asked.text)
    file = tmp_path / "compare.toml"
    crossings = "".join(
        f'[[crossing]]\nname = "{name}"\ncase = "{(demo_file.parent / name).as_posix()}.toml"\n' for name in ("demo", "worn")
    )
    file.write_text(crossings + POPULATION, encoding="utf-8")
    done = subprocess.run([command_line, "compare", file, "--json"], capture_output=True, text=True, check=True)
    theirs, ours = json.loads(done.stdout), json.loads(io.comparison_json(comparison))
    assert theirs.keys() == ours.keys()
    changed = {key for key in ours if theirs[key] != ours[key]}
    assert changed <= {"case_text", "comparison_text", "commit", "text"}, changed
    assert len(ours) - len(changed) > 5
    assert (tmp_path / "ours.h5").stat().st_size > 0


def test_an_impossible_comparison_is_refused(asked, demo_file):
    with pytest.raises(wingnose.InputError, match="Did you mean"):
        io.parse_comparison('[[crosing]]\nname = "a"\n', folder=demo_file.parent)
    with pytest.raises(wingnose.InputError):
        study.compare(asked.crossings, study.draw(asked.wheels), options=asked.options.replace(thin_nose=-1.0))
