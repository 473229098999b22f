"""Print the rows the published checks left in a CSV file as one aligned table."""

import csv
import sys


def main() -> int:
    with open(sys.argv[1], newline="", encoding="utf-8") as file:
        # A check that runs in several sections reports the same row more than once.
        rows = list({tuple(row.values()): row for row in csv.DictReader(file)}.values())
    rows.sort(key=lambda row: (row["source"], row["quantity"]))
    columns = {
        "quantity": [row["quantity"] for row in rows],
        "published": [f"{float(row['published']):.7g}" for row in rows],
        "computed": [f"{float(row['computed']):.7g}" for row in rows],
        "digits": [row["matching_digits"] for row in rows],
        "tolerance": [row["tolerance"] for row in rows],
        "source": [row["source"] for row in rows],
    }
    width = {name: max(map(len, [name, *cells])) for name, cells in columns.items()}
    right = {"published", "computed", "digits"}
    for cells in [list(columns), *zip(*columns.values(), strict=True)]:
        line = (
            cell.rjust(width[name]) if name in right else cell.ljust(width[name])
            for name, cell in zip(columns, cells, strict=True)
        )
        print("  ".join(line).rstrip())
    failed = [row["quantity"] for row in rows if row["passed"] != "yes"]
    print(f"{len(rows)} published values, {len(rows) - len(failed)} within tolerance")
    return 1 if failed or not rows else 0


if __name__ == "__main__":
    sys.exit(main())
