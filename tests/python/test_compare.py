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
    assert changed <= {"case_text", "comparison_text", "commit", "text", "inputs"}, changed
    assert len(ours) - len(changed) > 5
    assert (tmp_path / "ours.h5").stat().st_size > 0


def test_an_impossible_comparison_is_refused(asked, demo_file):
    with pytest.raises(wingnose.InputError, match="Did you mean"):
        io.parse_comparison('[[crosing]]\nname = "a"\n', folder=demo_file.parent)
    with pytest.raises(wingnose.InputError):
        study.compare(asked.crossings, study.draw(asked.wheels), options=asked.options.replace(thin_nose=-1.0))


def test_what_the_landings_do_to_the_steel_is_told_when_asked_for_and_changes_nothing_else(asked, comparison):
    on = study.compare(asked.crossings, study.draw(asked.wheels), options=asked.options.replace(steel=True))
    for crossing in range(2):
        for of in (study.Observed.p2, study.Observed.lost_contact, study.Observed.nose_thickness):
            assert np.array_equal(on.observed(crossing, of), comparison.observed(crossing, of))
        assert np.all(np.isnan(comparison.observed(crossing, study.Observed.wear_volume)))
        assert np.all(on.observed(crossing, study.Observed.wear_volume) > 0.0)
        exceeds = on.observed(crossing, study.Observed.shakedown) > 1.0
        share = np.average(exceeds, weights=[member.weight for member in on.population.members])
        assert on.beyond_shakedown[crossing] == pytest.approx(share)
    assert len(on.rankings) == len(comparison.rankings) + 3
    assert any("runs straight" in text for text in on.steel_assumptions)
    assert list(comparison.steel_assumptions) == []


def test_the_steel_under_one_wheel_is_that_of_the_damage_command(command_line, demo_file, tmp_path):
    crossings = "".join(
        f'[[crossing]]\nname = "{name}"\ncase = "{(demo_file.parent / name).as_posix()}.toml"\n' for name in ("demo", "worn")
    )
    file = tmp_path / "one.toml"
    file.write_text(crossings + "[[wheel]]\nweight = 1\n[compare]\nsteel = true\n", encoding="utf-8")

    def told(*arguments):
        return json.loads(subprocess.run([command_line, *arguments, "--json"], capture_output=True, check=True).stdout)

    compared = told("compare", file)
    for crossing in compared["crossings"]:
        damage = told("damage", demo_file.with_name(f"{crossing['name']}.toml"))["passage"]
        keys = damage.keys() & crossing["distributions"].keys()
        assert len(keys) == 7
        for key in keys:
            # Comparisons advance passages eight at a time, which rounds otherwise.
            assert crossing["distributions"][key]["mean"] == pytest.approx(damage[key], rel=1e-6), key


def test_a_comparison_names_the_files_it_rests_on(asked, comparison, demo_file):
    told = {(item.role, item.path): item.sha256 for item in comparison.inputs}
    for name, crossing in (("demo", asked.crossings[0]), ("worn", asked.crossings[1])):
        for item in crossing.document.base.inputs:
            assert told[f"crossing {name}: {item.role}", item.path] == item.sha256
    assert ("crossing demo: case", "demo.toml") in told
    assert all(len(checksum) == 64 for checksum in told.values())
