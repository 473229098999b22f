"""What a case of a sweep costs in every regime, as whole commands, beside SciPy on the same equations.

    python tests/benchmark/regimes.py --build build/release [--quick] [--no-scipy] [--keep FILE]

What varies decides what cases can share, and with it the price of one. For each regime `wingnose sweep` runs on a short
and on a long sweep of the demo crossing; the price of a case is the difference of their processor times (user and
system) over the difference of their cases, so that what is made once is left out and told in a column of its own. The
same sweep runs on all cores by the clock, and from Python, whose own share is told. Beside them stand SciPy's time for
one passage of the same length (8 m at 30 m/s; program `wingnose_benchmark`, if built) and the arithmetic limit of the same
passage: ten multiplications and additions for every mode at every step of 40 us, at the rate of a product of large
matrices on this core. `--keep FILE` adds the figures as one line of JSON with the commit they belong to.
"""

import argparse
import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
FEW = 8  # as many as run side by side


@dataclass(frozen=True)
class Regime:
    name: str
    columns: dict[str, tuple[float, float]]  # key: lowest and highest value
    many: int  # cases of the long sweep
    extra: str = ""  # keys that all cases of the sweep have


REGIMES = (
    Regime("load", {"vehicle.static_load_kN": (60.0, 120.0)}, 1000),
    Regime("speed", {"passage.speed_km_h": (80.0, 140.0)}, 500),
    Regime("speed, no probes", {"passage.speed_km_h": (80.0, 140.0)}, 500, "[passage]\nprobes = false\n"),
    Regime("speed and offset", {"passage.speed_km_h": (80.0, 140.0), "wheel.lateral_offset_mm": (-4.0, 4.0)}, 200),
    Regime(
        "the same, strips",
        {"passage.speed_km_h": (80.0, 140.0), "wheel.lateral_offset_mm": (-4.0, 4.0)},
        60,
        '[contact]\nlaw = "strips"\n',
    ),
    Regime("pads (chain)", {"track.pad_stiffness_MN_m": (80.0, 200.0)}, 200, '[track]\nmethod = "chain"\n'),
)


def values_of(regime: Regime, count: int) -> dict[str, list[float]]:
    """Every value differs in every case; a second key runs in strides, so that no two cases share it either."""
    columns = {}
    for place, (key, (low, high)) in enumerate(regime.columns.items()):
        stride = 1 if place == 0 else next(s for s in range(count * 3 // 8 + 1, 2 * count) if coprime(s, count))
        columns[key] = [round(low + (high - low) * ((i * stride) % count) / max(count - 1, 1), 6) for i in range(count)]
    return columns


def coprime(a: int, b: int) -> bool:
    while b:
        a, b = b, a % b
    return a == 1


def sweep_file(folder: Path, regime: Regime, count: int) -> Path:
    case = folder / "case.toml"
    case.write_text(f'base = "{(ROOT / "profiles" / "demo.toml").as_posix()}"\n{regime.extra}', encoding="utf-8")
    columns = values_of(regime, count)
    lines = [",".join(columns), *(",".join(map(str, row)) for row in zip(*columns.values(), strict=True))]
    (folder / f"{count}.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    file = folder / f"{count}.toml"
    file.write_text(f'case = "case.toml"\n[points]\ncsv = "{count}.csv"\n', encoding="utf-8")
    return file


@dataclass(frozen=True)
class Spent:
    processor: float  # s
    wall: float  # s


def spent_by(command: list[str]) -> Spent:
    def children() -> float:
        usage = resource.getrusage(resource.RUSAGE_CHILDREN)
        return usage.ru_utime + usage.ru_stime

    before, start = children(), time.perf_counter()
    done = subprocess.run(command, check=False, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"{' '.join(command)} ended with {done.returncode}: {done.stderr.strip()}")
    return Spent(children() - before, time.perf_counter() - start)


def by_program(program: Path, sweep: Path, threads: int) -> Spent:
    answers = sweep.with_suffix(".h5")
    answers.unlink(missing_ok=True)
    return spent_by([str(program), "sweep", str(sweep), "--threads", str(threads), "-o", str(answers)])


CHILD = """
import sys, time
import h5py, xarray
from wingnose import study
start = time.process_time()
study.sweep(study.read_sweep(sys.argv[1]), sys.argv[2], threads=1, progress=False)
print(time.process_time() - start)
"""


def by_python(sweep: Path) -> float:
    """Processor time of the sweep without Python's own start and imports."""
    answers = sweep.with_suffix(".python.h5")
    answers.unlink(missing_ok=True)
    command = [sys.executable, "-c", CHILD, str(sweep), str(answers)]
    return float(subprocess.run(command, check=True, capture_output=True, text=True).stdout)


def price(regime: Regime, program: Path, quick: bool) -> dict[str, float]:
    """Least of several runs, taken in turns, so that a slow moment of the machine meets none of them alone."""
    cores = os.cpu_count() or 1
    many = max(regime.many // 10, 3 * FEW) if quick else regime.many
    few = min(FEW, many // 3)
    best: dict[str, float] = {}
    with tempfile.TemporaryDirectory() as name:
        short, long = (sweep_file(Path(name), regime, count) for count in (few, many))
        for _ in range(1 if quick else 3):
            taken = {
                "few_s": by_program(program, short, 1).processor,
                "many_s": by_program(program, long, 1).processor,
                "all_cores_few_s": by_program(program, short, cores).wall,
                "all_cores_many_s": by_program(program, long, cores).wall,
                "python_few_s": by_python(short),
                "python_many_s": by_python(long),
            }
            best = {key: min(value, best.get(key, value)) for key, value in taken.items()}
    cases = many - few
    case = (best["many_s"] - best["few_s"]) / cases
    return {
        "cases": many,
        "case_ms": 1e3 * case,
        "once_ms": 1e3 * (best["few_s"] - few * case),
        "cases_per_s": cases / (best["all_cores_many_s"] - best["all_cores_few_s"]),
        "python_adds_percent": 100.0 * ((best["python_many_s"] - best["python_few_s"]) / cases / case - 1.0),
    }


def scipy_passage(build: Path) -> tuple[float, int] | None:
    """Seconds SciPy takes for one passage of the benchmark's equations within its tolerance, and their modes."""
    benchmark = build / "wingnose_benchmark"
    if not benchmark.exists():
        return None
    with tempfile.TemporaryDirectory() as name:
        ours, theirs = Path(name) / "ours.json", Path(name) / "scipy.json"
        subprocess.run([benchmark, "--json", ours, "--export", name, "--quick"], check=True, capture_output=True)
        script = Path(__file__).with_name("scipy_reference.py")
        subprocess.run([sys.executable, script, name, "--json", theirs, "--repeats", "1"], check=True, capture_output=True)
        fine = json.loads(ours.read_text(encoding="utf-8"))
        wanted = fine["measures"]["adaptive_fine"]
        good = [
            run["processor_s"]
            for run in json.loads(theirs.read_text(encoding="utf-8"))
            if all(abs(run[peak] / wanted[peak] - 1.0) <= 1e-3 for peak in ("first_peak_N", "p2_N"))
        ]
        return (min(good), int(fine["modes"])) if good else None


def limit_ms(modes: int, steps: int = 6667, per_mode: int = 10) -> float:
    """A multiplication and an addition are one; their rate is that of a product of matrices that fit the cache."""
    os.environ["OPENBLAS_NUM_THREADS"] = "1"
    import numpy as np

    n = 256
    a = np.random.default_rng(1).random((n, n))
    a @ a
    taken = []
    for _ in range(20):
        start = time.process_time()
        for _ in range(5):
            a @ a
        taken.append((time.process_time() - start) / 5)
    return 1e3 * modes * steps * per_mode * min(taken) / n**3


def commit() -> str:
    asked = subprocess.run(["git", "-C", str(ROOT), "describe", "--always", "--dirty"], check=False, capture_output=True, text=True)
    return asked.stdout.strip() or "unknown"


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--build", type=Path, required=True, help="build folder that holds wingnose")
    parser.add_argument("--quick", action="store_true", help="few cases once, to see that it works")
    parser.add_argument("--no-scipy", action="store_true", help="leave SciPy's run out, half a minute")
    parser.add_argument("--keep", type=Path, help="add the figures to this file, a line of JSON per run")
    arguments = parser.parse_args()
    program = arguments.build / "wingnose"
    if not program.exists():
        print(f"{program} is missing; build the target wingnose first", file=sys.stderr)
        return 2
    load_before = os.getloadavg()[0]
    reference = None if arguments.no_scipy else scipy_passage(arguments.build)
    head = f"{'what varies in every case':26}{'ms a case':>10}{'once ms':>9}{'cases/s, ' + str(os.cpu_count()) + ' cores':>18}"
    print(f"{head}{'Python adds':>13}{'SciPy / ours':>14}")
    figures: dict[str, dict[str, float]] = {}
    for regime in REGIMES:
        figures[regime.name] = row = price(regime, program, arguments.quick)
        ratio = f"{1e3 * reference[0] / row['case_ms']:.0f}" if reference else "-"
        print(
            f"{regime.name:26}{row['case_ms']:10.2f}{row['once_ms']:9.0f}{row['cases_per_s']:18.0f}"
            f"{row['python_adds_percent']:11.0f} %{ratio:>14}",
            flush=True,
        )
    record = {
        "commit": commit(),
        "time": time.strftime("%Y-%m-%dT%H:%M:%SZ", time.gmtime()),
        "cores": os.cpu_count(),
        "load_average": [load_before, os.getloadavg()[0]],
        "quick": arguments.quick,
        "regimes": figures,
    }
    if reference:
        record["scipy_passage_ms"] = 1e3 * reference[0]
        record["arithmetic_limit_ms"] = limit_ms(reference[1])
        print(
            f"SciPy takes {record['scipy_passage_ms']:.0f} ms for one passage; the arithmetic of its {reference[1]} modes in "
            f"steps of 40 us throughout would take {record['arithmetic_limit_ms']:.2f} ms."
        )
    print(f"load average {load_before:.1f} before, {os.getloadavg()[0]:.1f} after; least of {1 if arguments.quick else 3} runs")
    if arguments.keep:
        with arguments.keep.open("a", encoding="utf-8") as file:
            file.write(json.dumps(record) + "\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
