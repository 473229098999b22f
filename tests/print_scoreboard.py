"""Print the rows the checks of tests/published left in a CSV file: a table and a summary for each kind of reference."""

import csv
import math
import re
import sys
import textwrap
from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import groupby

Row = dict[str, str]

# What a reference value is, by the names of Trust in tests/published/scoreboard.hpp; how the closing line calls it.
TRUST = {
    "printed": ("printed", "seen in a publication"),
    "from memory": ("from memory", "published, quoted from memory; how sure in brackets"),
    "common practice": ("common practice", "facts of the trade, no source"),
    "worked": ("worked by us", "a published formula evaluated, another method, closed mathematics"),
}
WIDTH = 120
NUMBERS = "{:>12}  {:>12}  {:>6}  {:<12}  {:<2}"
DIGITS = [*map(str, range(6)), "6+", "zero"]


def difference(row: Row) -> float:
    """Relative difference, by which the worst row is found; of a zero there is none."""
    reference, computed = float(row["reference"]), float(row["computed"])
    if math.isnan(computed):
        return math.inf
    return abs(computed - reference) / abs(reference) if reference else 0.0


def counting(text: str) -> list[tuple[str, float]]:
    """Sorts as one counts: 2 mm before 10 mm."""
    return [(words, float(number or "inf")) for words, number in re.findall(r"(\D*)(\d+(?:\.\d+)?|$)", text)]


def digits(row: Row) -> str:
    """The column of the summary a row counts in."""
    if float(row["reference"]) == 0.0:
        return "zero"
    return str(row["matching_digits"]) if int(row["matching_digits"]) < 6 else "6+"


def table(rows: list[Row]) -> Iterator[str]:
    """One line per row, under a heading per source."""
    room = WIDTH - len(NUMBERS.format("", "", "", "", "")) - 2
    yield f"{'quantity':<{room}}  " + NUMBERS.format("reference", "computed", "digits", "tolerance", "ok")
    for source, group in groupby(rows, lambda row: row["source"]):
        yield from textwrap.wrap(source, WIDTH - 2, initial_indent="- ", subsequent_indent="  ")
        for row in group:
            *above, last = textwrap.wrap(row["quantity"], room, subsequent_indent="  ") or [""]
            yield from above
            numbers = NUMBERS.format(
                f"{float(row['reference']):.7g}",
                f"{float(row['computed']):.7g}",
                row["matching_digits"],
                row["tolerance"],
                "" if row["passed"] == "yes" else "NO",
            )
            yield f"{last:<{room}}  {numbers}".rstrip()


def summary(kinds: dict[str, list[Row]]) -> Iterator[str]:
    """How many values of each kind, how many digits agree, and which agrees least."""
    line = "{:<16}{:>6}{:>17}   " + "{:>6}" * len(DIGITS)
    yield f"{'':<42}" + "values that agree in this many digits".rjust(6 * len(DIGITS))
    yield line.format("reference", "values", "within tolerance", *DIGITS)
    for trust, rows in kinds.items():
        count = Counter(map(digits, rows))
        within = sum(row["passed"] == "yes" for row in rows)
        yield line.format(trust, len(rows), within, *(count[name] or "-" for name in DIGITS))
    yield "Digits: minus log10 of the relative difference, rounded down; zero: the reference is 0, which has none."
    for trust, rows in kinds.items():
        if rows:
            row = max(rows, key=difference)
            text = (
                f"Worst {TRUST[trust][0]}: {row['quantity']}: {float(row['computed']):.7g} against "
                f"{float(row['reference']):.7g}, {100 * difference(row):.2g} % off (tolerance {row['tolerance']})"
            )
            yield from textwrap.wrap(text, WIDTH, subsequent_indent="  ")


def closing(kinds: dict[str, list[Row]]) -> str:
    rows = [row for group in kinds.values() for row in group]
    within = sum(row["passed"] == "yes" for row in rows)
    counts = ", ".join(f"{len(group)} {TRUST[trust][0]}" for trust, group in kinds.items())
    return f"{counts}; {within} of {len(rows)} within tolerance"


def sorted_kinds(rows: Iterable[Row]) -> dict[str, list[Row]]:
    # A check that runs in several sections reports the same row more than once.
    kinds: dict[str, list[Row]] = {trust: [] for trust in TRUST}
    for row in {tuple(row.values()): row for row in rows}.values():
        if row["trust"] not in kinds:
            raise SystemExit(f"trust \"{row['trust']}\" of \"{row['quantity']}\" is none of: {', '.join(TRUST)}")
        kinds[row["trust"]].append(row)
    for group in kinds.values():
        group.sort(key=lambda row: (row["source"], counting(row["quantity"])))
    return kinds


def main(path: str) -> int:
    with open(path, newline="", encoding="utf-8") as file:
        kinds = sorted_kinds(csv.DictReader(file))
    for trust, rows in kinds.items():
        if rows:
            print(f"== {TRUST[trust][0]}: {TRUST[trust][1]}", *table(rows), "", sep="\n")
    print(*summary(kinds), "", closing(kinds), sep="\n")
    rows = [row for group in kinds.values() for row in group]
    return 0 if rows and all(row["passed"] == "yes" for row in rows) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
