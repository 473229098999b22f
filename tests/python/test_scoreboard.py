"""The scoreboard tells printed values, recalled ones and those worked by us apart, and hides no failure."""

import csv
import importlib.util
import re
from pathlib import Path

import pytest

TESTS = Path(__file__).parents[1]
spec = importlib.util.spec_from_file_location("print_scoreboard", TESTS / "print_scoreboard.py")
board = importlib.util.module_from_spec(spec)
spec.loader.exec_module(board)


def row(quantity, trust, reference, computed, digits, passed="yes", tolerance="0.1 rel", source="somewhere"):
    return {
        "quantity": quantity,
        "reference": repr(reference),
        "computed": repr(computed),
        "matching_digits": str(digits),
        "tolerance": tolerance,
        "passed": passed,
        "trust": trust,
        "source": source,
    }


@pytest.fixture
def shown(tmp_path, capsys):
    def show(rows):
        path = tmp_path / "board.csv"
        with open(path, "w", newline="", encoding="utf-8") as file:
            writer = csv.DictWriter(file, list(row("", "", 0, 0, 0)))
            writer.writeheader()
            writer.writerows(rows)
        code = board.main(str(path))
        return code, capsys.readouterr().out.splitlines()

    return show


ROWS = [
    row("hardness, HB", "printed", 350.0, 350.0, 15, source="a standard, table of grades"),
    row("C11", "from memory", 3.31, 3.34, 2),
    row("C22", "from memory", 2.52, 2.520001, 6),
    row("patch area, cm2", "common practice", 1.2, 1.5, 0, tolerance="0.25 rel"),
    row("P2, kN", "worked", 211.976, 211.9762, 6, source="evaluated apart"),
    row("energy drift", "worked", 0.0, 1e-9, "-", tolerance="1e-06 abs", source="energy is kept"),
]


def test_the_closing_line_counts_every_kind_by_itself(shown):
    code, lines = shown(ROWS)
    assert code == 0
    assert lines[-1] == "1 printed, 2 from memory, 1 common practice, 2 worked by us; 6 of 6 within tolerance"


def test_a_kind_without_values_is_counted_as_none(shown):
    code, lines = shown([ROWS[4]])
    assert code == 0
    assert lines[-1] == "0 printed, 0 from memory, 0 common practice, 1 worked by us; 1 of 1 within tolerance"


def test_every_kind_has_its_own_table(shown):
    _, lines = shown(ROWS)
    heads = [line for line in lines if line.startswith("== ")]
    assert [head[3:].split(":")[0] for head in heads] == ["printed", "from memory", "common practice", "worked by us"]
    where = {name: next(i for i, line in enumerate(lines) if line.startswith(name + " ")) for name in ("C11", "P2, kN")}
    assert lines.index(heads[1]) < where["C11"] < lines.index(heads[2])
    assert lines.index(heads[3]) < where["P2, kN"]


def test_the_summary_counts_digits_and_names_the_worst(shown):
    _, lines = shown(ROWS)
    found = {line[:16].strip(): line[16:].split() for line in lines if re.match(r"(from memory|worked) +\d", line)}
    assert found["from memory"] == ["2", "2", "-", "-", "1", "-", "-", "-", "1", "-"]
    assert found["worked"] == ["2", "2", "-", "-", "-", "-", "-", "-", "1", "1"]
    assert "Worst from memory: C11: 3.34 against 3.31, 0.91 % off (tolerance 0.1 rel)" in lines


def test_rows_of_a_source_stand_in_the_order_one_counts(shown):
    _, lines = shown([row(f"C11 at a/b {ratio}", "from memory", 1.0, 1.0, 15) for ratio in (10, 0.5, 2)])
    assert [line.split()[3] for line in lines if line.startswith("C11 ")] == ["0.5", "2", "10"]


def test_a_row_reported_by_several_sections_counts_once(shown):
    _, lines = shown([*ROWS, ROWS[0]])
    assert lines[-1].startswith("1 printed,")


def test_a_value_outside_its_tolerance_is_marked_and_fails(shown):
    code, lines = shown([*ROWS, row("C33", "from memory", 1.0, 2.0, 0, passed="no")])
    assert code == 1
    assert next(line for line in lines if line.startswith("C33 ")).endswith("NO")
    assert lines[-1].endswith("6 of 7 within tolerance")


def test_no_rows_at_all_fail(shown):
    code, lines = shown([])
    assert code == 1
    assert lines[-1].endswith("0 of 0 within tolerance")


def test_an_unknown_kind_is_refused(shown):
    with pytest.raises(SystemExit, match='trust "hearsay" of "C11" is none of: printed, from memory'):
        shown([row("C11", "hearsay", 1.0, 1.0, 15)])


def test_no_line_is_longer_than_120_columns(shown):
    long = row("a quantity " * 12, "worked", -1234567.8, -1.2345678e-6, 0, tolerance="0.000321 rel")
    long["source"] = "words " * 40
    _, lines = shown([*ROWS, long])
    assert max(map(len, lines)) <= 120
    assert sum("a quantity" in line for line in lines) > 2  # wrapped, not cut


def test_the_kinds_are_those_of_the_checks():
    header = (TESTS / "published" / "scoreboard.hpp").read_text(encoding="utf-8")
    assert re.findall(r'Name\{Trust::\w+,\s*"([^"]+)"', header) == list(board.TRUST)
