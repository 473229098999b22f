"""Rate of a large sweep from Python, beside the program alone, and its memory.

    python tests/benchmark/sweep_from_python.py [--program build/release/wingnose] [--quick] [--json FILE]

Speed, lateral offset, static load and pad stiffness of the demo crossing as a grid of 20,000 cases into a file:

* cases per second with one and two threads, and the efficiency of the second (needs two quiet cores);
* the same grid by the program `wingnose sweep` on one thread: what Python adds, by processor time, so that other
  programs on the machine do not enter;
* peak memory of the process against the number of cases.

Every measurement is a process of its own. The load of the machine is printed with the results.
"""

import argparse
import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
FULL = {"passage.speed_km_h": 20, "wheel.lateral_offset_mm": 10, "vehicle.static_load_kN": 20, "track.pad_stiffness_MN_m": 5}
QUICK = {"passage.speed_km_h": 6, "wheel.lateral_offset_mm": 2, "vehicle.static_load_kN": 10, "track.pad_stiffness_MN_m": 2}
BETWEEN = {
    "passage.speed_km_h": (80.0, 160.0),
    "wheel.lateral_offset_mm": (-3.0, 3.0),
    "vehicle.static_load_kN": (60.0, 110.0),
    "track.pad_stiffness_MN_m": (60.0, 300.0),
}


def values(counts: dict[str, int]) -> dict[str, list[float]]:
    columns = {}
    for key, count in counts.items():
        low, high = BETWEEN[key]
        columns[key] = [round(low + (high - low) * i / max(count - 1, 1), 6) for i in range(count)]
    return columns


def sweep_file(folder: Path, columns: dict[str, list[float]]) -> Path:
    file = folder / "sweep.toml"
    tables = [f'[[vary]]\nkey = "{key}"\nvalues = {list_}\n' for key, list_ in columns.items()]
    file.write_text(f'case = "{(ROOT / "profiles" / "demo.toml").as_posix()}"\n' + "\n".join(tables), encoding="utf-8")
    return file


def child(arguments: argparse.Namespace) -> int:
    """One sweep in this process; prints what it took, without the time of imports."""
    import h5py  # noqa: F401  imported before the clock starts, as is xarray
    import xarray  # noqa: F401

    from wingnose import study

    plan = study.grid(ROOT / "profiles" / "demo.toml", json.loads(arguments.columns))
    wall, processor = time.perf_counter(), time.process_time()
    answers = study.sweep(plan, arguments.file, threads=arguments.threads, progress=False)
    wall, processor = time.perf_counter() - wall, time.process_time() - processor
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    done = int((answers["status"] == 1).sum())
    print(json.dumps({"cases": len(plan), "done": done, "wall_s": wall, "processor_s": processor, "memory_MB": memory}))
    return 0


def from_python(columns: dict[str, list[float]], threads: int) -> dict[str, float]:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "sweep.h5"
        command = [sys.executable, __file__, "--child", "--columns", json.dumps(columns), "--threads", str(threads)]
        printed = subprocess.run([*command, "--file", str(file)], check=True, capture_output=True, text=True).stdout
    measured: dict[str, float] = json.loads(printed)
    if measured["done"] != measured["cases"]:
        print(f"{measured['cases'] - measured['done']:.0f} cases have no result", file=sys.stderr)
    return measured


def by_program(program: str, columns: dict[str, list[float]], threads: int) -> dict[str, float]:
    with tempfile.TemporaryDirectory() as folder:
        sweep = sweep_file(Path(folder), columns)
        command = [program, "sweep", str(sweep), "-o", str(Path(folder) / "sweep.h5"), "--threads", str(threads), "--json"]
        wall = time.perf_counter()
        with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL) as process:
            assert process.stdout is not None
            process.stdout.read()
            _, status, used = os.wait4(process.pid, 0)
            process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode != 0:
            raise SystemExit(f"{' '.join(command)} failed")
        return {
            "wall_s": time.perf_counter() - wall,
            "processor_s": used.ru_utime + used.ru_stime,
            "memory_MB": used.ru_maxrss / 1024,
        }


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--program", default=str(ROOT / "build" / "release" / "wingnose"))
    parser.add_argument("--quick", action="store_true", help="few cases, to see that it works")
    parser.add_argument("--json", type=Path, help="write everything measured there")
    parser.add_argument("--child", action="store_true", help=argparse.SUPPRESS)
    parser.add_argument("--columns", help=argparse.SUPPRESS)
    parser.add_argument("--threads", type=int, help=argparse.SUPPRESS)
    parser.add_argument("--file", help=argparse.SUPPRESS)
    arguments = parser.parse_args()
    if arguments.child:
        return child(arguments)

    columns = values(QUICK if arguments.quick else FULL)
    load = os.getloadavg()[0]
    found: dict[str, dict[str, float]] = {}
    for threads in (1, 2):
        found[f"python_{threads}"] = from_python(columns, threads)
        found[f"program_{threads}"] = by_program(arguments.program, columns, threads)
    part = len(columns["passage.speed_km_h"])
    sizes = {}
    for share in (5, 2, 1):
        fewer = {**columns, "passage.speed_km_h": columns["passage.speed_km_h"][: max(part // share, 1)]}
        measured = from_python(fewer, 1) if share > 1 else found["python_1"]
        sizes[int(measured["cases"])] = measured["memory_MB"]

    cases = found["python_1"]["cases"]
    print(f"{cases:.0f} cases; load of the machine {load:.1f} before, {os.getloadavg()[0]:.1f} after, {os.cpu_count()} cores")
    for name, measured in found.items():
        rate, work = cases / measured["wall_s"], 1e3 * measured["processor_s"] / cases
        print(f"{name:10}  {measured['wall_s']:7.1f} s  {rate:7.0f} cases/s  {work:6.3f} ms of processor per case"
              f"  peak {measured['memory_MB']:.0f} MB")  # fmt: skip
    one, two, bare = (found[name] for name in ("python_1", "python_2", "program_1"))
    results = {
        "efficiency_by_clock": one["wall_s"] / (2 * two["wall_s"]),
        "efficiency_of_work": one["processor_s"] / two["processor_s"],
        "overhead_by_processor": one["processor_s"] / bare["processor_s"] - 1.0,
        "overhead_by_clock": one["wall_s"] / bare["wall_s"] - 1.0,
    }
    print(f"two threads: {results['efficiency_by_clock']:.2f} of twice the rate by the clock, "
          f"{results['efficiency_of_work']:.2f} by the processor time they take together")  # fmt: skip
    print(f"Python adds {100 * results['overhead_by_processor']:.1f} % of processor time to the program, "
          f"{100 * results['overhead_by_clock']:.1f} % by the clock")  # fmt: skip
    print("peak memory: " + ", ".join(f"{size} cases {memory:.0f} MB" for size, memory in sorted(sizes.items())))
    if arguments.json:
        arguments.json.write_text(json.dumps({"load": load, **found, **results, "memory_MB": sizes}, indent=2) + "\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
