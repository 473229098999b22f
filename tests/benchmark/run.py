"""Run the benchmark and SciPy's solve_ivp on the same equations, and print one table.

    python tests/benchmark/run.py --build build/release [--quick] [--json FILE]

Needs NumPy and SciPy. Ratios are of processor times on one core, so that other programs on the machine do not enter.
"""

import argparse
import json
import subprocess
import sys
import tempfile
from pathlib import Path

AGREE = 1e-3  # relative, P1 and P2 against the finest adaptive integration, for a time to count


def table(rows: list[list[str]]) -> None:
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    for row in rows:
        cells = [row[0].ljust(widths[0])] + [c.rjust(w) for c, w in zip(row[1:], widths[1:], strict=True)]
        print("  ".join(cells).rstrip())


def seconds(value: float) -> str:
    return f"{value:.3g} s" if value >= 1.0 else f"{1e3 * value:.3g} ms"


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--build", type=Path, required=True, help="build folder that holds wingnose_benchmark")
    parser.add_argument("--quick", action="store_true", help="few repeats, to see that it works")
    parser.add_argument("--json", type=Path, help="write everything measured there")
    arguments = parser.parse_args()
    program = arguments.build / "wingnose_benchmark"
    if not program.exists():
        print(f"{program} is missing; build the target wingnose_benchmark first", file=sys.stderr)
        return 2

    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        ours_file, scipy_file = folder / "ours.json", folder / "scipy.json"
        command = [program, "--json", ours_file, "--export", folder, *(["--quick"] if arguments.quick else [])]
        status = subprocess.run(command, check=False).returncode
        if not ours_file.exists():
            return status or 1
        print("\nthe same equations by SciPy:", flush=True)
        reference = Path(__file__).with_name("scipy_reference.py")
        repeats = "1" if arguments.quick else "3"
        subprocess.run(
            [sys.executable, reference, folder, "--json", scipy_file, "--repeats", repeats], check=True
        )
        ours = json.loads(ours_file.read_text(encoding="utf-8"))
        scipy = json.loads(scipy_file.read_text(encoding="utf-8"))

    # The yardstick is neither of the two that are compared: the adaptive method at its finest tolerance.
    yardstick = ours["measures"]["adaptive_fine"]

    def judge(peaks: dict[str, float]) -> tuple[list[str], bool]:
        off = [peaks[name] / yardstick[name] - 1.0 for name in ("first_peak_N", "p2_N")]
        agrees = max(map(abs, off)) <= AGREE
        cells = [f"{1e-3 * peaks[n]:.3f}" for n in ("first_peak_N", "p2_N")] + [f"{100.0 * x:+.3f} %" for x in off]
        return [*cells, "yes" if agrees else "no"], agrees

    agreeing = [run for run in scipy if judge(run)[1]]
    best = min(agreeing, key=lambda run: run["processor_s"]) if agreeing else None

    def ratio(processor: float) -> str:
        return f"{best['processor_s'] / processor:.0f}" if best else "-"

    nothing = [""] * 5
    heads = ["CPU", "wall", "cases/s", "ratio to SciPy", "P1 kN", "P2 kN", "P1 off by", "P2 off by", "agrees"]
    rows = [["quantity", *heads]]
    for row in ours["rows"]:
        key = row["key"]
        reference_passage = key.startswith(("single", "probes", "batch", "adaptive"))
        rows.append(
            [
                f"{row['quantity']}, per {row['unit']}",
                seconds(row["processor_median_s"]),
                seconds(row["wall_median_s"]),
                f"{1.0 / row['wall_median_s']:.0f}" if row["unit"] == "case" else "",
                ratio(row["processor_median_s"]) if reference_passage else "",
                *(judge(ours["measures"][key])[0] if key in ours["measures"] else nothing),
            ]
        )
    machine, cores = ours["machine"], ours["all_cores"]
    for key, label in (("passages", "all cores, passages alone"), ("whole", "all cores, dip angle to P1 and P2")):
        timing = cores[key]
        rows.append(
            [
                f"{label}, per case",
                seconds(timing["processor_median_s"] / cores["cases"]),
                seconds(timing["wall_median_s"] / cores["cases"]),
                f"{cores['cases'] / timing['wall_median_s']:.0f}",
                "",
                *nothing,
            ]
        )
    for run in scipy:
        rows.append(
            [
                f"SciPy solve_ivp {run['method']}, rtol {run['rtol']:.0e}, per case",
                seconds(run["processor_s"]),
                seconds(run["wall_s"]),
                f"{1.0 / run['wall_s']:.2f}",
                "1" if run is best else "",
                *judge(run)[0],
            ]
        )
    print(
        f"\n{machine['cores']} cores, {machine['instruction_set']}, load average "
        f"{machine['load_average_before']:.1f} before and {machine['load_average_after']:.1f} after; "
        f"{ours['modes']} modes; medians\n"
    )
    table(rows)
    quiet = cores["cases"] / cores["passages"]["processor_median_s"] * cores["threads"]
    print(
        f"\nRatios are of CPU times, against the quickest SciPy run that agrees: P1 and P2 within {100 * AGREE:g} % of "
        "the adaptive method at its finest tolerance."
        f"\n{cores['cases']} different cases kept {cores['threads']} threads busy; if each core gave them all its time "
        f"(CPU time spread over the cores), that would be {quiet:.0f} cases/s."
    )
    if arguments.json:
        arguments.json.write_text(json.dumps({"wingnose": ours, "scipy": scipy}, indent=1), encoding="utf-8")
    if status == 0 and best is None:
        print("no SciPy run agrees", file=sys.stderr)
        return 1
    return status


if __name__ == "__main__":
    sys.exit(main())
