"""Search for contact and the strips: this library beside the same algorithms written plainly in NumPy and SciPy.

    python tests/benchmark/contact_search.py PROGRAM [--repeats 5]

PROGRAM is the built `wingnose_search_benchmark`. It hands over shapes (wheel, nose) and gaps (wheel on plain rail); the same search and the same strips work on them as whole arrays (contact_search_numpy.py). Fails before
any time is taken when gaps, patches or forces differ by more than rounding. Printed are processor times of one core
and their ratio.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import time
from collections.abc import Callable
from typing import Any

for threads in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(threads, "1")

import numpy as np
from contact_search_numpy import Abreast, Hertz, Nose, search, strips


def timed(work: Callable[[], object], repeats: int) -> float:
    """Median processor time of one call, in us."""
    times = []
    for _ in range(repeats):
        start = time.process_time()
        for _ in range(50):
            work()
        times.append((time.process_time() - start) / 50)
    return 1e6 * float(np.median(times))


def main() -> int:
    """Compare, then time both and print the table."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("program")
    parser.add_argument("--repeats", type=int, default=5)
    arguments = parser.parse_args()
    answer = subprocess.run([arguments.program], check=True, capture_output=True, text=True).stdout
    measured: dict[str, Any] = json.loads(answer)
    case = measured["search"]
    wheel = {key: np.array(value) if isinstance(value, list) else value for key, value in case["wheel"].items()}
    nose = Nose(case["nose"])
    gap, level, patches = search(wheel, nose, case)
    ours = np.array(case["patches"])
    there = np.array(case["gap"])
    if gap.shape != there.shape or np.abs(gap - there).max() > 1e-12 or abs(level - case["level"]) > 1e-9:
        print("the two searches find different gaps", file=sys.stderr)
        return 1
    if patches.shape != ours.shape or not np.allclose(patches, ours, rtol=1e-7, atol=1e-11):
        print("the two searches find different patches", file=sys.stderr)
        return 1
    hertz, abreast = Hertz(), Abreast()
    laws = []
    for line in measured["strips"]:
        columns = {key: np.array(line[key]) for key in ("gap", "dx", "slope", "curvature_x")}
        found = strips(line, columns, measured["combined_modulus_Pa"], hertz, abreast)
        off = float(np.max(np.abs(found / np.array(line["answer"]) - 1)))
        if off > 1e-6:
            print(f"the strips differ by {off:.1e} at a shift of {line['shift_mm']:g} mm", file=sys.stderr)
            return 1
        laws.append((line, columns))
    print(f"load averages {' '.join(f'{x:.1f}' for x in os.getloadavg())}; processor times, median, one core")
    print(f"{'':38s} {'us':>8s} {'NumPy us':>9s} {'ratio':>6s}")
    plain = timed(lambda: search(wheel, nose, case), arguments.repeats)
    print(f"{'search: gap and patches on a nose':38s} {case['cpu_us']:8.2f} {plain:9.1f} {plain / case['cpu_us']:6.0f}")
    print(f"{'the same without a place to start from':38s} {case['everywhere_cpu_us']:8.2f}")
    for line, columns in laws:
        plain = timed(
            lambda line=line, columns=columns: strips(line, columns, measured["combined_modulus_Pa"], hertz, abreast),
            arguments.repeats,
        )
        name = f"strips on 60E1, shift {line['shift_mm']:g} mm"
        print(f"{name:38s} {line['cpu_us']:8.2f} {plain:9.1f} {plain / line['cpu_us']:6.0f}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
